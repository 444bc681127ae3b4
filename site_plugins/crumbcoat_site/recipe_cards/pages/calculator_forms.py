"""The form of a calculator on a page of its own, from the cache if nothing that it depends on has changed."""

import json
from collections.abc import Callable, Sequence

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.recipe_options import RecipeOption
from crumbcoat_site.recipe_cards.pages.written_directives import check_names


def calculator_form(
    calculator: str,
    names: Sequence[str],
    options: Sequence[RecipeOption],
    fields_of: Callable[[str], dict[str, object]],
    cache: PageCache,
    region: str | None,
) -> str:
    """The form, filled in by the calculator.

    Args:
        calculator: one of `CALCULATORS`.
        names: the recipes to start from.
        options: the recipes that the reader can choose from.
        fields_of: gives the fields of a recipe by its name.
        cache: where the form is kept until its recipes or the options change.
        region: that of the site, if it has one.

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
