"""Calculator: the label of a batch, what it costs, and the cautions that it calls for."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.changes import Changes, changes_from, state_of
from crumbcoat_calc.forms.conditions import is_condition
from crumbcoat_calc.forms.written_amounts import in_grams
from crumbcoat_calc.label.ingredient_list import lists_of
from crumbcoat_calc.purchasing.cost import Prices, prices_from
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.cautions import caution_texts
from crumbcoat_calc.texts.cost import cost_texts
from crumbcoat_calc.texts.label import label_texts
from crumbcoat_calc.values.fields import json_fields, only, take, take_or
from crumbcoat_calc.values.form_fields import read_field, state_number

CAKE = "cost.cake"
"""The field for what goes onto one cake."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    recipe: Recipe
    prices: Prices | None
    changes: Changes
    cake_g: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    batch: Batch
    prices: Prices | None
    density_g_per_ml: float | None
    cake_g: float | None


def read(given: str, state: Mapping[str, str]) -> Question:
    """The question that recipe and prices in `given` and the reader's changes in `state` ask.

    The state is that of the batch calculator on the page, and `cost.cake`: the g that go onto one cake.

    Raises:
        InputError: at the field of the state that cannot be used.
    """
    recipe, prices = _given(given)
    of_batch = {name: value for name, value in state.items() if name != CAKE and not is_condition(name)}
    cake_g = read_field(CAKE, state[CAKE], _cake_g) if state.get(CAKE, "").strip() else None
    return Question(recipe=recipe, prices=prices, changes=changes_from(recipe, of_batch), cake_g=cake_g)


def keep(given: str, state: Mapping[str, str], edit: Mapping[str, str]) -> dict[str, str]:
    """The state after the reader touched `cost.cake`, a number of g or a mass; empty asks for no cake."""
    question = read(given, {**state, **edit})
    own = {} if question.cake_g is None else {CAKE: state_number(question.cake_g)}
    return state_of(question.recipe, question.changes) | own


def calculate(question: Question) -> Answer:
    """The batch that is asked for.

    Raises:
        InputError: if nothing is left in it, or more water would boil off than there is.
    """
    return Answer(
        batch=batch_of(question.recipe, question.changes.options),
        prices=question.prices,
        density_g_per_ml=question.changes.density_g_per_ml(question.recipe),
        cake_g=question.cake_g,
    )


def show(answer: Answer) -> Texts:
    lists = lists_of(answer.batch)
    return (
        label_texts(answer.batch, answer.density_g_per_ml, lists)
        | cost_texts(answer.batch, answer.prices, answer.cake_g)
        | caution_texts(answer.batch, lists=lists)
    )


def _cake_g(written: str) -> float:
    mass_g = in_grams(written)
    if mass_g <= 0:
        raise InputError("a cake without any of it costs nothing", "give what goes onto one cake, such as `350 g`")
    return mass_g


@lru_cache(maxsize=16)
def _given(given: str) -> tuple[Recipe, Prices | None]:
    fields = json_fields(given)
    only(fields, ("recipe", "prices"))
    prices = take_or(fields, "prices", lambda value: prices_from(str(value)), None)
    return take(fields, "recipe", recipe_from), prices
