"""Calculator: the handout for a class that makes one recipe or several."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import Context
from crumbcoat_calc.forms.lesson import lesson_fields, lesson_from, state_from_lesson
from crumbcoat_calc.label.caution_table import Readers
from crumbcoat_calc.lesson.class_plan import ClassPlan, class_plan
from crumbcoat_calc.lesson.experiment import Experiment
from crumbcoat_calc.lesson.lesson import COOKS, Lesson
from crumbcoat_calc.lesson.made import Made, groups_text, made_by
from crumbcoat_calc.purchasing.prices import Prices
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.allergies import allergy_texts
from crumbcoat_calc.texts.cautions import cautions_of_several
from crumbcoat_calc.texts.class_links import class_link_texts
from crumbcoat_calc.texts.experiment import experiment_texts
from crumbcoat_calc.texts.group_sheets import group_sheets
from crumbcoat_calc.texts.kitchen import made_from_text, shopping_texts
from crumbcoat_calc.texts.lesson_plan import plan_texts
from crumbcoat_calc.texts.roles import role_texts
from crumbcoat_calc.texts.sheets import sheet_texts
from crumbcoat_calc.texts.who import who_texts
from crumbcoat_calc.values.display import list_text

SLOTS = ("recipe", "second", "third", "fourth")


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    slots: tuple[str, ...]
    recipes: tuple[Recipe, ...]
    lesson: Lesson
    region: str
    prices: Prices | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """`batches` has one of each recipe as published, `made` what the groups make, `plan` when; `slots` are those of the
    recipes.
    """

    slots: tuple[str, ...]
    batches: tuple[Batch, ...]
    made: tuple[Made, ...]
    experiment: Experiment | None
    plan: ClassPlan
    lesson: Lesson
    region: str
    prices: Prices | None


def read(context: Context, state: Mapping[str, str]) -> Question:
    """The question that the recipes in the slots `recipe` to `fourth` and the lesson in the form state ask.

    Raises:
        InputError: at the field that cannot be used, or if there is no recipe.
    """
    slots = tuple([slot for slot in SLOTS if slot in context.recipes])
    recipes = tuple([context.recipes[slot].recipe for slot in slots])
    if not recipes:
        raise InputError("no recipe is chosen", "choose at least one", ("recipe",))
    if len({recipe.title for recipe in recipes}) < len(recipes):
        raise InputError("the same recipe is chosen twice", "choose each recipe once", ("recipe",))
    return Question(
        slots=slots,
        recipes=recipes,
        lesson=lesson_from(state),
        region=context.readers.region,
        prices=context.prices,
    )


def apply_edit(question: Question, edit: Mapping[str, str]) -> Question:
    return replace(question, lesson=lesson_from({**form_state(question), **edit}))


def form_state(question: Question) -> dict[str, str]:
    return state_from_lesson(question.lesson)


def calculate(question: Question) -> Answer:
    """What each group makes.

    Raises:
        InputError: if nothing is left in a batch, or more water would boil off than there is; as `class_plan` does.
    """
    options = BatchOptions(factor=question.lesson.batches)
    batches = tuple([batch_of(recipe, options) for recipe in question.recipes])
    made, experiment = made_by(question.recipes, question.lesson)
    return Answer(
        slots=question.slots,
        batches=batches,
        made=made,
        experiment=experiment,
        plan=class_plan(question.recipes, question.lesson),
        lesson=question.lesson,
        region=question.region,
        prices=question.prices,
    )


def texts(answer: Answer) -> Texts:
    lesson, batches = answer.lesson, answer.batches
    found: Texts = {**lesson_fields(lesson)}
    found["title"] = list_text([batch.recipe.title for batch in batches])
    found["class"] = _class_text(lesson)
    found["made_from"] = made_from_text(batches, lesson)
    found["group_sheets"] = group_sheets(answer.made, lesson, answer.plan, len(batches))
    found |= shopping_texts(answer.made, lesson, answer.region, answer.prices) | who_texts(answer.made, lesson)
    found |= plan_texts(batches, lesson, answer.plan) | sheet_texts(batches, lesson)
    recipes = [batch.recipe for batch in batches]
    found |= experiment_texts(answer.experiment, recipes, answer.made, lesson)
    found |= role_texts(recipes, lesson) | allergy_texts(recipes, lesson, answer.region)
    found["phones"] = class_link_texts(recipes, answer.made, lesson, answer.plan, answer.slots)
    return found | cautions_of_several(
        _cautioned(answer), None if lesson.cooks == COOKS[0] else False, Readers(region=answer.region)
    )


def _cautioned(answer: Answer) -> list[Batch]:
    """A batch of each recipe, and of each that some groups make of other ingredients, which then are in its title."""
    found: dict[tuple[object, ...], Batch] = {}
    for made in answer.made:
        kinds = [id(weighed.food) for weighed in made.batch.weighed if weighed.needed_g > 0]
        recipe = made.batch.recipe
        if (made.recipe, *kinds) in found:
            continue
        is_first = all(key[0] != made.recipe for key in found)
        title = recipe.title if is_first else f"{recipe.title}, {groups_text(made.groups)}"
        found[made.recipe, *kinds] = replace(made.batch, recipe=replace(recipe, title=title))
    return list(found.values())


def _class_text(lesson: Lesson) -> str:
    sizes = sorted(set(lesson.group_sizes))
    people = f"{lesson.students} student{'' if lesson.students == 1 else 's'}"
    if lesson.groups == 1:
        return f"{people} in one group"
    return f"{people} in {lesson.groups} groups of {list_text([str(size) for size in sizes], 'or')}"
