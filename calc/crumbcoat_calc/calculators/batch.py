"""Calculator: a batch of a recipe, scaled, varied, and measured as the reader measures."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.forms.changes import BATCHES, Changes, changes_from, factor_from, state_from_changes
from crumbcoat_calc.forms.conditions import Conditions, conditions_from, is_condition, state_from_conditions
from crumbcoat_calc.forms.context import Context, PublishedRecipe
from crumbcoat_calc.forms.written_amounts import amount_in_form, batch_in_grams, in_grams
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, weighed_of
from crumbcoat_calc.recipe.model import Ingredient, Recipe
from crumbcoat_calc.recipe.reading import LARGEST_BATCH, SMALLEST_BATCH
from crumbcoat_calc.recipe.replacing import replacement_of
from crumbcoat_calc.recipe.weighing import weighing_of
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.air import Air
from crumbcoat_calc.texts.amounts import amount_texts, use_texts
from crumbcoat_calc.texts.bakers_percent import bakers_percent_texts
from crumbcoat_calc.texts.cooling import slow_cooling_text
from crumbcoat_calc.texts.eggs import egg_texts
from crumbcoat_calc.texts.measures import Measures
from crumbcoat_calc.texts.science import science_texts
from crumbcoat_calc.texts.sizes import bowl_texts, size_texts, stock_texts
from crumbcoat_calc.texts.stages import stage_texts
from crumbcoat_calc.texts.temperature import condition_texts
from crumbcoat_calc.texts.times import time_texts
from crumbcoat_calc.texts.variants import change_texts, rounding_texts, scaling_texts
from crumbcoat_calc.values.display import times_text
from crumbcoat_calc.values.form_fields import number_from, read_field, state_number
from crumbcoat_calc.values.units import millilitres, number_and_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    published: PublishedRecipe
    changes: Changes
    conditions: Conditions

    @property
    def recipe(self) -> Recipe:
        """The recipe that the batch is of."""
        return self.published.recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    question: Question
    batch: Batch


def read(context: Context, state: Mapping[str, str]) -> Question:
    """The question that the recipe in the context and the reader's changes in the form state ask.

    The form state may hold `factor`, `units`, `scale`, `eggs`, `bowl` (L), `tool`, `cup`, `cup_weighs` (g),
    `skip.<stage>.<step>` (yes), `used.<key>.<part>` (yes, if what is kept back went in), and of each ingredient
    `amount.<key>` (g for one batch as published), `without.<key>` (yes), `instead.<key>` (the key of a
    replacement, or `kind:` and a kind) and `have.<key>` (g); and the fields that `forms.conditions`
    reads, such as `bowl_temperature` and `temperature.<key>`.

    Raises:
        InputError: at the field of the form state that cannot be used.
    """
    return _question(context.published, state)


def apply_edit(question: Question, edit: Mapping[str, str]) -> Question:
    """The question after the reader changed some fields of the form.

    `factor`, `finished_mass`, `finished_volume` and `portions` set the size of the batch. `amount.<key>` sets one
    amount in this batch; `size_by.<key>` the size of the batch by this ingredient, as published. An amount is a number
    of g, or a quantity such as `1 US cup`; a finished mass may be a volume too, if the density is known; a bowl is a
    number of L, or a volume.

    Raises:
        InputError: at the field that cannot be used.
    """
    for name, value in edit.items():
        question = _question(question.published, form_state(question) | _changed(question, name, value))
    return question


def form_state(question: Question) -> dict[str, str]:
    """What differs from the recipe as published."""
    recipe, units = question.recipe, question.published.units
    return state_from_changes(recipe, question.changes, units) | state_from_conditions(question.conditions, recipe)


def calculate(question: Question) -> Answer:
    """The batch that is asked for.

    Raises:
        InputError: if nothing is left in it, or more water would boil off than there is.
    """
    return Answer(question=question, batch=question.published.batch_with(question.changes.options))


def texts(answer: Answer) -> Texts:
    question, batch = answer.question, answer.batch
    changes = question.changes
    measures = Measures(changes.units, changes.step_g)
    weighing = weighing_of(batch, measures.step_for())
    found: Texts = {"units": changes.units, "scale": changes.scale, "eggs": changes.eggs}
    found |= size_texts(batch, changes, measures)
    found |= time_texts(batch.recipe, changes)
    found |= scaling_texts(batch.recipe, changes.options.factor)
    found |= amount_texts(batch, changes, weighing, measures, question.published.region)
    found |= use_texts(batch, changes, weighing, measures)
    found |= egg_texts(batch, changes, weighing)
    found |= stock_texts(batch, changes)
    found |= bowl_texts(batch, changes, measures)
    found |= change_texts(batch, changes, question.published.batch)
    found |= rounding_texts(batch, weighing, changes.step_g)
    found |= stage_texts(batch, measures)
    found |= condition_texts(batch, question.conditions)
    found["status"] = f"{found['finished_mass']} with {found['fat.percent']} fat, for {found['portions_of']}."
    return found


LATER = (
    "bakers", "picture.phases", "picture.warming", "rows.bakers", "rows.stages", "rows.warming", "rows.warming_times",
    "science", "tempering", "warming", "why",
)  # fmt: skip
"""The names of what comes later, or what they begin with up to a point."""


def later_texts(answer: Answer) -> Texts:
    """Why it holds and its figures, which take as long as all the others together."""
    question, batch = answer.question, answer.batch
    density = question.changes.density_g_per_ml(batch.recipe)
    air = Air(
        density,
        by_cup=question.changes.cup_g is not None,
        changed=density is None and batch.recipe.measured.density_g_per_ml is not None,
    )
    texts = bakers_percent_texts(batch) | science_texts(batch, question.conditions, air)
    slow = slow_cooling_text(batch, question.conditions, question.published.region)
    return texts | {"science.chilling": f"{texts['science.chilling']}{'.' if slow else ''}{slow}"}


def _question(published: PublishedRecipe, state: Mapping[str, str]) -> Question:
    recipe = published.recipe
    of_kitchen = {name: value for name, value in state.items() if is_condition(name)}
    conditions = conditions_from(recipe, of_kitchen, published.ours)
    of_batch = {name: value for name, value in state.items() if not is_condition(name)}
    changes = changes_from(recipe, of_batch, published.units)
    if conditions.temperatures_c:
        changes = replace(changes, options=replace(changes.options, temperatures_c=conditions.temperatures_c))
    return Question(published=published, changes=changes, conditions=conditions)


def _changed(question: Question, name: str, value: str) -> dict[str, str]:
    """What a field that the reader changed puts into the form state."""
    factor, head = question.changes.options.factor, name.partition(".")[0]
    if name == "factor":
        return {"factor": state_number(read_field(name, value, factor_from))}
    if name == "finished_mass":
        wanted_g = read_field(name, value, partial(batch_in_grams, _density_if_known(question)))
        return {"factor": _scaled(name, factor, wanted_g, _finished_g(question))}
    if name == "finished_volume":
        wanted_ml = read_field(name, value, _in_millilitres)
        return {"factor": _scaled(name, factor, wanted_ml, _finished_g(question) / _density(question))}
    if name == "portions":
        wanted = read_field(name, value, number_from)
        return {"factor": _scaled(name, factor, wanted, calculate(question).batch.portions)}
    if head == "amount":
        return _with_amount(question, name, value)
    if head == "size_by":
        return _sized_by(question, name, value)
    if head == "have" and value.strip():
        _, kind, _ = _going_in(question, name)
        return {name: state_number(read_field(name, value, partial(amount_in_form, kind)))}
    if name == "cup_weighs" and value.strip():
        return {name: state_number(read_field(name, value, in_grams))}
    if name == "bowl" and value.strip():
        return {name: state_number(read_field(name, value, _in_litres))}
    return {name: value.strip()}


def _finished_g(question: Question) -> float:
    return calculate(question).batch.total.mass_g


def _density_if_known(question: Question) -> float | None:
    return question.changes.density_g_per_ml(question.recipe)


def _density(question: Question) -> float:
    density = _density_if_known(question)
    if density is None:
        remedy = "weigh a level cup of it, and give what it weighs"
        raise InputError("the density of this frosting is not known", remedy, ("finished_volume",))
    return density


def _in_millilitres(written: str) -> float:
    return millilitres(written if number_and_words(written)[1] else f"{written} mL")


def _in_litres(written: str) -> float:
    return millilitres(written if number_and_words(written)[1] else f"{written} L") / 1000


def _going_in(question: Question, name: str) -> tuple[Ingredient, Food, float]:
    """The ingredient of a field, the kind used for it, and how many g of that take the place of 1 g."""
    key = name.partition(".")[2]
    for ingredient in question.recipe.ingredients:
        if ingredient.key == key:
            _, kind, ratio = replacement_of(ingredient, question.changes.options.replaced.get(key, ""))
            return ingredient, kind, ratio
    raise InputError(f"the recipe has no {key!r}", "choose one of its ingredients", (name,))


def _with_amount(question: Question, name: str, value: str) -> dict[str, str]:
    ingredient, kind, ratio = _going_in(question, name)
    key, options = ingredient.key, question.changes.options
    mass_g = read_field(name, value, partial(amount_in_form, kind))
    one_batch_g = options.amounts_g.get(key, ingredient.mass_g) * ratio
    goes_in_g = _goes_in_g(question.recipe, options, key)
    share = goes_in_g / one_batch_g if goes_in_g > 0 else 1.0
    return {name: state_number(mass_g / options.factor / ratio / share)}


def _sized_by(question: Question, name: str, value: str) -> dict[str, str]:
    """The batch in which this much of an ingredient goes in, at its published share."""
    ingredient, kind, _ = _going_in(question, name)
    key = ingredient.key
    mass_g = read_field(name, value, partial(amount_in_form, kind))
    others = {other: g for other, g in question.changes.options.amounts_g.items() if other != key}
    goes_in_g = _goes_in_g(question.recipe, replace(question.changes.options, amounts_g=others), key)
    if goes_in_g <= 0:
        problem = "an ingredient that is left out cannot set the size of the batch"
        raise InputError(problem, "put it back in first", ("size_by", key))
    if mass_g <= 0:
        raise InputError("the amount that sizes the batch is zero", "give more than zero", ("size_by", key))
    factor = _scaled(name, 1.0, mass_g, goes_in_g)
    return {"factor": factor, f"amount.{key}": state_number(ingredient.mass_g)}


def _goes_in_g(recipe: Recipe, options: BatchOptions, key: str) -> float:
    """The mass of an ingredient in one batch, without the steps that are left out."""
    one_batch = replace(options, factor=1.0)
    return next(weighed.mass_g for weighed in weighed_of(recipe, one_batch) if weighed.key == key)


def _scaled(name: str, factor: float, wanted: float, present: float) -> str:
    result = factor * wanted / present
    if not SMALLEST_BATCH <= result <= LARGEST_BATCH:
        path = tuple(name.split("."))
        raise InputError(f"that makes {times_text(result)} batches", f"ask for {BATCHES}", path)
    return state_number(result)
