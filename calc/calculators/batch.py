"""Calculator: a batch of one recipe, as large as wanted, with the reader's own amounts."""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import TypeVar

from calc.display import list_text, mass_text, plain_number_text
from calc.errors import InputError
from calc.fields import did_you_mean, mapping, only, take, text, yes_no
from calc.foods import Food
from calc.recipe.batch import Batch, Choices, batch_of
from calc.recipe.ingredients import amount_of
from calc.recipe.model import Ingredient, Recipe
from calc.recipe.reading import LARGEST_BATCH, SMALLEST_BATCH, recipe_from
from calc.texts import Texts
from calc.texts.amounts import amount_texts, use_texts
from calc.texts.stages import stage_texts
from calc.units import grams, number, number_and_words

T = TypeVar("T")

MODES = ("this", "all")
"""What a changed amount means: this ingredient alone, or the whole batch in step with it."""

_BATCHES = f"{SMALLEST_BATCH} to {LARGEST_BATCH} batches"


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    recipe: Recipe
    choices: Choices
    mode: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    batch: Batch
    choices: Choices
    mode: str


def read(given: str, state: Mapping[str, str]) -> Question:
    """The question that the recipe in `given` and the reader's changes in `state` ask.

    The state may hold `factor`, `mode`, `amount.<key>` (g for one batch as published), `without.<key>` (yes) and
    `instead.<key>` (the key of a replacement).

    Raises:
        InputError: at the field of the state that cannot be used.
    """
    recipe = _recipe(given)
    ingredients = {ingredient.key: ingredient for ingredient in recipe.ingredients}
    amounts_g: dict[str, float] = {}
    left_out, replaced = set(), {}
    factor, mode = 1.0, MODES[0]
    for name, value in state.items():
        head, _, key = name.partition(".")
        if name == "factor":
            factor = _read(name, value, factor_from)
        elif name == "mode":
            mode = _read(name, value, _mode)
        elif head in ("amount", "without", "instead") and key in ingredients:
            if head == "amount":
                amounts_g[key] = _read(name, value, lambda written: float(number(written)))
            elif head == "instead":
                replaced[key] = _read(name, value, partial(_replacement, ingredients[key]))
            elif _read(name, value, partial(_leaves_out, ingredients[key])):
                left_out.add(key)
        else:
            raise InputError(
                f"there is no field {name!r} here", did_you_mean(name, ingredients, "leave it out"), (name,)
            )
    choices = Choices(factor=factor, amounts_g=amounts_g, left_out=frozenset(left_out), replaced=replaced)
    return Question(recipe=recipe, choices=choices, mode=mode)


def keep(given: str, state: Mapping[str, str], edit: Mapping[str, str]) -> dict[str, str]:
    """The state after the reader touched some fields of the form.

    `factor`, `finished_mass` and `portions` set the size of the batch. `amount.<key>` sets one amount in this batch,
    or, in the mode `all`, the size of the batch by this ingredient. An amount is a number of g, or a quantity such as
    `1 US cup`. What stands as published is not kept.

    Raises:
        InputError: at the field that cannot be used.
    """
    kept = dict(state)
    for name, value in edit.items():
        question = read(given, kept)
        factor = question.choices.factor
        if name == "factor":
            kept["factor"] = _shortest(_read(name, value, factor_from))
        elif name == "finished_mass":
            kept["factor"] = _scaled(name, factor, _read(name, value, in_grams), calculate(question).batch.total.mass_g)
        elif name == "portions":
            wanted = _read(name, value, lambda written: float(number(written)))
            kept["factor"] = _scaled(name, 1.0, wanted, question.recipe.yields.portions)
        elif name.startswith("amount."):
            kept |= _with_amount(question, name, value)
        else:
            kept[name] = value
        read(given, kept)
    return _state_of(read(given, kept))


def calculate(question: Question) -> Answer:
    """The batch that is asked for.

    Raises:
        InputError: if nothing is left in it, or more water would boil off than there is.
    """
    batch = batch_of(question.recipe, question.choices)
    return Answer(batch=batch, choices=question.choices, mode=question.mode)


def show(answer: Answer) -> Texts:
    batch, recipe = answer.batch, answer.batch.recipe
    portions = answer.choices.factor * recipe.yields.portions
    texts: Texts = {
        "factor": plain_number_text(answer.choices.factor),
        "mode": answer.mode,
        "portions": plain_number_text(portions, 1),
        "portions_of": f"{plain_number_text(portions, 1)} {recipe.yields.of}",
        "finished_mass": mass_text(batch.total.mass_g),
        "each_mass": mass_text(batch.total.mass_g / portions),
        "water_lost": mass_text(batch.vessels[-1].water_lost_g) if batch.vessels[-1].water_lost_g else "",
        "caution.tried": _tried_text(recipe, answer.choices.factor),
    }
    texts |= amount_texts(batch, answer.choices) | use_texts(batch) | stage_texts(batch)
    texts["status"] = f"{texts['finished_mass']} with {texts['fat.percent']} fat, for {texts['portions_of']}."
    return texts


def warm() -> None:
    """Nothing to load beyond the tables."""


def factor_from(written: object) -> float:
    """How many batches: a number from SMALLEST_BATCH to LARGEST_BATCH.

    >>> factor_from("1/2")
    0.5
    """
    value = float(number(str(written)))
    if not SMALLEST_BATCH <= value <= LARGEST_BATCH:
        raise InputError(f"{value:g} batches cannot be made", f"give {_BATCHES}")
    return value


def in_grams(written: object) -> float:
    """A mass from a form, where a bare number is g.

    >>> in_grams("1.5 kg"), in_grams("750"), in_grams("½")
    (1500.0, 750.0, 0.5)
    """
    return grams(written if number_and_words(written)[1] else f"{text(written)} g")


@lru_cache(maxsize=16)
def _recipe(given: str) -> Recipe:
    try:
        fields = mapping(json.loads(given))
    except (ValueError, RecursionError):
        raise InputError("the recipe that the page gives is not JSON", "reload the page", ("given",)) from None
    only(fields, ("recipe",))
    return take(fields, "recipe", recipe_from)


def _read(name: str, value: str, reader: Callable[[str], T]) -> T:
    try:
        return reader(value)
    except InputError as error:
        raise error.within(*name.split(".")) from None


def _mode(written: str) -> str:
    if written not in MODES:
        raise InputError(f"there is no mode {written!r}", did_you_mean(written, MODES, f"use {list_text(MODES, 'or')}"))
    return written


def _leaves_out(ingredient: Ingredient, written: str) -> bool:
    leaves_out = yes_no(written)
    if leaves_out and not ingredient.optional:
        raise InputError(f"{ingredient.name} is not optional", "set its amount instead")
    return leaves_out


def _replacement(ingredient: Ingredient, written: str) -> str:
    known = [replacement.key for replacement in ingredient.replacements]
    if written and written not in known:
        raise InputError(f"nothing called {written!r} replaces it", did_you_mean(written, known, "choose one listed"))
    return written


def _with_amount(question: Question, name: str, value: str) -> dict[str, str]:
    key = name.removeprefix("amount.")
    found = [ingredient for ingredient in question.recipe.ingredients if ingredient.key == key]
    if not found:
        raise InputError(f"the recipe has no {key!r}", "reload the page", (name,))
    ingredient, choices = found[0], question.choices
    kind, ratio = ingredient.food, 1.0
    for replacement in ingredient.replacements:
        if replacement.key == choices.replaced.get(key):
            kind, ratio = replacement.food, replacement.ratio
    mass_g = _read(name, value, lambda written: amount_in_form(kind, written))
    if question.mode == "this":
        return {name: _shortest(mass_g / choices.factor / ratio)}
    one_batch_g = ratio * choices.amounts_g.get(key, ingredient.mass_g)
    if key in choices.left_out or one_batch_g <= 0:
        raise InputError("an ingredient that is left out cannot set the size", "put it in again first", ("amount", key))
    if mass_g <= 0:
        raise InputError("a batch with none of it cannot be made", "give more than zero", ("amount", key))
    return {"factor": _scaled(name, 1.0, mass_g, one_batch_g)}


def amount_in_form(kind: Food, written: str) -> float:
    """The mass in g of an amount that stands in a form: a bare number is g, zero is allowed."""
    measure = written.partition(",")[0]
    count, words = number_and_words(measure)
    return amount_of(kind, written).mass_g if words and count else in_grams(written)


def _scaled(name: str, factor: float, wanted: float, present: float) -> str:
    result = factor * wanted / present
    if not SMALLEST_BATCH <= result <= LARGEST_BATCH:
        path = tuple(name.split("."))
        raise InputError(f"that would be {result:.3g} batches", f"ask for {_BATCHES}", path)
    return _shortest(result)


def _shortest(value: float) -> str:
    shown = f"{value:.9f}".rstrip("0").rstrip(".")
    return shown or "0"


def _state_of(question: Question) -> dict[str, str]:
    """What differs from the recipe as published, each thing written in one way only."""
    choices = question.choices
    state = {} if choices.factor == 1 else {"factor": _shortest(choices.factor)}
    if question.mode != MODES[0]:
        state["mode"] = question.mode
    for ingredient in question.recipe.ingredients:
        key = ingredient.key
        amount = _shortest(choices.amounts_g.get(key, ingredient.mass_g))
        if amount != _shortest(ingredient.mass_g):
            state[f"amount.{key}"] = amount
        if key in choices.left_out:
            state[f"without.{key}"] = "yes"
        if choices.replaced.get(key):
            state[f"instead.{key}"] = choices.replaced[key]
    return state


def _tried_text(recipe: Recipe, factor: float) -> str:
    if recipe.tried is None or recipe.tried[0] <= factor <= recipe.tried[1]:
        return ""
    low, high = (plain_number_text(bound) for bound in recipe.tried)
    return (
        f"This recipe was tried from {low} to {high} batches at once. Outside that, times, the bowl and the number of "
        "additions may not suit: go by what to look for."
    )
