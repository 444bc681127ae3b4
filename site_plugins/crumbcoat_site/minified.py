"""Style sheets and scripts as they go to the reader: without what only their writers read, and with short names."""

import minify

_TYPES = {".css": "text/css", ".js": "application/javascript"}


def minified(name: str, source: str) -> bytes:
    """A style sheet or a script, smaller, that does the same; any other file as it is.

    Args:
        name: the file's name; its ending tells what it is.

    >>> minified("button.css", "a { color: #ff0000; } /* red */")
    b'a{color:red}'
    """
    ending = name[name.rfind(".") :]
    shorter = minify.string(_TYPES[ending], source) if ending in _TYPES else source
    return str(shorter).encode("utf-8")
