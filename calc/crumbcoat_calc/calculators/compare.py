"""Calculator: two to six recipes side by side, and what changes from the first to the second."""

from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.conditions import degrees, degrees_text
from crumbcoat_calc.forms.context import Context, PublishedRecipe
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.comparison import change_texts, comparison_texts
from crumbcoat_calc.texts.science import vessel_state
from crumbcoat_calc.texts.warming import compared_warming_texts
from crumbcoat_calc.values.form_fields import read_field, state_number

SLOTS = ("a", "b", "c", "d", "e", "f")


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    recipes: tuple[PublishedRecipe, ...]
    bowl_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    question: Question
    states: tuple[MixtureState, ...]


def read(context: Context, state: Mapping[str, str]) -> Question:
    """The question that the recipes in the slots `a` to `f` ask; the form state may hold `bowl_temperature`.

    Raises:
        InputError: at the field that cannot be used, or if there are fewer than two recipes.
    """
    recipes = context.in_slots(SLOTS)
    if len(recipes) < 2:
        raise InputError("there is only one recipe to compare", "choose a second recipe", ("recipes",))
    return _question(recipes, state)


def apply_edit(question: Question, edit: Mapping[str, str]) -> Question:
    return _question(question.recipes, {**form_state(question), **edit})


def form_state(question: Question) -> dict[str, str]:
    room_c = constants("kitchen")["room"]
    return {} if question.bowl_c == room_c else {"bowl_temperature": state_number(question.bowl_c)}


def calculate(question: Question) -> Answer:
    """The state of each finished batch as published, at rest at one temperature."""
    states = [vessel_state(published.batch.vessels[-1], question.bowl_c) for published in question.recipes]
    return Answer(question=question, states=tuple(states))


def texts(answer: Answer) -> Texts:
    question = answer.question
    found: Texts = {"bowl_temperature": degrees_text(question.bowl_c)}
    found |= comparison_texts(question.recipes, answer.states)
    found |= change_texts(question.recipes, answer.states)
    names = [published.recipe.title for published in question.recipes[:2]]
    return found | compared_warming_texts(names, answer.states[:2], question.bowl_c)


def _question(recipes: tuple[PublishedRecipe, ...], state: Mapping[str, str]) -> Question:
    bowl_c = constants("kitchen")["room"]
    for name, value in state.items():
        if name != "bowl_temperature":
            raise InputError(f"there is no field {name!r} here", "leave it out", (name,))
        if value.strip():
            bowl_c = read_field(name, value, degrees)
    return Question(recipes=recipes, bowl_c=bowl_c)
