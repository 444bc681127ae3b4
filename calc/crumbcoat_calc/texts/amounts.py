"""Texts of amounts: ingredients and portions as the reader measures them, and what goes in at each step."""

from collections.abc import Mapping

from crumbcoat_calc.foods.shop_names import names_elsewhere
from crumbcoat_calc.foods.table import AS_IT_COMES, Food
from crumbcoat_calc.forms.changes import Changes
from crumbcoat_calc.kitchen.eggs import egg_sizes
from crumbcoat_calc.kitchen.household import SYSTEMS
from crumbcoat_calc.kitchen.rounding import step_counts
from crumbcoat_calc.recipe.batch import Batch, WeighedIngredient, steps_left_out
from crumbcoat_calc.recipe.curdling import curdling
from crumbcoat_calc.recipe.model import Ingredient
from crumbcoat_calc.recipe.usual_figures import recipe_checks
from crumbcoat_calc.recipe.weighing import Weighing
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.measures import Measures, household_text
from crumbcoat_calc.texts.steps import use_words
from crumbcoat_calc.values.display import celsius_text, list_text, mass_text, number_text
from crumbcoat_calc.values.region import spoons_in

_ANOTHER_FROSTING_POINTS = 5.0
"""A change of the fat by this many percentage points is shown beside the amount. Our choice, no source."""

LEFT_OUT = "left out"
"""The text for an ingredient or a step that the reader leaves out."""


def amount_texts(
    batch: Batch, changes: Changes, weighing: Weighing, measures: Measures, region: str | None = None
) -> Texts:
    """`amount`, `household`, `name`, `instead`, `without`, `changed` of each ingredient, `portion` of each.

    `elsewhere` of each is what it is called in a shop where the recipe's name for it means something else, or empty;
    on a site for the US that is the name in the US.

    The amount of one that is all kept back is empty: the part that is kept back has it.

    `size_by` is the amount that was changed, to size the whole batch by, or empty.

    `out` says that it is left out, by itself or with a step. `household` is the other way to measure: cups and spoons
    of the region beside a mass, a mass beside cups and spoons. Of each part that is kept back, `kept` is the amount,
    `kept_household` the other way to measure it, `used` whether it went in, and `went_in` says so.
    """
    texts: Texts = {}
    options = changes.options
    by_measure = measures.units in SYSTEMS
    for weighed, ingredient in zip(batch.weighed, batch.recipe.ingredients, strict=True):
        key = weighed.key
        mass_g = weighed.mass_g if by_measure else weighing.amounts_g[key]
        how, unit = _as_written(ingredient, changes)
        amount = "" if ingredient.is_all_kept_back else measures.amount(weighed.food, mass_g, how, unit)
        texts[f"amount.{key}"] = amount
        texts[f"household.{key}"] = (
            measures.weighed(weighing.amounts_g[key])
            if by_measure
            else household_text(weighed.food, weighed.mass_g, spoons_in(region), unit, how)
        )
        texts[f"name.{key}"] = weighed.name
        elsewhere = names_elsewhere(weighed.food.key, weighed.name)
        texts[f"elsewhere.{key}"] = "; ".join(
            [f"{place}: {name}" for place, name in elsewhere if region != "US" or place == region]
        )
        texts[f"instead.{key}"] = options.replaced.get(key, "")
        texts[f"without.{key}"] = "yes" if key in options.left_out else ""
        texts[f"out.{key}"] = LEFT_OUT if weighed.mass_g <= 0 < ingredient.mass_g else ""
        texts[f"changed.{key}"] = _changed_text(weighed, ingredient, batch, changes, measures)
        sizes = texts[f"changed.{key}"] and mass_g > 0 and ingredient.mass_g > 0
        texts[f"size_by.{key}"] = texts[f"amount.{key}"] if sizes else ""
        for portion, exact_g in weighed.portions_g.items():
            weighed_g = weighing.portions_g[key, portion]
            shown_g = exact_g if by_measure else weighed_g
            texts[f"portion.{key}.{portion}"] = measures.amount(weighed.food, shown_g, how, unit)
        for part, kept_g in weighed.kept_back_g.items():
            texts[f"kept.{key}.{part}"] = _use_text(weighed.food, kept_g, (how, unit), measures)
            texts[f"kept_household.{key}.{part}"] = (
                measures.weighed(kept_g)
                if by_measure
                else household_text(weighed.food, kept_g, spoons_in(region), unit, how)
            )
            texts[f"used.{key}.{part}"] = "yes" if (key, part) in options.used else ""
            texts[f"went_in.{key}.{part}"] = "went in" if part in weighed.rescued and kept_g > 0 else ""
    return texts


def use_texts(batch: Batch, changes: Changes, weighing: Weighing, measures: Measures) -> Texts:
    """`use.<stage>.<step>.<use>`, `each.<stage>.<step>` of several additions, `lost.<stage>.<step>` of water.

    `each` is empty if nothing that is divided goes in. It names what is divided if the rest goes in at once.

    `out.<stage>.<step>` says that a step is left out, `curdles.<stage>.<step>` that egg is too hot there.
    """
    texts: Texts = {}
    left_out = steps_left_out(batch.recipe, changes.options)
    curdles = curdling(batch)
    kinds = {weighed.key: weighed.food for weighed in batch.weighed}
    names = {weighed.key: weighed.name for weighed in batch.weighed}
    written = {ingredient.key: _as_written(ingredient, changes) for ingredient in batch.recipe.ingredients}
    uses_g = batch.uses_g if measures.units in SYSTEMS else weighing.uses_g
    for stage_number, (stage, uses) in enumerate(zip(batch.recipe.stages, uses_g, strict=True)):
        for step_number, (step, masses) in enumerate(zip(stage.steps, uses, strict=True)):
            place = f"{stage_number}.{step_number}"
            texts[f"out.{place}"] = LEFT_OUT if (stage_number, step_number) in left_out else ""
            divided: dict[int, list[tuple[str, str]]] = {}
            for use_number, (use, mass_g) in enumerate(zip(step.uses, masses, strict=True)):
                kind, as_written = kinds.get(use.what), written.get(use.what, (AS_IT_COMES, ""))
                texts[f"use.{place}.{use_number}"] = _use_text(kind, mass_g, as_written, measures)
                parts = step.additions[use_number] if step.additions else 1
                if parts > 1 and mass_g > 0:
                    name = names.get(use.what) or use_words(use)
                    divided.setdefault(parts, []).append(
                        (name, _addition_text(kind, mass_g, as_written, parts, measures))
                    )
            if step.additions:
                texts[f"each.{place}"] = _each_text(divided, alike=len(set(step.additions)) == 1)
            if step.heat_to_c is not None:
                little = curdles.get((stage_number, step_number))
                texts[f"curdles.{place}"] = "" if little is None else _curdles_text(little)
            if step.water_lost_g:
                texts[f"lost.{place}"] = mass_text(batch.factor * step.water_lost_g)
    return texts


def _each_text(divided: Mapping[int, list[tuple[str, str]]], alike: bool) -> str:
    if alike:
        return "".join(
            f"in {parts} additions of {list_text([each for _, each in uses])}" for parts, uses in divided.items()
        )
    return "; ".join(f"{name} in {parts} additions of {each}" for parts, uses in divided.items() for name, each in uses)


def _curdles_text(starch: float) -> str:
    """Source: common-practice, in recipe_checks.csv."""
    beside = f"only {number_text(starch, 1)} g of starch" if starch >= 0.05 else "no starch"
    hot = celsius_text(recipe_checks()["egg_curdles_c"])
    return f"beside {beside} to 100 g of water, the egg curdles above about {hot}"


def _use_text(kind: Food | None, mass_g: float, as_written: tuple[str, str], measures: Measures) -> str:
    """How much goes in; `no` before the name of what is left out."""
    if mass_g <= 0:
        return "no"
    return measures.mixture(mass_g) if kind is None else measures.amount(kind, mass_g, *as_written)


def _addition_text(
    kind: Food | None, mass_g: float, as_written: tuple[str, str], parts: int, measures: Measures
) -> str:
    """One of several additions; on a scale they are whole steps that add up, so the last may be a step smaller."""
    if measures.step_g is None or measures.units != "grams":
        return _use_text(kind, mass_g / parts, as_written, measures)
    counts = step_counts([mass_g / parts] * parts, measures.step_g)
    if not counts[-1]:
        return measures.mass(mass_g / parts)
    less = sum([count < counts[0] for count in counts])
    last = f" (the last {less}: {measures.weighed(counts[-1] * measures.step_g)})" if less else ""
    return f"{measures.weighed(counts[0] * measures.step_g)}{last}"


def _as_written(ingredient: Ingredient, changes: Changes) -> tuple[str, str]:
    """The state in which an ingredient is measured, and the unit; of eggs, the size that the reader has."""
    unit = ingredient.amount.unit
    return ingredient.amount.how, changes.eggs if unit in egg_sizes() else unit


def _published(factor: float) -> str:
    return "published" if abs(factor - 1) < 1e-6 else "published, at this size"


def _changed_text(
    weighed: WeighedIngredient, ingredient: Ingredient, batch: Batch, changes: Changes, measures: Measures
) -> str:
    """The published amount, and the fat of the batch where this change alone makes it another frosting.

        fat before = 100 * (fat + (published - changed) * share of fat) / (mass + published - changed)

    Source:
        definition (mass balance).
    """
    if ingredient.key not in changes.options.amounts_g:
        return ""
    published_g = changes.options.factor * ingredient.mass_g
    written = ingredient.amount
    amount = measures.amount(ingredient.food, published_g, written.how, written.unit)
    shown = f"{_published(changes.options.factor)}: {amount}"
    now, share = batch.total.percent("fat_g"), weighed.food.content("fat_g")
    if now is None or share is None or weighed.food is not ingredient.food:
        return shown
    back_g = published_g - weighed.mass_g
    mass_g = batch.total.mass_g + back_g
    before = (batch.total.mass_g * now + back_g * share) / mass_g if mass_g > 0 else now
    if abs(now - before) < _ANOTHER_FROSTING_POINTS:
        return shown
    return f"{shown}; the fat is {number_text(now, 1)} % instead of {number_text(before, 1)} %"
