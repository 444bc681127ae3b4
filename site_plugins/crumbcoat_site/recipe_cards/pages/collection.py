"""The recipes of the site together: the chart of their fat percentages and the list of their cards."""

import posixpath
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from crumbcoat_site.recipe_cards.build.environment import environment
from crumbcoat_site.recipe_cards.build.page_files import PageFiles

MARK = "<!-- crumbcoat:"
"""What a line begins with that asks for something made from the recipes of the site."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One recipe in a list of recipes; `url` is its page's, from the site's root."""

    made: PageFiles
    url: str


def with_collection(markdown: str, entries: Sequence[Entry], url: str) -> str:
    """The Markdown with each mark replaced by what it stands for.

    Marks stand on lines of their own: `<!-- crumbcoat: fat chart -->`, `<!-- crumbcoat: recipe list -->`,
    `<!-- crumbcoat: models -->`.

    Args:
        entries: the recipes of the site.
        url: the page's own, from the site's root.
    """
    for mark, draw in _MARKS.items():
        place = f"<!-- crumbcoat: {mark} -->"
        if place in markdown:
            markdown = markdown.replace(place, draw(entries, url))
    return markdown


def way(to: str, start: str) -> str:
    """The relative address of one page from another, both as addresses of folders from the site's root.

    >>> way("creams/whipped/", "low-fat/veil/"), way("creams/whipped/", "")
    ('../../creams/whipped/', 'creams/whipped/')
    """
    return posixpath.relpath(to or ".", start or ".") + "/"


def _fat_chart(entries: Sequence[Entry], url: str) -> str:
    richest_first = sorted(entries, key=lambda entry: (-(entry.made.fat_percent or -1.0), entry.made.title))
    shown = [(entry.made, way(entry.url, url)) for entry in richest_first]
    return environment().get_template("fat_chart.md.jinja").render(entries=shown)


def _recipe_list(entries: Sequence[Entry], url: str) -> str:
    shown = [
        (entry.made, way(entry.url, url))
        for entry in sorted(entries, key=lambda entry: (entry.made.family, entry.made.title))
    ]
    return environment().get_template("recipe_list.md.jinja").render(entries=shown)


def _models(entries: Sequence[Entry], url: str) -> str:
    # Only here, since these are the models of all of calc, and few pages list them.
    from crumbcoat_calc.texts.explained import EXPLAINED, GROUPS

    groups = [(group, [one for one in EXPLAINED if one.group == group]) for group in GROUPS]
    return environment().get_template("parts/models.jinja").render(groups=groups)


_MARKS: dict[str, Callable[[Sequence[Entry], str], str]] = {
    "fat chart": _fat_chart,
    "recipe list": _recipe_list,
    "models": _models,
}
