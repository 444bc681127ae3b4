"""The pictures of a recipe: those that its file names, and those that are found by their names beside it."""

import difflib
import posixpath
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from crumbcoat_calc.errors import InputError, Path
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.photo import Photo

from crumbcoat_site.recipe_cards.pictures.formats import is_picture
from crumbcoat_site.recipe_cards.source.photo_names import COVER, beside


@dataclass(frozen=True, slots=True)
class ShownPhoto:
    """A picture of a recipe, its place (`cover`, or stage and step such as `2-1`) and its file, None if there is none.

    `file` is the path from the folder of the recipe file.
    """

    slot: str
    photo: Photo
    file: str | None


def photos_of(recipe: Recipe, name: str, files: Collection[str]) -> tuple[ShownPhoto, ...]:
    """Every picture of a recipe in order, the cover first; one that is wanted and not there has no file.

    A step that names files shows those, and none by their names. The first picture without a `file` takes what is
    found by its name.

    Args:
        name: the path of the recipe file in docs_dir without the ending.
        files: the pictures that it may show, as paths from the folder of the recipe file.
    """
    folder = posixpath.dirname(name)
    by_name = beside(name, [posixpath.join(folder, file) for file in files])
    shown: list[ShownPhoto] = []
    for slot, photos, _ in _written(recipe):
        left = list(by_name.get(slot, []))
        for photo in photos:
            if photo.file is None:
                shown.append(ShownPhoto(slot, photo, left.pop(0) if left else None))
            else:
                file = posixpath.normpath(photo.file)
                shown.append(ShownPhoto(slot, photo, file if file in files else None))
        if slot != COVER and not any(photo.file for photo in photos):
            shown += [ShownPhoto(slot, Photo(), file) for file in left]
    return tuple(shown)


def lost_photos(recipe: Recipe, files: Collection[str], others: Collection[str] = ()) -> Iterator[InputError]:
    """An error for each file that a recipe names and that is not there, or not a picture by its name.

    Args:
        files: the pictures that it may show, as paths from the folder of the recipe file.
        others: further pictures there, one of which may be meant.
    """
    for _, photos, path in _written(recipe):
        for number, photo in enumerate(photos):
            at = (*path, "file") if len(photos) == 1 else (*path, number, "file")
            if photo.file is None or posixpath.normpath(photo.file) in files:
                continue
            if not is_picture(photo.file):
                problem = f"{photo.file[:60]!r} is not the name of a picture"
                yield InputError(problem, "write its ending too, such as `.jpg`", at)
                continue
            near = difflib.get_close_matches(photo.file, [*files, *others], n=1, cutoff=0.5)
            remedy = f"did you mean {near[0]!r}?" if near else "save it there, or take `file` out"
            yield InputError(f"there is no picture {photo.file[:60]!r} beside the recipe", remedy, at)


def _written(recipe: Recipe) -> Iterator[tuple[str, Sequence[Photo], Path]]:
    """Each place of a picture, what the recipe says of it, and where it says that."""
    yield COVER, (recipe.cover or Photo(),), ("cover",)
    for number, stage in enumerate(recipe.stages):
        for position, step in enumerate(stage.steps):
            yield f"{number + 1}-{position + 1}", step.photos, ("stages", number, "steps", position, "photo")


def slots_of(recipe: Recipe) -> list[str]:
    """The places that a picture of the recipe can have: `cover`, then each step."""
    steps = [(number, len(stage.steps)) for number, stage in enumerate(recipe.stages, 1)]
    return [COVER, *(f"{number}-{step + 1}" for number, count in steps for step in range(count))]
