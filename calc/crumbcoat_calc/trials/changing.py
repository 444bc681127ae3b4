"""A recipe's fields with the changes of a trial: what was planned, then what was really weighed."""

import copy
from collections.abc import Mapping
from math import fsum
from typing import Any

from crumbcoat_calc.errors import InputError, Path
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.recipe.editing import divide_instead, keep_uses, troubles_of, uses_of
from crumbcoat_calc.recipe.ingredients import SHARED_FIELDS, amount_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.own_food import FOOD_FIELDS, WHAT_IT_IS, food_from
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.recipe.stages import step_of_fields
from crumbcoat_calc.trials.model import Changed, Place
from crumbcoat_calc.trials.places import step_from
from crumbcoat_calc.values.fields import did_you_mean
from crumbcoat_calc.values.form_fields import state_number

Fields = dict[str, Any]

LEFT_OUT_WORDS = "Left out: "
"""How the text of a step begins that a trial left out."""

WHAT_IS_MADE = ("ingredients", "stages")
"""The fields of a recipe that make its batch."""

_OF_ANOTHER_BATCH = ("made", "measured", "tried", "published", "draft", "claims", "notebook", "moved_from")
"""Fields of a recipe that are about the batch as published."""


def planned_from(base: Mapping[str, object], changed: Changed) -> tuple[Recipe, Fields]:
    """The recipe after the changes, and its fields.

    An amount that changes without its portions changes them alike. A step that is left out takes what it adds with it.

    Args:
        base: the fields of the recipe, or of the trial before.

    Raises:
        InputError: at the change that does not fit, by its path in the trial file.
    """
    fields: Fields = copy.deepcopy({name: base[name] for name in base if name not in _OF_ANOTHER_BATCH})
    for place, change in changed.steps.items():
        path = ("changed", "steps", place.written)
        step = _step(fields, place, path)
        if isinstance(change, str):
            _leave_out_step(fields, step, path)
        else:
            step |= change
            try:
                step_of_fields(step)
            except InputError as error:
                raise error.within(*path) from None
    for key, change in changed.ingredients.items():
        path = ("changed", "ingredients", key)
        if isinstance(change, str):
            _leave_out(fields, key, path)
        else:
            _change(fields, key, change, path)
    try:
        recipe = recipe_from(fields)
    except InputError as error:
        raise error.at(_place_of(error.path, changed)) from None
    for ingredient in recipe.ingredients:
        written = fields["ingredients"][ingredient.key]
        if isinstance(written.get("kind"), str) and ingredient.food.key in foods():
            written["kind"] = ingredient.food.key  # As a recipe's data have it, whichever of its names is written.
    return recipe, fields


def weighed_from(
    planned: Mapping[str, object], weighed: Mapping[str, str], measured: Mapping[str, str]
) -> tuple[Recipe, Fields]:
    """The recipe with the amounts that were really weighed and what was measured of its batch, and its fields.

    Raises:
        InputError: at the amount that does not fit, by its path in the trial file.
    """
    fields: Fields = copy.deepcopy(dict(planned)) | ({"measured": dict(measured)} if measured else {})
    for key, written in weighed.items():
        path = ("weighed", key)
        _listed(fields, key, path)
        _set_amount(fields["ingredients"][key], {"amount": written}, path)
    try:
        return recipe_from(fields), fields
    except InputError as error:
        raise error.at(("weighed", *error.path[1:2]) if error.path[:1] == ("ingredients",) else ("weighed",)) from None


def is_same_batch(fields: Mapping[str, object], others: Mapping[str, object]) -> bool:
    """Whether the fields of two recipes make the same batch."""
    return all(fields[name] == others[name] for name in WHAT_IS_MADE)


def _place_of(path: Path, changed: Changed) -> Path:
    """Where a problem of the changed recipe is in the trial file."""
    head = ("changed",)
    if path[:1] == ("ingredients",) and len(path) > 1 and path[1] in changed.ingredients:
        return (*head, "ingredients", path[1], *path[2:])
    if path[:1] == ("stages",) and len(path) > 3:
        place = Place(stage=int(path[1]), step=int(path[3]))
        if place in changed.steps:
            return (*head, "steps", place.written, *path[4:])
    return head


def _step(fields: Fields, place: Place, path: Path) -> Fields:
    stages = fields["stages"]
    if place.stage >= len(stages) or place.step is None or place.step >= len(stages[place.stage]["steps"]):
        last = f"{len(stages)}.{len(stages[-1]['steps'])}"
        raise InputError(f"the recipe has no step {place.written}", f"use one from 1.1 to {last}", path)
    step: Fields = stages[place.stage]["steps"][place.step]
    return step


def _listed(fields: Fields, key: str, path: Path) -> Fields:
    if key not in fields["ingredients"]:
        otherwise = "use the short name of one of its ingredients"
        remedy = did_you_mean(key, fields["ingredients"], otherwise)
        raise InputError(f"the recipe has no ingredient {key!r}", remedy, path)
    ingredient: Fields = fields["ingredients"][key]
    return ingredient


def _change(fields: Fields, key: str, change: Mapping[str, object], path: Path) -> None:
    rest = {name: value for name, value in change.items() if name != "add_at"}
    if "add_at" in change and key not in fields["ingredients"]:
        _add(_step(fields, step_from(change["add_at"]), (*path, "add_at")), key)
        fields["ingredients"][key] = rest
        return
    if "add_at" in change:
        remedy = "delete `add_at`, or use another short name"
        raise InputError(f"the recipe has {key!r} already", remedy, (*path, "add_at"))
    if key not in fields["ingredients"]:
        otherwise = "use the short name of one of its ingredients, or say where a new one goes in: `add_at: 1.2`"
        remedy = did_you_mean(key, fields["ingredients"], otherwise)
        raise InputError(f"the recipe has no ingredient {key!r}", remedy, path)
    ingredient = fields["ingredients"][key]
    if any(name in rest for name in WHAT_IT_IS):
        for name in (*FOOD_FIELDS, *SHARED_FIELDS, "replacements"):
            ingredient.pop(name, None)
    amounts: Fields = {name: rest.pop(name) for name in ("amount", "portions") if name in rest}
    ingredient |= rest
    if amounts:
        _set_amount(ingredient, amounts, path)


def _set_amount(ingredient: Fields, amounts: Fields, path: Path) -> None:
    """Put a new amount into an ingredient; without portions of its own, its portions keep their shares."""
    portions = ingredient.get("portions")
    if "amount" in amounts and "portions" not in amounts and portions and "amount" in ingredient:
        try:
            kind = food_from(ingredient, "an ingredient")
            ratio = amount_of(kind, amounts["amount"]).mass_g / amount_of(kind, ingredient["amount"]).mass_g
            masses = {part: ratio * amount_of(kind, written).mass_g for part, written in portions.items()}
        except InputError as error:
            raise error.at((*path, "amount") if path[0] == "changed" else path) from None
        amounts = amounts | {"portions": {part: f"{state_number(mass_g)} g" for part, mass_g in masses.items()}}
    ingredient |= amounts


def _add(step: Fields, key: str) -> None:
    step["add"] = [*uses_of(step), key]


def _leave_out(fields: Fields, key: str, path: Path) -> None:
    _listed(fields, key, path)
    del fields["ingredients"][key]
    for stage in fields["stages"]:
        for step in stage["steps"]:
            for adding in (step, *troubles_of(step)):
                if "add" in adding:
                    keep_uses(adding, [use for use in uses_of(adding) if use.partition("/")[0] != key])


def _leave_out_step(fields: Fields, step: Fields, path: Path) -> None:
    """Keep a step in its place, so that the others keep their numbers, with nothing to do; what it adds stays out."""
    made = {stage["makes"] for stage in fields["stages"] if "makes" in stage}
    for use in uses_of(step):
        key, _, portion = use.partition("/")
        if key in made:
            problem = f"this step adds {key!r}, which an earlier stage makes"
            raise InputError(problem, "leave out what goes into it instead", path)
        _take_away(fields, key, portion)
    for trouble in troubles_of(step):
        for use in uses_of(trouble):
            _keep_none_back(fields, *use.split("/"))
    words = f"{LEFT_OUT_WORDS}{step['do']}"
    step.clear()
    step["do"] = words


def _keep_none_back(fields: Fields, key: str, part: str) -> None:
    """Keep back no such part of an ingredient any more, if it is still there."""
    kept_back = fields["ingredients"].get(key, {}).get("kept_back", {})
    kept_back.pop(part, None)
    if not kept_back:
        ingredient = fields["ingredients"].get(key, {})
        ingredient.pop("kept_back", None)
        if "amount" not in ingredient:
            fields["ingredients"].pop(key, None)


def _take_away(fields: Fields, key: str, portion: str) -> None:
    """Take an ingredient, or one of its portions, out of the list; what is kept back of it stays."""
    if not portion:
        ingredient = fields["ingredients"].get(key, {})
        if "kept_back" in ingredient:
            ingredient.pop("amount", None)
        else:
            fields["ingredients"].pop(key, None)
        return
    ingredient = fields["ingredients"][key]
    kind = food_from(ingredient, "an ingredient")
    masses = {part: amount_of(kind, written).mass_g for part, written in ingredient["portions"].items()}
    del masses[portion]
    ingredient["amount"] = f"{state_number(fsum(masses.values()))} g"
    ingredient["portions"] = {part: f"{state_number(mass_g)} g" for part, mass_g in masses.items()}
    if len(masses) == 1:
        del ingredient["portions"]
        (last,) = masses
        for stage in fields["stages"]:
            for step in stage["steps"]:
                if f"{key}/{last}" in uses_of(step):
                    step["add"] = [key if use == f"{key}/{last}" else use for use in uses_of(step)]
                    divide_instead(step, f"{key}/{last}", [key])
