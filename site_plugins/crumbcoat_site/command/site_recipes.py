"""A recipe file as its site means it: with the site's own ingredients, and the measures of its region."""

import os
from pathlib import Path

from crumbcoat_calc.recipe.model import Recipe

from crumbcoat_site.command.site_files import SiteFiles, site_of
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds
from crumbcoat_site.recipe_cards.source.own_ingredients import SiteIngredients
from crumbcoat_site.recipe_cards.source.read_ingredients import read_ingredients
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe


def own_kinds(file: Path) -> SiteIngredients:
    """The site's own ingredients, and the problems of their file."""
    return read_ingredients(file, os.path.relpath(file)) if file.is_file() else SiteIngredients({}, ())


def kinds_and_region(site: SiteFiles | None) -> tuple[OwnKinds, str | None]:
    """What a recipe file is read with; nothing of either if it is in no site."""
    return (own_kinds(site.ingredients).kinds, site.region) if site else ({}, None)


def recipe_of_file(file: Path) -> Recipe:
    """The recipe of a file.

    Raises:
        SourceError: if it holds none.
    """
    return load_recipe(file, os.path.relpath(file), *kinds_and_region(site_of(file)))[0]
