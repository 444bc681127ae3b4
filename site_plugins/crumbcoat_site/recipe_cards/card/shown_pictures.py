"""The pictures of a recipe as its card shows them: each with its words, or what is still to be taken."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.values.marks import plain_text

from crumbcoat_site.recipe_cards.pictures.ready import Ready, Shown, stem_of
from crumbcoat_site.recipe_cards.source.photo_names import COVER, photo_name
from crumbcoat_site.recipe_cards.source.photos import ShownPhoto


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedPicture:
    """A picture in its place on a card; `shown` is None until it is there, and `wanted` says what it must show.

    `file` is its path from the folder of the recipe file.
    """

    slot: str
    wanted: str
    file_wanted: str
    stem: str
    file: str | None
    shown: Shown | None


def placed_pictures(
    recipe: Recipe, name: str, photos: Sequence[ShownPhoto], ready: Mapping[str, Ready | None], start: str
) -> tuple[PlacedPicture, ...]:
    """Every picture of a recipe, the cover first, then step by step.

    Args:
        name: the path of the recipe file in docs_dir without the ending.
        ready: the pictures that can be used, by the path from the folder of the recipe file.
        start: the address of the page from the root of the site.
    """
    steps = {
        f"{number + 1}-{position + 1}": step
        for number, stage in enumerate(recipe.stages)
        for position, step in enumerate(stage.steps)
    }
    slug = name.rpartition("/")[2]
    counts: dict[str, int] = {}
    placed = []
    for shown in photos:
        slot, photo = shown.slot, shown.photo
        number = counts[slot] = counts.get(slot, -1) + 1
        words = recipe.title if slot == COVER else _words_of(steps[slot])
        stem = stem_of(photo_name(slug, slot, number))
        there = ready.get(shown.file) if shown.file is not None else None
        picture = None
        if there is not None:
            alt = photo.alt or photo.shows or words
            picture = Shown(ready=there, stem=stem, start=start, alt=alt, caption=photo.caption, credit=photo.credit)
        file = f"{photo_name(slug, slot, number)}.jpg"
        wanted = photo.shows or words
        placed.append(
            PlacedPicture(slot=slot, wanted=wanted, file_wanted=file, stem=stem, file=shown.file, shown=picture)
        )
    return tuple(placed)


def _words_of(step: Step) -> str:
    """What a picture of a step shows, where its author says nothing of it."""
    return plain_text(step.look_for or step.do)
