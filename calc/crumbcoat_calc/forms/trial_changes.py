"""What a reader changed on a card -> what a trial file has under `changed`: the differences, for one batch."""

from collections.abc import Mapping
from dataclasses import replace

from crumbcoat_calc.recipe.batch import BatchOptions, WeighedIngredient, steps_left_out, weighed_of
from crumbcoat_calc.recipe.ingredients import SHARED_FIELDS
from crumbcoat_calc.recipe.model import Ingredient, Recipe
from crumbcoat_calc.recipe.replacing import KIND
from crumbcoat_calc.recipe.rescues import rescue_places
from crumbcoat_calc.recipe.trial_words import NOT_MADE
from crumbcoat_calc.values.fields import mapping
from crumbcoat_calc.values.form_fields import state_number

Fields = dict[str, object]


def changed_by(data: Mapping[str, object], recipe: Recipe, options: BatchOptions) -> Fields:
    """The field `changed` of a trial that makes the batch of these options; empty if nothing differs.

    Amounts are for one batch, whatever the factor. What was kept back and went in becomes an ingredient of its own, at
    the step of its checkpoint.

    Args:
        data: the fields of the recipe.
        recipe: what they make.
    """
    options = replace(options, factor=1.0, skipped=steps_left_out(recipe, options))
    uses = [use for stage, step in options.skipped for use in recipe.stages[stage].steps[step].uses]
    taken = frozenset([(use.what, use.portion) for use in uses])
    listed = mapping(data["ingredients"])
    found: Fields = {}
    for ingredient, weighed in zip(recipe.ingredients, weighed_of(recipe, options), strict=True):
        fields = mapping(listed[ingredient.key])
        food = _food_fields(fields, options.replaced.get(ingredient.key, ""))
        change = _change(ingredient, weighed, options, food, taken)
        if change:
            found[ingredient.key] = change
        for part in sorted(weighed.rescued):
            key = _free(f"{ingredient.key}_{part}", {*listed, *found, *[stage.makes for stage in recipe.stages]})
            rescue = _rescue(weighed, part, food or _shared(fields))
            found[key] = rescue | {"add_at": rescue_places(recipe)[ingredient.key, part]}
    steps = {f"{stage + 1}.{step + 1}": NOT_MADE for stage, step in sorted(options.skipped)}
    changed: Fields = {}
    if found:
        changed["ingredients"] = found
    if steps:
        changed["steps"] = steps
    return changed


def _change(
    ingredient: Ingredient,
    weighed: WeighedIngredient,
    options: BatchOptions,
    food: Fields,
    taken: frozenset[tuple[str, str | None]],
) -> Fields | str | None:
    key = ingredient.key
    parts = [portion.key for portion in ingredient.portions if (key, portion.key) not in taken]
    if (key, None) in taken or (ingredient.portions and not parts):
        return None  # It went with its steps.
    if key in options.left_out or not (weighed.mass_g > 0 or ingredient.is_all_kept_back):
        return NOT_MADE
    found = dict(food)
    is_divided_anew = bool(food) or len(parts) < len(ingredient.portions)
    amount = state_number(weighed.mass_g)
    if weighed.mass_g > 0 and (is_divided_anew or amount != state_number(ingredient.mass_g)):
        found["amount"] = f"{amount} g"
        if is_divided_anew and len(parts) > 1:
            found["portions"] = {part: f"{state_number(weighed.portions_g[part])} g" for part in parts}
    if food and weighed.kept_back_g:
        found["kept_back"] = {part: f"{state_number(mass_g)} g" for part, mass_g in weighed.kept_back_g.items()}
    if weighed.temperature_c is not None and weighed.temperature_c != ingredient.temperature_c:
        found["temperature"] = f"{state_number(weighed.temperature_c)} °C"
    return str(found["amount"]) if found.keys() == {"amount"} else found


def _rescue(weighed: WeighedIngredient, part: str, food: Fields) -> Fields:
    found = food | {"amount": f"{state_number(weighed.kept_back_g[part])} g"}
    if weighed.temperature_c is not None:
        found["temperature"] = f"{state_number(weighed.temperature_c)} °C"
    return found


def _food_fields(fields: Mapping[str, object], chosen: str) -> Fields:
    """What the replacement is, as a recipe file has it; empty without one."""
    if not chosen:
        return {}
    listed = fields.get("replacements", {})
    if chosen in mapping(listed):
        return _shared(mapping(mapping(listed)[chosen]))
    return {"kind": chosen.removeprefix(KIND)}


def _shared(fields: Mapping[str, object]) -> Fields:
    return {name: fields[name] for name in SHARED_FIELDS if name in fields}


def _free(key: str, taken: set[str | None]) -> str:
    while key in taken:
        key = f"{key}_2"
    return key
