"""While a site is served, what is wrong with the writer's files is where the page would be, and above the others."""

import logging
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.page_parts import markdown_safe
from crumbcoat_site.recipe_cards.source.source_errors import SourceError


def problem_page(name: str, problems: Sequence[SourceError]) -> str:
    """The Markdown of the page of a recipe file that cannot be used.

    Args:
        name: the path of the file in docs_dir without the ending.
        problems: all of them.
    """
    title = f"{name.rpartition('/')[2].replace('-', ' ').capitalize()}: not yet"
    note = "The card comes back when the file is saved without them"
    return f"# {markdown_safe(title)}\n\n{problem_box(problems, note)}\n"


def problem_box(problems: Sequence[SourceError], note: str) -> str:
    """The problems as HTML, for the place of a directive or above a page; nothing where there are none."""
    if not problems:
        return ""
    count = "One problem" if len(problems) == 1 else f"{len(problems)} problems"
    return component("problems", title=f"{count}. {note}.", problems=problems)


class _Errors(logging.Handler):
    """Keeps the words of errors, and prints nothing."""

    def __init__(self) -> None:
        super().__init__(logging.ERROR)
        self.words: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep one."""
        self.words.append(record.getMessage())


@contextmanager
def errors_logged() -> Iterator[list[str]]:
    """The errors that MkDocs logs in a block: of a setting that it cannot use it says no more in its exception."""
    handler = _Errors()
    logger = logging.getLogger("mkdocs")
    logger.addHandler(handler)
    try:
        yield handler.words
    finally:
        logger.removeHandler(handler)


def put_into_pages(root: Path, problem: SourceError) -> None:
    """Put a problem of the whole site above every page that was built before."""
    box = f'<div class="cc-card">{problem_box([problem], "The pages are as they were")}</div>'
    for page in root.rglob("*.html"):
        before, opening, after = page.read_text(encoding="utf-8").partition("<article")
        head, end, rest = after.partition(">")
        if opening and box not in rest:
            page.write_text(f"{before}{opening}{head}{end}{box}{rest}", encoding="utf-8")
