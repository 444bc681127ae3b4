"""Reads the text of a file that a writer saved."""

from pathlib import Path

from crumbcoat_site.recipe_cards.source.source_errors import SourceError


def text_of(source: Path, file: str) -> str:
    """The text of a file; `file` is the name that errors show.

    Raises:
        SourceError: if it is not UTF-8.
    """
    content = source.read_bytes()
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        problem = f"the line has a byte that is not UTF-8 text, {content[error.start]:#04x}"
        raise SourceError(file, line, problem, "save the file as UTF-8") from None
