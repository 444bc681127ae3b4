"""Style sheets and scripts as they go to the reader: without comments and spaces, and with short names."""

import minify

_TYPES = {".css": "text/css", ".js": "application/javascript"}


def minified(name: str, source: str) -> bytes:
    """A smaller style sheet or script that does the same; any other file as it is.

    Args:
        name: the name of the file, which shows by its ending what it is.

    >>> minified("button.css", "a { color: #ff0000; } /* red */")
    b'a{color:red}'
    """
    ending = name[name.rfind(".") :]
    shorter = minify.string(_TYPES[ending], source) if ending in _TYPES else source
    return str(shorter).encode("utf-8")
