"""Checks the pictures of recipes: those that are named and not there, that cannot be used, or that nothing shows."""

import os
from pathlib import Path

from crumbcoat_calc.recipe.model import Recipe

from crumbcoat_site.command.recipe_warnings import RecipeWarning
from crumbcoat_site.command.recipes_read import RecipesRead
from crumbcoat_site.command.reports import Report
from crumbcoat_site.command.site_files import SiteFiles
from crumbcoat_site.recipe_cards.pictures.reading import problem_of
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds
from crumbcoat_site.recipe_cards.source.photo_names import unused_photos
from crumbcoat_site.recipe_cards.source.photos import lost_photos, photos_of, slots_of
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.yaml_text import Document


def picture_problems(
    recipe: Recipe, document: Document, file: Path, site: SiteFiles | None, recipes: RecipesRead
) -> list[SourceError]:
    """The pictures of one recipe that are named and not there, or that cannot be used.

    Args:
        document: where its fields are.
        file: its file.
        site: the site that it is in, if it is in one.
        recipes: what has been read already.
    """
    pictures = pictures_around(file, site, recipes)
    shown = photos_of(recipe, file.stem, pictures)
    used = dict.fromkeys([pictures[photo.file] for photo in shown if photo.file is not None])
    lost = [
        SourceError(os.path.relpath(file), document.line_of(error.path), error.problem, error.remedy)
        for error in lost_photos(recipe, pictures)
    ]
    return lost + [
        SourceError(os.path.relpath(path), 1, f"the picture cannot be used: {problem[0]}", problem[1])
        for path in used
        if (problem := problem_of(path.read_bytes()))
    ]


def pictures_around(file: Path, site: SiteFiles | None, recipes: RecipesRead) -> dict[str, Path]:
    """The pictures of the site, or below the folder of a recipe file without a site, by the path from that folder."""
    folder = file.resolve().parent
    media = recipes.pictures_in(site.docs if site else folder)
    return {Path(os.path.relpath(path, folder)).as_posix(): path for path in media.values()}


def unused_pictures(site: SiteFiles, own: OwnKinds, recipes: RecipesRead) -> list[Report]:
    """A report of each picture beside recipes that nothing shows; none while a recipe has a problem."""
    media = recipes.pictures_in(site.docs)
    slots: dict[str, list[str]] = {}
    used: set[str] = set()
    for file in site.recipes:
        recipe = recipes.read(file, own, site.region).recipe
        name = site.name_of(file)
        if recipe is None:
            return []
        start = Path(name).parent
        shown = photos_of(recipe, name, [Path(os.path.relpath(path, start)).as_posix() for path in media])
        slots[name] = slots_of(recipe)
        used |= {Path(os.path.normpath(start / photo.file)).as_posix() for photo in shown if photo.file is not None}
    pages = "\n".join([page.read_text(encoding="utf-8", errors="replace") for page in site.docs.rglob("*.md")])
    return [
        Report(os.path.relpath(site.docs / path), (), (RecipeWarning(1, "picture", f"{problem}.", _sentence(remedy)),))
        for path, problem, remedy in unused_photos(media, slots, used, pages)
    ]


def _sentence(words: str) -> str:
    return words if words.endswith(("?", ".")) else f"{words}."
