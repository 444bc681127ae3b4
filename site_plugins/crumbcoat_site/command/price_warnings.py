"""Lines of the file of prices that price nothing: their item is not a kind, nor an ingredient of the site's recipes."""

from crumbcoat_calc.purchasing.prices import prices_from
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.values.fields import did_you_mean

from crumbcoat_site.command.recipe_warnings import RecipeWarning
from crumbcoat_site.command.recipes_read import RecipesRead
from crumbcoat_site.command.site_files import SiteFiles
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds


def unused_prices(
    content: str, checked: str, site: SiteFiles, own: OwnKinds, recipes: RecipesRead
) -> tuple[RecipeWarning, ...]:
    """A warning for each such line; none while a recipe has a problem, since its ingredients are not known then.

    Args:
        content: the file.
        checked: its checked text, empty without a price.
        own: the site's own ingredients.
        recipes: those that were read already.
    """
    listed = prices_from(checked).by_item if checked else {}
    names = [item for item, price in listed.items() if price.kind is None]
    known = _ingredient_names(site, own, recipes) if names else None
    if known is None:
        return ()
    return tuple([_warning(name, content, known) for name in names if name not in known])


def _ingredient_names(site: SiteFiles, own: OwnKinds, recipes: RecipesRead) -> frozenset[str] | None:
    """What the ingredients and replacements of all recipes are called; None if a recipe cannot be read."""
    names = {str(fields["name"]).casefold() for fields in own.values() if fields and "name" in fields}
    for file in site.recipes:
        recipe = recipes.read(file, own, site.region).recipe
        if recipe is None:
            return None
        names |= _names_in(recipe)
    return frozenset(names)


def _names_in(recipe: Recipe) -> set[str]:
    replacements = [other.name for ingredient in recipe.ingredients for other in ingredient.replacements]
    return {name.casefold() for name in [*replacements, *(ingredient.name for ingredient in recipe.ingredients)]}


def _warning(name: str, content: str, known: frozenset[str]) -> RecipeWarning:
    line = _line_of(name, content)
    text = f"{name!r} is not a kind of the ingredient table, nor an ingredient of a recipe, so its price is not used."
    hint = did_you_mean(name, sorted(known), "write it as a recipe does, or as the list of kinds has it")
    return RecipeWarning(line, "price", text, hint if hint.endswith("?") else f"{hint}.")


def _line_of(name: str, content: str) -> int:
    """The line of the file that an item begins."""
    starts = [line.strip().lstrip('"').casefold() for line in content.splitlines()]
    return next((number for number, start in enumerate(starts, 1) if start.startswith(name)), 1)
