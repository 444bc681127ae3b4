"""Calculator: two to six recipes side by side, and what changes from the first to the second."""

from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.conditions import degrees
from crumbcoat_calc.forms.given import Given, given_recipes
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.state import State
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.comparison import change_texts, comparison_texts
from crumbcoat_calc.texts.science import state_of_vessel
from crumbcoat_calc.values.form_fields import read_field, state_number

SLOTS = ("a", "b", "c", "d", "e", "f")


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    recipes: tuple[Given, ...]
    bowl_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    question: Question
    states: tuple[State, ...]


def read(given: str, state: Mapping[str, str]) -> Question:
    """The question that the recipes in the fields `a` to `f` of `given` ask; the state may hold `bowl_temperature`.

    Raises:
        InputError: at the field that cannot be used, or if there are fewer than two recipes.
    """
    found = given_recipes(given)
    recipes = tuple([found[slot] for slot in SLOTS if slot in found])
    if len(recipes) < 2:
        raise InputError("one recipe cannot be compared", "choose another one beside it", ("given",))
    bowl_c = constants("kitchen")["room"]
    for name, value in state.items():
        if name != "bowl_temperature":
            raise InputError(f"there is no field {name!r} here", "reload the page", (name,))
        if value.strip():
            bowl_c = read_field(name, value, degrees)
    return Question(recipes=recipes, bowl_c=bowl_c)


def keep(given: str, state: Mapping[str, str], edit: Mapping[str, str]) -> dict[str, str]:
    bowl_c = read(given, {**state, **edit}).bowl_c
    return {} if bowl_c == constants("kitchen")["room"] else {"bowl_temperature": state_number(bowl_c)}


def calculate(question: Question) -> Answer:
    """The state of each finished batch as published, at rest at one temperature."""
    states = [state_of_vessel(one.batch.vessels[-1], question.bowl_c) for one in question.recipes]
    return Answer(question=question, states=tuple(states))


def show(answer: Answer) -> Texts:
    question = answer.question
    texts: Texts = {"bowl_temperature": state_number(question.bowl_c)}
    texts |= comparison_texts(question.recipes, answer.states)
    return texts | change_texts(question.recipes, answer.states)
