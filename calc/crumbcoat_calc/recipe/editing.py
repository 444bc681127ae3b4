"""Recipe data with changed amounts, or with one ingredient replaced by others, ready to be written to a file."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, cast

from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.values.form_fields import state_number

_OF_THE_OTHER_BATCH = ("made", "measured", "tried", "published", "updated", "moved_from", "cover", "video")
"""Fields that describe or show the batch that was made, not one that was computed from it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Incoming:
    """A new ingredient: its key, its fields in the recipe file without the amounts, and its mass in g."""

    key: str
    fields: Mapping[str, object]
    mass_g: float


def with_amounts(
    data: Mapping[str, object], recipe: Recipe, masses_g: Mapping[str, float], size: float, note: str
) -> dict[str, object]:
    """The data with a new mass for each ingredient; an ingredient of 0 g is removed, with all its uses.

    Args:
        masses_g: by key, zero or more; ingredients not listed keep their mass.
        size: finished mass divided by the published one; the water that boils off and the yield are scaled by it.
        note: added to the recipe's notes.
    """
    made = _copied(data)
    listed: dict[str, Any] = made["ingredients"]
    gone = set()
    for ingredient in recipe.ingredients:
        mass_g = masses_g.get(ingredient.key, ingredient.mass_g)
        if ingredient.kept_back:
            listed[ingredient.key]["kept_back"] = {
                part.key: _grams(size * part.mass_g) for part in ingredient.kept_back
            }
        if round(mass_g, 2) <= 0:
            gone.add(ingredient.key)
            for field in ("amount", "portions"):
                listed[ingredient.key].pop(field, None)
            if not ingredient.kept_back:
                del listed[ingredient.key]
            continue
        ratio = round(mass_g, 2) / ingredient.mass_g
        listed[ingredient.key] |= {"amount": _grams(round(mass_g, 2))}
        if ingredient.portions:
            portions = {portion.key: _grams(ratio * portion.mass_g) for portion in ingredient.portions}
            listed[ingredient.key]["portions"] = portions
    for stage, stage_data in zip(recipe.stages, made["stages"], strict=True):
        for step, step_data in zip(stage.steps, stage_data["steps"], strict=True):
            if step.water_lost_g:
                step_data["water_lost"] = _grams(size * step.water_lost_g)
            if "add" in step_data:
                keep_uses(step_data, [use for use in uses_of(step_data) if use.partition("/")[0] not in gone])
    made["yield"]["portions"] = str(max(1, round(size * recipe.yields.portions)))
    return _noted(made, note)


def with_exchange(
    data: Mapping[str, object], recipe: Recipe, key: str, others: Sequence[Incoming], note: str
) -> dict[str, object]:
    """The data with one ingredient replaced by others, which go in at the same places and in the same portions."""
    made = _copied(data)
    out = next(ingredient for ingredient in recipe.ingredients if ingredient.key == key)
    listed: dict[str, Any] = {}
    for name, fields in made["ingredients"].items():
        if name != key:
            listed[name] = fields
            continue
        for other in others:
            listed[other.key] = {**other.fields, "amount": _grams(other.mass_g)}
            for field, parts in (("portions", out.portions), ("kept_back", out.kept_back)):
                if parts:
                    listed[other.key][field] = {
                        part.key: _grams(other.mass_g * part.mass_g / out.mass_g) for part in parts
                    }
    made["ingredients"] = listed
    for stage_data in made["stages"]:
        for step_data in stage_data["steps"]:
            for adding in (step_data, *troubles_of(step_data)):
                uses: list[str] = []
                for use in uses_of(adding):
                    what, slash, portion = use.partition("/")
                    instead = [f"{other.key}{slash}{portion}" for other in others] if what == key else [use]
                    uses += instead
                    divide_instead(adding, use, instead)
                if "add" in adding:
                    keep_uses(adding, uses)
    return _noted(made, note)


def free_key(wanted: str, recipe: Recipe, taken: Sequence[str] = ()) -> str:
    """A key that the recipe does not use yet: the wanted one, with a number appended if it is taken."""
    used = {ingredient.key for ingredient in recipe.ingredients} | {stage.makes for stage in recipe.stages} | {*taken}
    number, key = 2, wanted
    while key in used:
        number, key = number + 1, f"{wanted}_{number}"
    return key


def uses_of(step: Mapping[str, Any]) -> list[str]:
    """What a step adds, or a trouble of a checkpoint, as it is written: a list, or one use alone."""
    uses: list[str] | str = step.get("add", [])
    return [uses] if isinstance(uses, str) else uses


def troubles_of(step: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The troubles of a step's checkpoint, each with a remedy that may add something."""
    troubles: list[dict[str, Any]] = step.get("checkpoint", {}).get("troubles", [])
    return troubles


def keep_uses(step: dict[str, Any], uses: list[str]) -> None:
    """Let a step add these alone; what it no longer adds is not divided into additions either."""
    if uses:
        step["add"] = uses
    else:
        step.pop("add", None)
        step.pop("additions", None)
    if isinstance(step.get("additions"), Mapping):
        step["additions"] = {use: parts for use, parts in step["additions"].items() if use in uses}
        if not step["additions"]:
            del step["additions"]


def divide_instead(step: dict[str, Any], use: str, instead: list[str]) -> None:
    """Divide what goes in instead into as many additions."""
    additions = step.get("additions")
    if isinstance(additions, dict) and use in additions:
        parts = additions.pop(use)
        additions.update(dict.fromkeys(instead, parts))


def _noted(made: dict[str, Any], note: str) -> dict[str, object]:
    for field in _OF_THE_OTHER_BATCH:
        made.pop(field, None)
    made["notes"] = [*made.get("notes", []), note]
    return cast(dict[str, object], made)


def _grams(mass_g: float) -> str:
    return f"{state_number(round(mass_g, 6))} g"


def _copied(value: object) -> Any:
    if isinstance(value, Mapping):
        return {name: _copied(part) for name, part in value.items()}
    return [_copied(part) for part in value] if isinstance(value, list) else value
