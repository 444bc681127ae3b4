"""What is worth a second look in a recipe that has no problem: gaps on its card, and figures that may be slips."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import isclose
from pathlib import Path

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.figures import FIGURES, figure_value
from crumbcoat_calc.label.caution_facts import hazards_of
from crumbcoat_calc.label.caution_table import limits
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.heating import highest_temperatures
from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.recipe.usual_figures import usual_fat
from crumbcoat_calc.values.display import celsius_text, duration_text, list_text, number_text
from crumbcoat_calc.values.region import REGIONS
from crumbcoat_calc.values.written_times import seconds

from crumbcoat_site.command.kitchen_warnings import kitchen_warnings
from crumbcoat_site.recipe_cards.source.photo_names import COVER, beside
from crumbcoat_site.recipe_cards.source.yaml_text import Document
from crumbcoat_site.recipe_cards.wording.warnings import wording_warnings

_DURATION = re.compile(
    r"\b(\d+(?:\.\d+)?)[\s\u202f-]*(seconds?|minutes?|hours?|s|min|h)\b(?! (?:before|ago|earlier|later|ahead))"
)
_MINOR_PERCENT = 0.5
"""An ingredient below this share of the batch needs no role and moves no figure."""

Found = tuple[tuple[str | int, ...], str, str, str]


@dataclass(frozen=True, slots=True)
class RecipeWarning:
    """A place in a file that is worth a second look: what kind it is, what was seen, and what could be done."""

    line: int
    kind: str
    text: str
    hint: str


def warnings_for(
    recipe: Recipe, document: Document, file: Path, region: str | None = None
) -> tuple[RecipeWarning, ...]:
    """The warnings of a recipe, by line.

    Args:
        document: where its fields are.
        file: its file; pictures are looked for beside it.
        region: that of the site, if it has one.
    """
    batch = batch_of(recipe)
    found = [*_gaps(recipe, batch), *_figures(recipe, batch), *_eggs(batch, region), *_times(recipe)]
    found += kitchen_warnings(batch)
    if (recipe.cover is None or recipe.cover.file is None) and COVER not in beside(
        file.stem, [path.name for path in file.parent.glob(f"{file.stem}*")]
    ):
        hint = f"put one beside the file, under its name: `{file.stem}.jpg`; until then the card has a drawing"
        found.append(((), "picture", "there is no picture of the finished frosting", hint))
    warnings = [RecipeWarning(document.line_of(path), kind, f"{text}.", f"{hint}.") for path, kind, text, hint in found]
    warnings += [RecipeWarning(*warned) for warned in wording_warnings(recipe, document, file.parent.name, region)]
    return tuple(sorted(warnings, key=lambda warning: warning.line))


def _gaps(recipe: Recipe, batch: Batch) -> Iterator[Found]:
    total = batch.total.mass_g
    for ingredient in recipe.ingredients:
        if ingredient.role is None and 100 * ingredient.mass_g / total >= _MINOR_PERCENT:
            yield (
                ("ingredients", ingredient.key),
                "role",
                f"no role is given for {ingredient.name}",
                "say in `role` what it does",
            )
    if recipe.measured.density_g_per_ml is None:
        text = (
            "no density was measured, so the card gives no volume, and sizes by cake or bowl once a reader weighs a cup"
        )
        yield (), "density", text, "weigh a level measuring cup of the finished batch: `measured: {density: 0.85 g/mL}`"
    if not any(step.checkpoint for stage in recipe.stages for step in stage.steps):
        text = "no step has a checkpoint, so a reader does not see in time that a batch goes wrong"
        yield ("stages",), "checkpoint", text, "add one where the batch can still be rescued"


def _figures(recipe: Recipe, batch: Batch) -> Iterator[Found]:
    gaps: dict[tuple[str, ...], list[str]] = {}
    for figure in FIGURES:
        value = figure_value(figure, batch.total)
        if value.missing and value.open:
            gaps.setdefault(value.missing, []).append(figure.label.removeprefix("of which ").lower())
    for names, labels in gaps.items():
        text = (
            f"{list_text(labels)} {'is' if len(labels) == 1 else 'are'} not fully known, because of {list_text(names)}"
        )
        path = next((("ingredients", item.key) for item in recipe.ingredients if item.name in names), ("ingredients",))
        yield path, "not known", text, "copy its label with `pack`, or state its `composition`"
    usual = usual_fat().get(recipe.family)
    fat = batch.total.percent("fat_g")
    if usual and fat is not None and not usual[0] <= fat <= usual[1]:
        span = f"{usual[0]:g} to {usual[1]:g} %"
        text = f"{number_text(fat, 1)} % fat: a {recipe.family} usually has {span} (common practice, no source)"
        yield ("family",), "unusual", text, "check the amounts, or leave it if it is meant"


def _eggs(batch: Batch, region: str | None) -> Iterator[Found]:
    enough_c = limits(region or REGIONS[0])["egg_mixture_c"]
    for name, reached_c in hazards_of(batch, highest_temperatures(batch.recipe)).get("raw egg", ()):
        if reached_c is None or reached_c < enough_c:
            heat = f"no step heats {name}"
            if reached_c is not None:
                heat = f"the steps heat {name} to {celsius_text(reached_c)} only"
            path = next(("ingredients", item.key) for item in batch.recipe.ingredients if item.name == name)
            text = f"{heat}, so the card prints the caution on raw egg"
            hint = f"if a step heats all of it, say so there: `heat_to: {celsius_text(enough_c)}`"
            yield path, "raw egg", text, hint


def _times(recipe: Recipe) -> Iterator[Found]:
    for number, stage in enumerate(recipe.stages):
        for place, step in enumerate(stage.steps):
            for words in _other_times(step):
                path = ("stages", number, "steps", place)
                shown = duration_text(step.time.shortest_s, step.time.longest_s) if step.time else ""
                yield path, "time", f"the step says {words!r}, and its time is {shown}", "make them agree"


def _other_times(step: Step) -> Iterator[str]:
    """The times in the words of a step that are longer than all of it, and no part of it."""
    if step.time is None:
        return
    for found in _DURATION.finditer(step.do):
        try:
            said_s = seconds(found[0])
        except InputError:
            continue
        longest_s = step.time.longest_s
        if said_s > longest_s and not isclose(said_s, longest_s):
            yield found[0]
