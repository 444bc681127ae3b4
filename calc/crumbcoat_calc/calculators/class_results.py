"""Calculator: what the groups of a class found, as a table with mean and spread, charts and trial files."""

from collections.abc import Mapping
from dataclasses import dataclass

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.class_results import Unusable, found_in
from crumbcoat_calc.forms.context import Context, PublishedRecipe
from crumbcoat_calc.recipe.trial_words import MOST_TRIALS
from crumbcoat_calc.texts import Section, Texts
from crumbcoat_calc.texts.class_results import (
    GroupBatch,
    group_batch,
    result_pictures,
    result_section,
    trial_file,
    unusable_from,
    unusable_row,
)
from crumbcoat_calc.values.fields import did_you_mean
from crumbcoat_calc.values.form_fields import read_field
from crumbcoat_calc.values.units import whole_number

SLOTS = ("recipe", "second", "third", "fourth")
_FIELDS = ("codes", "first")


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """The recipes by slot, the codes as they were pasted, and the number of the first trial file."""

    recipes: Mapping[str, PublishedRecipe]
    codes: str
    first: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The batches of the groups by the slot of their recipe, and the codes that cannot be used."""

    question: Question
    batches: Mapping[str, list[GroupBatch]]
    unusable: list[Unusable]


def read(context: Context, state: Mapping[str, str]) -> Question:
    """The question that the recipes of the class and the form state ask.

    Raises:
        InputError: at the field that cannot be used.
    """
    for name in state:
        if name not in _FIELDS:
            raise InputError(f"unknown field {name!r}", did_you_mean(name, _FIELDS, "leave it out"), (name,))
    first = state.get("first", "").strip()
    codes = state.get("codes", "")
    read_field("codes", codes, found_in, has_numbers=False)
    return Question(
        recipes={slot: context.recipes[slot] for slot in SLOTS if slot in context.recipes},
        codes=codes,
        first=read_field("first", first, whole_number(1, MOST_TRIALS)) if first else 1,
    )


def apply_edit(question: Question, edit: Mapping[str, str]) -> Question:
    return read(Context(recipes=question.recipes), {**form_state(question), **edit})


def form_state(question: Question) -> dict[str, str]:
    state = {"codes": question.codes} if question.codes.strip() else {}
    return state | ({"first": str(question.first)} if question.first != 1 else {})


def calculate(question: Question) -> Answer:
    """The batch of each group whose code can be used and is of one of the recipes."""
    found, unusable = found_in(question.codes)
    slots = {published.recipe.title: slot for slot, published in question.recipes.items()}
    batches: dict[str, list[GroupBatch]] = {}
    for one in found:
        try:
            if one.title not in slots:
                remedy = "choose that recipe on this page, or open the handout of that recipe"
                raise InputError(f"it is of {one.title!r}, which is not on this handout", remedy)
            slot = slots[one.title]
            batches.setdefault(slot, []).append(group_batch(one, question.recipes[slot]))
        except InputError as error:
            unusable.append(unusable_from(one, error))
    return Answer(question=question, batches=batches, unusable=unusable)


def texts(answer: Answer) -> Texts:
    question = answer.question
    found: Texts = {"codes": question.codes, "first": str(question.first)}
    found["unusable"] = [unusable_row(one) for one in answer.unusable]
    sections: list[Section] = []
    files: list[Section] = []
    for slot in SLOTS:
        batches = answer.batches.get(slot, [])
        published = question.recipes.get(slot)
        found |= result_pictures(slot, published.recipe.title if published else "", batches)
        if published and batches:
            sections.append(result_section(published.recipe.title, batches))
            files += [trial_file(one, published, question.first + at) for at, one in enumerate(batches)]
    return found | {"results": sections, "files": files}
