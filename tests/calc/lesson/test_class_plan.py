"""Plans of lessons with the demo's recipes, checked by the rules for whatever a teacher may choose."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.lesson.class_plan import class_plan, tools_of, what_would_help
from crumbcoat_calc.lesson.lesson import MAKES, TOOLS, Lesson
from crumbcoat_calc.lesson.plan_rules import broken_rules
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given, settings
from hypothesis import strategies as st

FOLDER = Path(__file__).parents[3] / "recipes"
FILES = sorted(path for path in FOLDER.glob("*/*.yaml") if path.parent.name != "reference")
SWISS, EVERYDAY = "swiss-meringue-buttercream", "everyday-milk-frosting"


@cache
def demo(name: str) -> Recipe:
    file = next(path for path in FILES if path.stem == name)
    return recipe_from(yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader))


NAMES = [path.stem for path in FILES]

LESSONS = st.builds(
    Lesson,
    students=st.integers(12, 30),
    groups=st.integers(1, 8),
    tools=st.dictionaries(st.sampled_from(TOOLS), st.integers(1, 6)),
    makes=st.sampled_from(MAKES),
    available_s=st.sampled_from([None, 5400.0, 9000.0]),
    weigh_s=st.sampled_from([0.0, 600.0]),
    look_s=st.sampled_from([0.0, 60.0, 180.0]),
    change_s=st.sampled_from([0.0, 120.0]),
    wash_s=st.sampled_from([0.0, 300.0]),
)


@given(st.lists(st.sampled_from(NAMES), min_size=1, max_size=3, unique=True), LESSONS)
def test_every_lesson_of_the_demo_keeps_every_rule(names: list[str], lesson: Lesson) -> None:
    _check([demo(name) for name in names], lesson)


@pytest.mark.full
@settings(max_examples=10_000)
@given(st.lists(st.sampled_from(NAMES), min_size=1, max_size=3, unique=True), LESSONS)
def test_ten_thousand_lessons_of_the_demo_keep_every_rule(names: list[str], lesson: Lesson) -> None:
    _check([demo(name) for name in names], lesson)


def _check(recipes: list[Recipe], lesson: Lesson) -> None:
    try:
        made = class_plan(recipes, lesson)
    except InputError as error:
        refused = error
    else:
        refused = None
    if refused is not None:
        assert refused.path[0] in {"makes", "mixers", "bowls", "hobs", "ovens", "shelves"}
        return
    for one in made.lessons:
        assert broken_rules(one.jobs, tools_of(lesson), one.plan) == ()
    planned = [place for one in made.lessons for place in one.places.values()]
    for number, recipe in enumerate(recipes):
        steps = {(stage, step) for stage, of in enumerate(recipe.stages) for step, _ in enumerate(of.steps)}
        assert {place for of, place in planned if of == number} == steps


@pytest.mark.parametrize("name", NAMES)
def test_one_group_with_a_kitchen_of_its_own_can_make_each_recipe(name: str) -> None:
    made = class_plan([demo(name)], Lesson(students=3, groups=1))
    assert made.hands == 2
    assert all(broken_rules(one.jobs, {"teacher": 1}, one.plan) == () for one in made.lessons)


def test_each_remedy_that_is_proposed_fits() -> None:
    recipes = [demo(SWISS), demo(EVERYDAY)]
    lesson = Lesson(students=18, groups=6, tools={"mixer": 2, "bowl": 6}, available_s=9000.0)
    remedies = what_would_help(recipes, lesson)
    assert [remedy.words for remedy in remedies][:2] == ["3 mixers", "each group making one of the recipes"]
    assert all(class_plan(recipes, remedy.lesson).fits(remedy.lesson) for remedy in remedies)


def test_a_stage_made_beforehand_is_in_no_plan() -> None:
    recipes = [demo(EVERYDAY)]
    lesson = Lesson(students=12, groups=4, beforehand=frozenset({(0, 0)}))
    [one] = class_plan(recipes, lesson).lessons
    assert {place[0] for _, place in one.places.values()} == {1, 2}
    assert one.plan.length_s < class_plan(recipes, replace(lesson, beforehand=frozenset())).lessons[0].plan.length_s
