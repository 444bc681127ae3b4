"""Texts of what is weighed in: ingredients and portions, in g and in household measures, and what goes in at a step."""

from calc.display import list_text, mass_text
from calc.foods import Food
from calc.household import household, pieces
from calc.recipe.batch import Batch, Choices
from calc.recipe.model import Ingredient
from calc.texts import Texts
from calc.units import is_volume


def amount_texts(batch: Batch, choices: Choices) -> Texts:
    """`amount`, `household`, `name`, `instead`, `without`, `changed` of each ingredient, `portion` of each portion."""
    texts: Texts = {}
    for one, ingredient in zip(batch.weighed, batch.recipe.ingredients, strict=True):
        texts[f"amount.{one.key}"] = mass_text(one.mass_g)
        texts[f"household.{one.key}"] = household_text(one.food, one.mass_g, ingredient)
        texts[f"name.{one.key}"] = one.name
        texts[f"instead.{one.key}"] = choices.replaced.get(one.key, "")
        texts[f"without.{one.key}"] = "yes" if one.key in choices.left_out else ""
        texts[f"changed.{one.key}"] = _changed_text(ingredient, choices)
        for key, mass_g in one.portions_g.items():
            texts[f"portion.{one.key}.{key}"] = mass_text(mass_g)
    return texts


def use_texts(batch: Batch) -> Texts:
    """`use.<stage>.<step>.<use>`, `each.<stage>.<step>` of several additions, `lost.<stage>.<step>` of water."""
    texts: Texts = {}
    for stage_number, (stage, uses) in enumerate(zip(batch.recipe.stages, batch.uses_g, strict=True)):
        for step_number, (step, masses) in enumerate(zip(stage.steps, uses, strict=True)):
            place = f"{stage_number}.{step_number}"
            for use_number, mass_g in enumerate(masses):
                texts[f"use.{place}.{use_number}"] = mass_text(mass_g)
            if step.additions > 1:
                each = list_text([mass_text(mass_g / step.additions) for mass_g in masses])
                texts[f"each.{place}"] = f"{step.additions} additions of {each}"
            if step.water_lost_g:
                texts[f"lost.{place}"] = mass_text(batch.factor * step.water_lost_g)
    return texts


def household_text(kind: Food, mass_g: float, ingredient: Ingredient) -> str:
    """A mass in the pieces, or the state of a cup, that the recipe names, else as it comes; empty if none is known."""
    written = ingredient.amount
    if mass_g <= 0:
        return ""
    if not is_volume(written.unit):
        counted = pieces(kind, mass_g, written.unit)
        if counted is not None:
            return counted.text
    measured = household(kind, mass_g, "us", written.how) or household(kind, mass_g, "us")
    return measured.text if measured else ""


def _changed_text(ingredient: Ingredient, choices: Choices) -> str:
    if ingredient.key not in choices.amounts_g:
        return ""
    return f"published: {mass_text(choices.factor * ingredient.mass_g)}"
