"""Texts about changes to a batch: compared with the recipe as published, by rounding, and with its size."""

from crumbcoat_calc.foods.bounds import Range, range_of
from crumbcoat_calc.foods.composition import Mixture, says_something
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.forms.changes import Changes, skippable
from crumbcoat_calc.kitchen.scaling import LARGEST, SMALLEST, cooling_times, scaling_notes_for
from crumbcoat_calc.recipe.batch import Batch, WeighedIngredient
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.replacing import replacement_of
from crumbcoat_calc.recipe.weighing import Weighing
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.portions import batches_text
from crumbcoat_calc.values.display import list_text, number_text, plain_number_text

_SHOWN = (("fat_g", "fat"), ("water_g", "water"), ("sugars_g", "sugars"))
_MATTERS_POINTS, _MATTERS_SHARE = 0.1, 0.02
"""Rounding is mentioned from this many percentage points of fat, or from this share of an ingredient."""


def change_texts(batch: Batch, changes: Changes, published: Batch) -> Texts:
    """`change`: the effect of all changes on fat, water and sugars; `change.<key>`: that of one replacement alone.

        share before = 100 * (in the whole - in the replacement + in what it replaces) / mass before

    Source:
        definition (mass balance).
    """
    options = changes.options
    texts: Texts = {"change": ""}
    for stage_number, stage in enumerate(batch.recipe.stages):
        for step_number, step in enumerate(stage.steps):
            if step.optional and skippable(batch.recipe, stage_number, step_number):
                left_out = (stage_number, step_number) in options.skipped
                texts[f"skip.{stage_number}.{step_number}"] = "yes" if left_out else ""
    if options.amounts_g or options.left_out or options.skipped or options.used or any(options.replaced.values()):
        before = {name: published.total.percents(name) for name, _ in _SHOWN}
        texts["change"] = f"Compared with the recipe as published: {_changes_text(before, batch.total)}."
    for weighed, ingredient in zip(batch.weighed, batch.recipe.ingredients, strict=True):
        texts[f"change.{weighed.key}"] = ""
        if weighed.food is ingredient.food or weighed.mass_g <= 0:
            continue
        _, _, ratio = replacement_of(ingredient, options.replaced.get(weighed.key, ""))
        texts[f"change.{weighed.key}"] = _changes_text(_with_back(batch, weighed, ingredient.food, ratio), batch.total)
    return texts


def rounding_texts(batch: Batch, weighing: Weighing, step_g: float | None) -> Texts:
    """`rounding`: its effect on the fat and on small amounts, if it matters; `too_little`: what the scale cannot show.

    It matters from 0.1 percentage points of fat, or if an ingredient is off by more than 2 %.
    """
    texts: Texts = {"rounding": "", "too_little": ""}
    if step_g is None:
        return texts
    fat_g, off = 0.0, []
    for weighed in batch.weighed:
        weighed_g = weighing.amounts_g[weighed.key]
        fat_g += weighed_g * (weighed.food.content("fat_g") or 0.0) / 100
        if weighed.mass_g > 0 and abs(weighed_g / weighed.mass_g - 1) > _MATTERS_SHARE:
            off.append(f"{weighed.name} {number_text(100 * (weighed_g / weighed.mass_g - 1), 0)} %".replace(" -", " −"))
    before, after = batch.total.percent("fat_g"), 100 * fat_g / weighing.finished_g if weighing.finished_g > 0 else 0.0
    effects = []
    if before is not None and abs(after - before) >= _MATTERS_POINTS - 1e-9:
        effects.append(f"fat {number_text(before, 1)} → {number_text(after, 1)} %")
    if off:
        effects.append(f"off by {list_text(off)}")
    if effects:
        texts["rounding"] = f"Rounded to {plain_number_text(step_g)} g: {'; '.join(effects)}."
    if weighing.too_little:
        names = list_text([weighed.name for weighed in batch.weighed if weighed.key in weighing.too_little])
        texts["too_little"] = f"Too little for your scale, so use a finer scale or a spoon: {names}."
    return texts


def scaling_texts(recipe: Recipe, factor: float) -> Texts:
    """`scaling`: rows on what does not grow with the batch; `scaling.steps`: notes of steps; `caution.tried`."""
    texts: Texts = {"caution.tried": _tried_text(recipe, factor), "scaling": [], "scaling.steps": []}
    if not SMALLEST <= factor <= LARGEST:
        return texts
    notes = scaling_notes_for(factor)
    if not notes:
        return texts
    steps = [
        (f"step {stage_number}.{number}", step)
        for stage_number, stage in enumerate(recipe.stages, start=1)
        for number, step in enumerate(stage.steps, start=1)
    ]
    there = {
        "additions": any(step.additions for _, step in steps),
        "boiling": any(step.water_lost_g for _, step in steps),
        "heating": any(step.heat_to_c is not None for _, step in steps),
        "cooling": any(step.cool_to_c is not None for _, step in steps),
    }
    rows = [[note.topic, note.note] for note in notes if there.get(note.key, True)]
    if there["cooling"]:
        stirred, still = cooling_times(factor)
        rows.append(
            [
                "time to cool",
                f"In a pot of the same shape, it takes about {number_text(stirred, 1)} times as long when stirred, and "
                f"{number_text(still, 1)} times as long when left alone.",
            ]
        )
    texts["scaling"] = rows
    texts["scaling.steps"] = [[place, step.when_scaled] for place, step in steps if step.when_scaled]
    return texts


def _with_back(batch: Batch, weighed: WeighedIngredient, kind: Food, ratio: float) -> dict[str, Range | None]:
    """The shares that the batch would have with the ingredient itself instead of its replacement."""
    total, back_g = batch.total, weighed.mass_g / ratio
    mass_g = total.mass_g - weighed.mass_g + back_g
    return {name: _share_with_back(batch, name, weighed, kind, back_g, mass_g) for name, _ in _SHOWN}


def _share_with_back(
    batch: Batch, name: str, weighed: WeighedIngredient, kind: Food, back_g: float, mass_g: float
) -> Range | None:
    ends = (batch.total.at_least(name), batch.total.at_most(name))
    if mass_g <= 0 or not says_something(*ends, batch.total.mass_g):
        return None
    low, high = [
        100 * (end + (back_g * old - weighed.mass_g * new) / 100) / mass_g
        for end, old, new in zip(ends, range_of(kind, name), range_of(weighed.food, name), strict=True)
    ]
    return (max(0.0, low), high) if says_something(low, high, 100) else None


def _changes_text(before: dict[str, Range | None], after: Mixture) -> str:
    """Shares before and after: `fat 25.6 → 23.1 %, water 30.1 → 32.0 %`.

    >>> from crumbcoat_calc.foods.composition import mixture_of
    >>> from crumbcoat_calc.foods.table import food
    >>> before = {"fat_g": (4.0, 4.0), "water_g": None, "sugars_g": (4.7, 4.8)}
    >>> _changes_text(before, mixture_of(food("milk_whole"), 100))
    'fat 4.0 → 3.3 %, water not known, sugars 4.7 to 4.8 → 5.1 %'
    """
    parts = []
    for name, word in _SHOWN:
        was, now = before[name], after.percents(name)
        if was is None or now is None:
            parts.append(f"{word} not known")
        else:
            parts.append(f"{word} {_tenths_text(was)} → {_tenths_text(now)} %")
    return ", ".join(parts)


def _tenths_text(span: Range) -> str:
    low, high = number_text(span[0], 1), number_text(span[1], 1)
    return low if low == high else f"{low} to {high}"


def _tried_text(recipe: Recipe, factor: float) -> str:
    if recipe.tried is None or recipe.tried[0] <= factor <= recipe.tried[1]:
        return ""
    low, high = plain_number_text(recipe.tried[0]), batches_text(recipe.tried[1])
    how = "is worked out for" if recipe.made == 0 else "was tried with"
    return (
        f"This recipe {how} {low} to {high} at once. Outside that range, the times, the bowl and the number "
        "of additions may not be right: go by what to look for."
    )
