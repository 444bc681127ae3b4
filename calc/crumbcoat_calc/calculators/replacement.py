"""Calculator: exchange an ingredient of any recipe for one to three others, keeping fat, water and sugar."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food, food, food_with, foods
from crumbcoat_calc.forms.given import Given, given_recipe, name_texts, position
from crumbcoat_calc.formulation.replace import MOST, Exchange, replace
from crumbcoat_calc.recipe.editing import Incoming, free_key, with_exchange
from crumbcoat_calc.recipe.writing import recipe_text
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.exchange import exchange_texts
from crumbcoat_calc.values.fields import did_you_mean
from crumbcoat_calc.values.form_fields import read_field, state_number
from crumbcoat_calc.values.units import number

START = ("milk_powder_whole", "water_tap", "")
"""What stands in for the ingredient until the reader chooses."""


@dataclass(frozen=True, slots=True)
class Other:
    """What comes in: a kind of the ingredient table, and its fat in % where the reader's differs."""

    kind: str
    fat_percent: float | None

    @property
    def food(self) -> Food:
        base = food(self.kind)
        if self.fat_percent is None:
            return base
        name = f"{base.name}, {state_number(self.fat_percent)} % fat"
        return food_with(base, name=name, stated={"fat_g": self.fat_percent})


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    given: Given
    ingredient: int
    others: tuple[Other, ...]
    fields: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    question: Question
    foods: tuple[Food, ...]
    exchange: Exchange | InputError


def read(given: str, state: Mapping[str, str]) -> Question:
    """The question that the recipe in `given` and the reader's choice in `state` ask.

    The state may hold `ingredient` (its position), and of what comes in `other.<n>` (a key of the ingredient table, or
    `none`) and `other_fat.<n>` (%), n from 0 to 2.

    Raises:
        InputError: at the field of the state that cannot be used.
    """
    recipe = given_recipe(given)
    ingredient, fields = 0, {}
    kinds = list(START)
    fats: list[float | None] = [None] * MOST
    for name, value in state.items():
        if not value.strip():
            continue
        head, _, rest = name.partition(".")
        if name == "ingredient":
            ingredient = read_field(name, value, partial(position, given=recipe))
        elif head in ("other", "other_fat") and rest in ("0", "1", "2"):
            if head == "other":
                kinds[int(rest)] = "" if value == "none" else read_field(name, value, _kind)
            else:
                fats[int(rest)] = read_field(name, value, _percent)
        else:
            raise InputError(f"there is no field {name!r} here", "reload the page", (name,))
        fields[name] = value
    others = tuple([Other(kind, fat) for kind, fat in zip(kinds, fats, strict=True)])
    for number_, other in enumerate(others):
        if other.kind and other.fat_percent is not None:
            read_field(f"other_fat.{number_}", "", lambda _, other=other: other.food)  # type: ignore[misc]
    return Question(given=recipe, ingredient=ingredient, others=others, fields=fields)


def keep(given: str, state: Mapping[str, str], edit: Mapping[str, str]) -> dict[str, str]:
    kept = {**state, **edit}
    for name in [name for name in edit if name.startswith("other.")]:
        kept[name] = edit[name] or "none"
    question = read(given, kept)
    found = {"ingredient": str(question.ingredient)} if question.ingredient else {}
    for number_, (other, start) in enumerate(zip(question.others, START, strict=True)):
        if other.kind != start:
            found[f"other.{number_}"] = other.kind or "none"
        if other.fat_percent is not None:
            found[f"other_fat.{number_}"] = state_number(other.fat_percent)
    return found


def calculate(question: Question) -> Answer:
    """What stands for the ingredient; an exchange that cannot be is part of the answer, with its reason."""
    out = question.given.recipe.ingredients[question.ingredient]
    others = tuple([other.food for other in question.others if other.kind])
    exchange: Exchange | InputError
    try:
        exchange = replace(out.food, out.mass_g, others)
    except InputError as error:
        exchange = error
    return Answer(question=question, foods=others, exchange=exchange)


def show(answer: Answer) -> Texts:
    question = answer.question
    out = question.given.recipe.ingredients[question.ingredient]
    texts: Texts = {**name_texts(question.given), "ingredient": str(question.ingredient)}
    for number_, other in enumerate(question.others):
        texts[f"other.{number_}"] = other.kind
        texts[f"other_fat.{number_}"] = "" if other.fat_percent is None else state_number(other.fat_percent)
    texts |= exchange_texts(out.name, out.mass_g, answer.foods, answer.exchange)
    texts["file.recipe"] = _file(answer) if isinstance(answer.exchange, Exchange) else ""
    return texts


def _file(answer: Answer) -> str:
    question, exchange = answer.question, answer.exchange
    assert isinstance(exchange, Exchange)
    given = question.given
    out = given.recipe.ingredients[question.ingredient]
    chosen = [other for other in question.others if other.kind]
    incoming: list[Incoming] = []
    for other, made, mass_g in zip(chosen, answer.foods, exchange.masses_g, strict=True):
        if round(mass_g, 2) <= 0:
            continue
        fields: dict[str, object] = {"kind": other.kind}
        if other.fat_percent is not None:
            fields |= {"composition": {"fat": f"{state_number(other.fat_percent)} %"}, "name": made.name}
        if out.temperature_c is not None:
            fields["temperature"] = f"{state_number(out.temperature_c)} °C"
        key = free_key(other.kind, given.recipe, [one.key for one in incoming])
        incoming.append(Incoming(key=key, fields=fields, mass_g=mass_g))
    if not incoming:
        return ""
    note = f"{out.name} exchanged for {' and '.join([food.name for food in answer.foods])}; worked out, not tried."
    return recipe_text(with_exchange(given.data, given.recipe, out.key, incoming, note))


def _kind(written: str) -> str:
    if written not in foods():
        remedy = did_you_mean(written, foods(), "choose one listed")
        raise InputError(f"there is no kind {written!r} in the ingredient table", remedy)
    return written


def _percent(written: str) -> float:
    value = float(number(written.replace("%", " ").strip()))
    if not 0 <= value <= 100:
        raise InputError(f"{value:g} % cannot be", "give 0 to 100")
    return value
