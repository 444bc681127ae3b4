"""While a site is served, what is wrong with the writer's files is where the page would be, and above the others."""

from collections.abc import Sequence

from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.source.source_errors import SourceError


def problem_page(name: str, problems: Sequence[SourceError]) -> str:
    """The Markdown of the page of a recipe file that cannot be used.

    Args:
        name: the path of the file in docs_dir without the ending.
        problems: all of them.
    """
    title = f"{name.rpartition('/')[2].replace('-', ' ').capitalize()}: not yet"
    note = "The card comes back when the file is saved without them"
    return f"# {title}\n\n{problem_box(problems, note)}\n"


def problem_box(problems: Sequence[SourceError], note: str) -> str:
    """The problems as HTML, for the place of a directive or above a page; nothing where there are none."""
    if not problems:
        return ""
    count = "One problem" if len(problems) == 1 else f"{len(problems)} problems"
    return component("problems", title=f"{count}. {note}.", problems=problems)
