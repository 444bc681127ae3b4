"""Calculator: a batch of a recipe, scaled, varied, and measured as the reader measures."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache, partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.forms.changes import BATCHES, Changes, changes_from, factor_from, state_of
from crumbcoat_calc.forms.conditions import Conditions, conditions_from, is_condition, state_from_conditions
from crumbcoat_calc.forms.written_amounts import amount_in_form, in_grams
from crumbcoat_calc.recipe.batch import Batch, batch_of, weighed_of
from crumbcoat_calc.recipe.model import Ingredient, Recipe
from crumbcoat_calc.recipe.reading import LARGEST_BATCH, SMALLEST_BATCH, recipe_from
from crumbcoat_calc.recipe.replacing import replacement_of
from crumbcoat_calc.recipe.weighing import weighing_of
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.amounts import amount_texts, use_texts
from crumbcoat_calc.texts.measures import Measures
from crumbcoat_calc.texts.science import science_texts
from crumbcoat_calc.texts.sizes import bowl_texts, egg_texts, size_texts, stock_texts
from crumbcoat_calc.texts.stages import stage_texts
from crumbcoat_calc.texts.times import time_texts
from crumbcoat_calc.texts.variants import change_texts, rounding_texts, scaling_texts
from crumbcoat_calc.values.fields import mapping, only, take
from crumbcoat_calc.values.form_fields import read_field, state_number
from crumbcoat_calc.values.units import millilitres, number, number_and_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    recipe: Recipe
    published: Batch
    changes: Changes
    conditions: Conditions


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    batch: Batch
    published: Batch
    changes: Changes
    conditions: Conditions


def read(given: str, state: Mapping[str, str]) -> Question:
    """The question that the recipe in `given` and the reader's changes in `state` ask.

    The state may hold `factor`, `mode`, `units`, `scale`, `eggs`, `bowl` (L), `tool`, `cup`, `cup_weighs` (g),
    `skip.<stage>.<step>` (yes), and of each ingredient `amount.<key>` (g for one batch as published),
    `without.<key>` (yes), `instead.<key>` (the key of a replacement, or `kind:` and a kind) and `have.<key>` (g).
    What conditions.py reads, such as `bowl_temperature` and `temperature.<key>`, stands beside them.

    Raises:
        InputError: at the field of the state that cannot be used.
    """
    recipe, published = _recipe(given)
    conditions = conditions_from(recipe, {name: value for name, value in state.items() if is_condition(name)})
    changes = changes_from(recipe, {name: value for name, value in state.items() if not is_condition(name)})
    if conditions.temperatures_c:
        changes = replace(changes, options=replace(changes.options, temperatures_c=conditions.temperatures_c))
    return Question(recipe=recipe, published=published, changes=changes, conditions=conditions)


def keep(given: str, state: Mapping[str, str], edit: Mapping[str, str]) -> dict[str, str]:
    """The state after the reader touched some fields of the form.

    `factor`, `finished_mass`, `finished_volume` and `portions` set the size of the batch. `amount.<key>` sets one
    amount in this batch, or, in the mode `all`, the size of the batch by this ingredient. An amount is a number of g,
    or a quantity such as `1 US cup`; a bowl is a number of L, or a volume. What stands as published is not kept.

    Raises:
        InputError: at the field that cannot be used.
    """
    kept = dict(state)
    question = read(given, kept)
    for name, value in edit.items():
        factor, head = question.changes.options.factor, name.partition(".")[0]
        if name == "factor":
            kept["factor"] = state_number(read_field(name, value, factor_from))
        elif name == "finished_mass":
            kept["factor"] = _scaled(name, factor, read_field(name, value, in_grams), _finished_g(question))
        elif name == "finished_volume":
            wanted_ml = read_field(name, value, _in_millilitres)
            kept["factor"] = _scaled(name, factor, wanted_ml, _finished_g(question) / _density(question))
        elif name == "portions":
            wanted = read_field(name, value, lambda written: float(number(written)))
            kept["factor"] = _scaled(name, 1.0, wanted, question.recipe.yields.portions)
        elif head == "amount":
            kept |= _with_amount(question, name, value)
        elif head == "have" and value.strip():
            _, kind, _ = _going_in(question, name)
            kept[name] = state_number(read_field(name, value, partial(amount_in_form, kind)))
        elif name == "cup_weighs" and value.strip():
            kept[name] = state_number(read_field(name, value, in_grams))
        elif name == "bowl" and value.strip():
            kept[name] = state_number(read_field(name, value, _in_litres))
        else:
            kept[name] = value.strip()
        question = read(given, kept)
    return state_of(question.recipe, question.changes) | state_from_conditions(question.conditions, question.recipe)


def calculate(question: Question) -> Answer:
    """The batch that is asked for.

    Raises:
        InputError: if nothing is left in it, or more water would boil off than there is.
    """
    batch = batch_of(question.recipe, question.changes.options)
    return Answer(batch=batch, published=question.published, changes=question.changes, conditions=question.conditions)


def show(answer: Answer) -> Texts:
    batch, changes = answer.batch, answer.changes
    measures = Measures(changes.units, changes.step_g)
    weighing = weighing_of(batch, measures.step_for())
    texts: Texts = {"mode": changes.mode, "units": changes.units, "scale": changes.scale, "eggs": changes.eggs}
    texts |= size_texts(batch, changes, measures)
    texts |= time_texts(batch.recipe, changes)
    texts |= scaling_texts(batch.recipe, changes.options.factor)
    texts |= amount_texts(batch, changes, weighing, measures)
    texts |= use_texts(batch, changes, weighing, measures)
    texts |= egg_texts(batch, changes, weighing)
    texts |= stock_texts(batch, changes)
    texts |= bowl_texts(batch, changes, measures)
    texts |= change_texts(batch, changes, answer.published)
    texts |= rounding_texts(batch, weighing, changes.step_g)
    texts |= stage_texts(batch)
    texts |= science_texts(batch, answer.conditions, changes.density_g_per_ml(batch.recipe))
    texts["status"] = f"{texts['finished_mass']} with {texts['fat.percent']} fat, for {texts['portions_of']}."
    return texts


@lru_cache(maxsize=16)
def _recipe(given: str) -> tuple[Recipe, Batch]:
    """The recipe, and the batch of it as published."""
    try:
        fields = mapping(json.loads(given))
    except (ValueError, RecursionError):
        raise InputError("the recipe that the page gives is not JSON", "reload the page", ("given",)) from None
    only(fields, ("recipe",))
    recipe = take(fields, "recipe", recipe_from)
    return recipe, batch_of(recipe)


def _finished_g(question: Question) -> float:
    return calculate(question).batch.total.mass_g


def _density(question: Question) -> float:
    density = question.changes.density_g_per_ml(question.recipe)
    if density is None:
        remedy = "weigh a level cup of it, and give what it weighs"
        raise InputError("the density of this frosting is not known", remedy, ("finished_volume",))
    return density


def _in_millilitres(written: str) -> float:
    return millilitres(written if number_and_words(written)[1] else f"{written} mL")


def _in_litres(written: str) -> float:
    return millilitres(written if number_and_words(written)[1] else f"{written} L") / 1000


def _going_in(question: Question, name: str) -> tuple[Ingredient, Food, float]:
    """The ingredient that a field is of, what goes in for it, and g of that for each g of it."""
    key = name.partition(".")[2]
    for ingredient in question.recipe.ingredients:
        if ingredient.key == key:
            _, kind, ratio = replacement_of(ingredient, question.changes.options.replaced.get(key, ""))
            return ingredient, kind, ratio
    raise InputError(f"the recipe has no {key!r}", "reload the page", (name,))


def _with_amount(question: Question, name: str, value: str) -> dict[str, str]:
    ingredient, kind, ratio = _going_in(question, name)
    key, options = ingredient.key, question.changes.options
    mass_g = read_field(name, value, partial(amount_in_form, kind))
    one_batch_g = options.amounts_g.get(key, ingredient.mass_g) * ratio
    goes_in_g = _goes_in_g(question, key)
    if question.changes.mode == "this":
        share = goes_in_g / one_batch_g if goes_in_g > 0 else 1.0
        return {name: state_number(mass_g / options.factor / ratio / share)}
    if goes_in_g <= 0:
        raise InputError("an ingredient that is left out cannot set the size", "put it in again first", ("amount", key))
    if mass_g <= 0:
        raise InputError("a batch with none of it cannot be made", "give more than zero", ("amount", key))
    return {"factor": _scaled(name, 1.0, mass_g, goes_in_g)}


def _goes_in_g(question: Question, key: str) -> float:
    """What one batch takes of an ingredient, less what steps that are left out would take."""
    one_batch = replace(question.changes.options, factor=1.0)
    return next(one.mass_g for one in weighed_of(question.recipe, one_batch) if one.key == key)


def _scaled(name: str, factor: float, wanted: float, present: float) -> str:
    result = factor * wanted / present
    if not SMALLEST_BATCH <= result <= LARGEST_BATCH:
        path = tuple(name.split("."))
        raise InputError(f"that would be {result:.3g} batches", f"ask for {BATCHES}", path)
    return state_number(result)
