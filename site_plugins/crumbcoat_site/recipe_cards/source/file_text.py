"""Reads the text of a file that a writer saved."""

import re
from pathlib import Path

from crumbcoat_site.recipe_cards.source.source_errors import SourceError

_UNSEEN = re.compile("[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")


def text_of(source: Path, file: str) -> str:
    """The text of a file; `file` is the name that errors show.

    Raises:
        SourceError: if it is not UTF-8, or its path has a character that a terminal takes for an order.
    """
    unseen = _UNSEEN.search(file)
    if unseen:
        problem = f"the path has a character that cannot be shown, U+{ord(unseen[0]):04X}, here as `?`"
        raise SourceError(_UNSEEN.sub("?", file), 1, problem, "give the file, or the folder, another name")
    content = source.read_bytes()
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        problem = f"the line has a byte that is not UTF-8 text, {content[error.start]:#04x}"
        raise SourceError(file, line, problem, "save the file as UTF-8") from None
