"""The form of a calculator on a page of its own, from the cache if nothing that it depends on has changed."""

import json
from collections.abc import Callable, Sequence
from difflib import get_close_matches

from crumbcoat_calc.errors import InputError

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.recipe_options import RecipeOption

CALCULATORS = ("formulate", "replace", "compare", "map", "handout")
"""The calculators that have a page of their own."""


def calculator_form(
    calculator: str,
    names: Sequence[str],
    options: Sequence[RecipeOption],
    fields_of: Callable[[str], dict[str, object]],
    cache: PageCache,
    region: str,
) -> str:
    """The form, filled in by the calculator.

    Args:
        calculator: one of `CALCULATORS`.
        names: the recipes to start from.
        options: the recipes that the reader can choose from.
        fields_of: gives the fields of a recipe by its name.
        cache: where the form is kept until its recipes or the options change.
        region: that of the site.

    Raises:
        InputError: if one of the recipes does not exist, or the calculator cannot use them.
    """
    check_names(names, [option.name for option in options])
    recipes = {name: fields_of(name) for name in names}
    listed = [(option.name, option.title, option.card) for option in options]
    key = cache.key(json.dumps([list(names), recipes, listed, region]).encode(), "form", calculator)
    kept = cache.get(key)
    if kept is None:
        # Imported here because a build that finds every page and form need not load calc, its tables and pint.
        from crumbcoat_site.recipe_cards.pages.form_html import form_html

        kept = {"html": form_html(calculator, names, recipes, options, region)}
        cache.put(key, kept, {})
    return str(kept["html"])


def check_names(names: Sequence[str], known: Sequence[str]) -> None:
    """Check that the recipes that a directive names exist.

    Raises:
        InputError: at the first that does not.
    """
    for name in names:
        if name not in known:
            raise InputError(f"there is no recipe {name!r}", _near_names(name, known))


def _near_names(name: str, known: Sequence[str]) -> str:
    """The recipes whose path, or whose last part of it, is most like the name, as a remedy.

    >>> _near_names("viel", ["low/veil", "high/veils"])
    "did you mean 'low/veil' or 'high/veils'?"
    """
    bare = name.rpartition(".")[0] or name
    by_end = {path.rpartition("/")[2]: path for path in reversed(known)}
    ends = get_close_matches(bare.rpartition("/")[2], by_end, n=3)
    near = dict.fromkeys((*get_close_matches(bare, known, n=3), *(by_end[end] for end in ends)))
    if near:
        return f"did you mean {' or '.join([repr(path) for path in list(near)[:3]])}?"
    return f"name a recipe by its path without the ending{f', such as {known[0]!r}' if known else ''}"
