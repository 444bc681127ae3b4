"""The calculators' own pages: a mark with the recipes to start from becomes a form that the calculator fills in."""

import json
import re
from collections.abc import Callable, Sequence

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import did_you_mean

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.start import Start

_MARK = re.compile(r"^<!-- crumbcoat: (formulate|replace|compare|map|handout) from ([^>]+?) -->$", re.MULTILINE)


def with_forms(
    markdown: str,
    starts: Sequence[Start],
    data_of: Callable[[str], dict[str, object]],
    cache: PageCache,
) -> str:
    """The Markdown with each mark replaced by the form of a calculator.

    A mark stands on a line of its own: `<!-- crumbcoat: formulate from low-fat/everyday-milk-frosting -->`; `replace`
    and `map` likewise, `compare from` two to six recipes, and `handout from` one to four.

    Args:
        starts: the recipes of the site.
        data_of: gives the fields of a recipe by its name.
        cache: where a form is kept until its recipes, or the list of all, change.

    Raises:
        InputError: if a recipe of a mark is not there, or cannot be calculated with.
    """
    return _MARK.sub(lambda mark: _form(mark[1], mark[2].split(), starts, data_of, cache), markdown)


def _form(
    tool: str,
    names: Sequence[str],
    starts: Sequence[Start],
    data_of: Callable[[str], dict[str, object]],
    cache: PageCache,
) -> str:
    known = {start.name for start in starts}
    for name in names:
        if name not in known:
            remedy = did_you_mean(name, known, "name a recipe by its path, without ending")
            raise InputError(f"there is no recipe {name!r} to start from", remedy)
    recipes = {name: data_of(name) for name in names}
    listed = [(start.name, start.title, start.card) for start in starts]
    key = cache.key(json.dumps([list(names), recipes, listed]).encode(), "form", tool)
    kept = cache.get(key)
    if kept is None:
        # Only here, since a build that finds every page and form need not load calc, its tables and pint.
        from crumbcoat_site.recipe_cards.pages.form_html import form_html

        kept = {"html": form_html(tool, names, recipes, starts)}
        cache.put(key, kept, {})
    return str(kept["html"])
