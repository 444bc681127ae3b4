"""Markdown of reference pages: front matter and tables."""

from collections.abc import Iterable, Sequence


def page(title: str, description: str, *parts: str, boost: int = 1) -> str:
    """A whole page; its parts are paragraphs, headings and tables. `boost`: how much it weighs in the site's search."""
    weight = "" if boost == 1 else f"search:\n  boost: {boost}\n"
    head = f"---\ntitle: {title}\ndescription: {description}\n{weight}---\n\n# {title}\n"
    note = "<!-- Written by `make reference` from the code that it describes: change the text there. -->"
    return "\n".join([head, note, *[f"\n{part.strip()}" for part in parts]]) + "\n"


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table; a bar in a cell is escaped."""
    lines = [head, ["---"] * len(head), *rows]
    return "\n".join("| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |" for line in lines)
