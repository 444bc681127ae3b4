"""What changed from one batch to the next: in grams, in the steps, and in points of fat, water and sugar."""

from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.science.change import change_sentence, compared_figures, figure_changes
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.texts.comparison import LABELS, difference_text, figure_cell
from crumbcoat_calc.trials.finished import finished_state, origin_state
from crumbcoat_calc.trials.model import NOT_MADE, Place
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.display import mass_text, number_text, plain_number_text

POINTS = ("fat_percent", "water_percent", "sugar_percent")
"""The figures whose change is shown of every trial."""

_SMALLEST_G = 0.005
_WORTH_SAYING = 0.25
"""In points: below that a sentence would make too much of a change."""
_SAME_RATIO = 0.002
"""Amounts that all change by one factor, to this share of it, are a batch of another size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """The mass of an ingredient before and after, in g; None where it is not on the list."""

    key: str
    name: str
    before_g: float | None
    after_g: float | None
    other_kind: bool = False


def amounts_changed(before: Recipe, after: Recipe) -> list[Amounts]:
    """The ingredients whose amount or kind differs, those of the later recipe first."""
    old = {ingredient.key: ingredient for ingredient in before.ingredients}
    found = []
    for ingredient in after.ingredients:
        was = old.pop(ingredient.key, None)
        other_kind = was is not None and was.food.name != ingredient.food.name
        if was is None or other_kind or abs(was.mass_g - ingredient.mass_g) > _SMALLEST_G:
            before_g = was.mass_g if was else None
            key, name = ingredient.key, ingredient.name
            found.append(
                Amounts(key=key, name=name, before_g=before_g, after_g=ingredient.mass_g, other_kind=other_kind)
            )
    return found + [Amounts(key=one.key, name=one.name, before_g=one.mass_g, after_g=None) for one in old.values()]


def size_factor(before: Recipe, after: Recipe) -> float | None:
    """The factor if one batch is the other one in another size; None if it is not, or is of the same size."""
    old = {ingredient.key: ingredient.mass_g for ingredient in before.ingredients if ingredient.mass_g > 0}
    new = {ingredient.key: ingredient.mass_g for ingredient in after.ingredients if ingredient.mass_g > 0}
    if len(old) < 2 or old.keys() != new.keys():
        return None
    ratios = [new[key] / old[key] for key in old]
    factor = ratios[0]
    if abs(factor - 1) < 0.01 or max(ratios) - min(ratios) > _SAME_RATIO * factor:
        return None
    return factor


def grams_texts(before: Recipe, after: Recipe) -> list[str]:
    """What changed in the amounts, an ingredient a text.

    >>> _gram_text(Amounts(key="butter", name="butter", before_g=290, after_g=250))
    '40 g less butter: 290 g, now 250 g'
    """
    factor = size_factor(before, after)
    if factor is not None:
        return [f"a batch of {plain_number_text(factor, 2)} times the size"]
    return [_gram_text(change) for change in amounts_changed(before, after)]


def short_text(made: MadeTrial, room: int = 2) -> str:
    """What was changed in a few words: the amounts that the author names first, or a step, or that nothing was."""
    before, after = made.origin.recipe, made.recipe
    factor = size_factor(before, after)
    if factor is not None:
        return f"{plain_number_text(factor, 2)} times the size"
    planned = list(made.trial.changed.ingredients)
    changes = [change for change in amounts_changed(before, after) if change.key in planned]
    if changes:
        changes.sort(key=lambda change: planned.index(change.key))
        return ", ".join([change_in_short(change) for change in changes[:room]])
    if made.trial.changed.steps:
        places = ", ".join([place.written for place in made.trial.changed.steps])
        return f"step {places} done in another way"
    return "made again" if made.before else "the recipe as it is"


def step_texts(steps: Mapping[Place, Mapping[str, object] | str]) -> list[str]:
    """What was done in another way, a step a text, as it is written in the trial."""
    found = []
    for place, change in steps.items():
        if isinstance(change, str):
            found.append(f"step {place.written} {NOT_MADE}")
            continue
        parts = [
            f"{field.replace('_', ' ')} {value}" if isinstance(value, str) else f"another {field.replace('_', ' ')}"
            for field, value in change.items()
        ]
        found.append(f"step {place.written}: {', '.join(parts)}")
    return found


def points_rows(made: MadeTrial) -> list[list[str]]:
    """Fat, water and sugars in 100 g: label, before, after and the difference, for those that changed."""
    before, after = origin_state(made), finished_state(made)
    changed = {change.figure for change in figure_changes(before, after)}
    old, new = compared_figures(before), compared_figures(after)
    rows = []
    for figure in POINTS:
        if figure in changed:
            label, digits, unit = LABELS[figure]
            cells = [figure_cell(before, old[figure], figure), figure_cell(after, new[figure], figure)]
            rows.append([label, *cells, difference_text(old[figure], new[figure], digits, unit)])
    return [row for row in rows if row[3] != "the same"]


def sentence_of(made: MadeTrial) -> str:
    """What the change does, from the figures; empty where it is slight."""
    before, after = origin_state(made), finished_state(made)
    if not figure_changes(before, after):
        return ""
    sentence = change_sentence(before, after)
    return "" if sentence.startswith("Nothing") or _largest_points(before, after) < _WORTH_SAYING else sentence


def _largest_points(before: MixtureState, after: MixtureState) -> float:
    return max([abs(one.difference) for one in figure_changes(before, after) if one.figure in POINTS], default=0.0)


def percent_of_fat(state: MixtureState) -> str:
    """The fat in 100 g in short; empty where it is not known."""
    fat = compared_figures(state)["fat_percent"]
    return f"{number_text(fat.value, 1)} % fat" if isinstance(fat, Estimate) else ""


def change_in_short(change: Amounts) -> str:
    """An amount that changed, in a few words.

    >>> change_in_short(Amounts(key="sugar", name="sugar", before_g=150, after_g=135))
    '15 g less sugar'
    """
    if change.after_g is None:
        return f"no {change.name}"
    if change.before_g is None:
        return f"with {mass_text(change.after_g)} {change.name}"
    if change.other_kind:
        return f"another kind: {change.name}"
    more_g = change.after_g - change.before_g
    return f"{mass_text(abs(more_g))} {'more' if more_g > 0 else 'less'} {change.name}"


def _gram_text(change: Amounts) -> str:
    if change.after_g is None:
        return f"{change.name} left out ({mass_text(change.before_g or 0.0)})"
    if change.before_g is None:
        return f"{mass_text(change.after_g)} {change.name}, new"
    now = f"{mass_text(change.before_g)}, now {mass_text(change.after_g)}"
    return f"{change_in_short(change)}: {now}"
