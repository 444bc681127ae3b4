"""The pictures that a site still needs: what each must show, and the file that it goes into."""

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path

from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.values.marks import plain_text

from crumbcoat_site.command.reports import count_text
from crumbcoat_site.recipe_cards.source.photo_names import COVER, photo_name
from crumbcoat_site.recipe_cards.source.photos import photos_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """A picture to take: its place (`cover`, or a step such as `2-1`), what it must show, hints for it, and its file.

    `wanted`: whether the recipe asks for it; otherwise it is worth one because of what there is to see.
    """

    slot: str
    shows: str
    hints: tuple[str, ...]
    file: str
    wanted: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeShots:
    """The pictures of a recipe that are still to be taken, and how many there are."""

    title: str
    file: Path
    shots: tuple[Shot, ...]
    there: int


def shots_of(recipe: Recipe, file: Path, pictures: Sequence[str]) -> RecipeShots:
    """What is still to be taken for a recipe.

    Args:
        file: its file.
        pictures: those around it, as paths from its folder.
    """
    shown = photos_of(recipe, file.stem, pictures)
    steps = {
        f"{number}-{position}": step
        for number, stage in enumerate(recipe.stages, 1)
        for position, step in enumerate(stage.steps, 1)
    }
    shots, counts = list[Shot](), dict[str, int]()
    for photo in shown:
        number = counts[photo.slot] = counts.get(photo.slot, -1) + 1
        if photo.file is not None:
            continue
        step = steps.get(photo.slot)
        words = photo.photo.shows or (_seen(step) if step else f"{recipe.title}, finished: {recipe.yields.of}")
        name = photo.photo.file or f"{photo_name(file.stem, photo.slot, number)}.jpg"
        hints = tuple(_hints(step)) if step else (plain_text(recipe.summary),)
        shots.append(Shot(slot=photo.slot, shows=words, hints=hints, file=name, wanted=True))
    for slot, step in steps.items():
        if slot not in counts and (step.checkpoint or step.look_for):
            name = f"{photo_name(file.stem, slot)}.jpg"
            hints = tuple(hint for hint in _hints(step) if hint != f"look for: {_seen(step)}")
            shots.append(Shot(slot=slot, shows=_seen(step), hints=hints, file=name, wanted=False))
    order = [COVER, *steps]
    shots.sort(key=lambda shot: order.index(shot.slot))
    there = sum(photo.file is not None for photo in shown)
    return RecipeShots(title=recipe.title, file=file, shots=tuple(shots), there=there)


def shot_list_text(recipes: Sequence[RecipeShots], *, only_wanted: bool) -> str:
    """The list for a terminal, and to print: a box to tick for each picture."""
    lines = []
    for found in recipes:
        shots = _chosen(found, only_wanted)
        if shots:
            lines += [f"{found.title}  ({os.path.relpath(found.file)})", ""]
            for shot in shots:
                lines.append(f"  [ ] {_place(shot)}{shot.shows}")
                lines += [f"        {hint}" for hint in shot.hints]
                lines += [f"        save as {shot.file}", ""]
    return "\n".join([*lines, _sum(recipes, only_wanted)])


def shot_list_page(recipes: Sequence[RecipeShots], *, only_wanted: bool) -> str:
    """The list as a page of its own, to print or to take to the kitchen on a phone."""
    parts = []
    for found in recipes:
        shots = _chosen(found, only_wanted)
        if shots:
            rows = "".join([_row(shot) for shot in shots])
            parts.append(f"<section><h2>{escape(found.title)}</h2><ul>{rows}</ul></section>")
    return _PAGE.format(parts="\n".join(parts), sum=escape(_sum(recipes, only_wanted)))


def _row(shot: Shot) -> str:
    hints = "".join([f"<small>{escape(hint)}</small>" for hint in shot.hints])
    words = f"<b>{escape(_place(shot))}</b>{escape(shot.shows)}{hints}<code>{escape(shot.file)}</code>"
    return f'<li><label><input type="checkbox"><span>{words}</span></label></li>'


def _chosen(found: RecipeShots, only_wanted: bool) -> list[Shot]:
    return [shot for shot in found.shots if shot.wanted or not only_wanted]


def _place(shot: Shot) -> str:
    if shot.slot == COVER:
        return "cover: "
    return f"step {shot.slot.replace('-', '.')}{'' if shot.wanted else ', if you like'}: "


def _sum(recipes: Sequence[RecipeShots], only_wanted: bool) -> str:
    wanted = sum(shot.wanted for found in recipes for shot in found.shots)
    more = sum(not shot.wanted for found in recipes for shot in found.shots)
    there = sum(found.there for found in recipes)
    said = f"{count_text(wanted, 'picture')} to take, {there or 'none'} there"
    return f"{said}." if only_wanted else f"{said}; {more or 'no'} more steps have something to see."


def _seen(step: Step) -> str:
    """What there is to see at a step: what to look for, or the first sign that all is well."""
    if step.look_for:
        return plain_text(step.look_for)
    return plain_text(step.checkpoint.passes[0]) if step.checkpoint else plain_text(step.do)


def _hints(step: Step) -> Iterator[str]:
    if step.look_for:
        yield f"look for: {plain_text(step.look_for)}"
    if step.checkpoint:
        yield f"all is well: {' '.join([plain_text(sign) for sign in step.checkpoint.passes])}"
        signs = ", ".join([plain_text(trouble.sign).rstrip(".") for trouble in step.checkpoint.troubles])
        yield f"also useful, if it goes wrong: {signs}"


_PAGE = """<!doctype html>
<html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Shot list</title>
<style>
body {{ max-width: 46rem; margin: 2rem auto; padding: 0 1rem; font: 1rem/1.45 system-ui, sans-serif; color: #222; }}
ul {{ padding: 0; list-style: none; }}
label {{ display: grid; grid-template-columns: 1.6em 1fr; padding: .4rem 0; border-top: 1px solid #ccc; }}
small, code {{ display: block; color: #555; }}
li, h2 {{ break-inside: avoid; break-after: auto; }}
h2 {{ margin: 1.6rem 0 .3rem; break-after: avoid; }}
@media print {{ body {{ max-width: none; margin: 0; font-size: 10pt; }} }}
</style>
<h1>Shot list</h1>
<p>{sum}</p>
{parts}
</html>
"""
