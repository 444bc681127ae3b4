"""Calculator: exchange an ingredient of any recipe for one to three others, keeping fat, water and sugar."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food, food, food_with, foods
from crumbcoat_calc.forms.context import Context, PublishedRecipe, name_texts, position, with_room
from crumbcoat_calc.formulation.exchange import MOST_OTHERS, Exchange, find_exchange
from crumbcoat_calc.recipe.editing import Incoming, free_key, with_exchange
from crumbcoat_calc.recipe.writing import recipe_text
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.exchange import exchange_texts
from crumbcoat_calc.values.form_fields import read_field, state_number
from crumbcoat_calc.values.units import number

START = ("milk_powder_whole", "water_tap", "")
"""The ingredients that come in until the reader chooses others: an example, whose second goes with its first."""


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
    published: PublishedRecipe
    ingredient: int
    others: tuple[Other, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    question: Question
    foods: tuple[Food, ...]
    exchange: Exchange | InputError


def read(context: Context, state: Mapping[str, str]) -> Question:
    """The question that the recipe and the reader's choice in the form state ask.

    The form state may hold `ingredient` (its position), and of what comes in `other.<n>` (a key of the ingredient
    table, or `none`) and `other_fat.<n>` (%), n from 0 to 2.

    Raises:
        InputError: at the field of the form state that cannot be used.
    """
    return _question(with_room(context.published), state)


def apply_edit(question: Question, edit: Mapping[str, str]) -> Question:
    changed = {name: value or "none" if name.startswith("other.") else value for name, value in edit.items()}
    return _question(question.published, form_state(question) | changed)


def form_state(question: Question) -> dict[str, str]:
    found = {"ingredient": str(question.ingredient)} if question.ingredient else {}
    for n, (other, start) in enumerate(zip(question.others, _start(question.others[0].kind), strict=True)):
        if other.kind != start:
            found[f"other.{n}"] = other.kind or "none"
        if other.fat_percent is not None:
            found[f"other_fat.{n}"] = state_number(other.fat_percent)
    return found


def calculate(question: Question) -> Answer:
    """The masses that come in; if no exchange is possible, the answer holds the reason."""
    out = question.published.recipe.ingredients[question.ingredient]
    others = tuple([other.food for other in question.others if other.kind])
    exchange: Exchange | InputError
    try:
        exchange = find_exchange(out.food, out.mass_g, others)
    except InputError as error:
        exchange = error
    return Answer(question=question, foods=others, exchange=exchange)


def texts(answer: Answer) -> Texts:
    question = answer.question
    out = question.published.recipe.ingredients[question.ingredient]
    found: Texts = {**name_texts(question.published), "ingredient": str(question.ingredient)}
    for n, other in enumerate(question.others):
        found[f"other.{n}"] = other.kind
        found[f"other_fat.{n}"] = "" if other.fat_percent is None else state_number(other.fat_percent)
    found |= exchange_texts(out.name, out.mass_g, answer.foods, answer.exchange)
    found["file.recipe"] = _file(answer) if isinstance(answer.exchange, Exchange) else ""
    return found


def _question(published: PublishedRecipe, state: Mapping[str, str]) -> Question:
    ingredient = 0
    first = state.get("other.0", "").strip() or START[0]
    kinds = list(_start(first))
    fats: list[float | None] = [None] * MOST_OTHERS
    for name, value in state.items():
        if not value.strip():
            continue
        head, _, rest = name.partition(".")
        if name == "ingredient":
            ingredient = read_field(name, value, partial(position, published=published))
        elif head in ("other", "other_fat") and rest in ("0", "1", "2"):
            if head == "other":
                kinds[int(rest)] = "" if value == "none" else read_field(name, value, _kind)
            else:
                fats[int(rest)] = read_field(name, value, _percent)
        else:
            raise InputError(f"there is no field {name!r} here", "leave it out", (name,))
    others = tuple([Other(kind, fat) for kind, fat in zip(kinds, fats, strict=True)])
    for n, other in enumerate(others):
        if other.kind and other.fat_percent is not None:
            read_field(f"other_fat.{n}", "", lambda _, other=other: other.food)  # type: ignore[misc]
    return Question(published=published, ingredient=ingredient, others=others)


def _start(first: str) -> tuple[str, str, str]:
    """What comes in as long as the reader changes nothing but the first."""
    return START if first == START[0] else (START[0], "", "")


def _file(answer: Answer) -> str:
    question, exchange = answer.question, answer.exchange
    assert isinstance(exchange, Exchange)
    published = question.published
    out = published.recipe.ingredients[question.ingredient]
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
        key = free_key(other.kind, published.recipe, [added.key for added in incoming])
        incoming.append(Incoming(key=key, fields=fields, mass_g=mass_g))
    if not incoming:
        return ""
    note = f"{out.name} exchanged for {' and '.join([food.name for food in answer.foods])}; worked out, not tried."
    return recipe_text(with_exchange(published.data, published.recipe, out.key, incoming, note))


def _kind(written: str) -> str:
    if written not in foods():
        raise InputError(f"there is no kind {written!r} in the ingredient table", "choose one of the list")
    return written


def _percent(written: str) -> float:
    value = float(number(written.replace("%", " ").strip()))
    if not 0 <= value <= 100:
        raise InputError(f"{value:g} % is outside 0 to 100 %", "give a number from 0 to 100")
    return value
