"""Texts on the roles in a group: a table for each size of group in use."""

from collections.abc import Sequence

from crumbcoat_calc.lesson.class_plan import letter_of
from crumbcoat_calc.lesson.lesson import MAKES, MOST_GROUPS, Lesson
from crumbcoat_calc.lesson.roles import LARGEST, SMALLEST, fitting_groups, roles_in, sizes_with_roles
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.texts import Section, Texts

_DUTIES = {
    "weigher": "lays out and weighs",
    "cook": "does the step",
    "timekeeper": "watches the clock and the thermometer",
    "recorder": "writes down what you see and measure",
    "reader": "reads the step aloud before it is done",
    "washer-up": "keeps bench and tools clean",
}


def role_texts(recipes: Sequence[Recipe], lesson: Lesson) -> Texts:
    """`roles`: a section with title and rows for each size of group; `roles.duties` and `roles.problem`."""
    stages = _stages(recipes, lesson)
    sections: list[Section] = [
        {
            "title": f"Roles in a group of {size}",
            "rows": [
                ["stage", *[f"student {number}" for number in range(1, size + 1)]],
                *[[stage, *roles_in(size, number)] for number, stage in enumerate(stages)],
            ],
        }
        for size in sizes_with_roles(lesson)
    ]
    largest = max(sizes_with_roles(lesson), default=0)
    used = " ".join(roles_in(largest, 0)) if largest else ""
    duties = [f"the {role} {does}" for role, does in _DUTIES.items() if role in used]
    return {
        "roles": sections,
        "roles.duties": f"Roles go round at each stage: {'; '.join(duties)}." if duties else "",
        "roles.problem": _problem_text(lesson),
    }


def _stages(recipes: Sequence[Recipe], lesson: Lesson) -> list[str]:
    """The stages that a group goes through; by number alone where groups make different recipes."""
    made = [
        [
            f"{letter_of(number, len(recipes))}{stage_number + 1} {stage.title}"
            for stage_number, stage in enumerate(recipe.stages)
            if (number, stage_number) not in lesson.beforehand
        ]
        for number, recipe in enumerate(recipes)
    ]
    if lesson.makes == MAKES[1] and len(recipes) > 1:
        return [f"stage {number}" for number in range(1, max(map(len, made)) + 1)]
    return [stage for stages in made for stage in stages]


def _problem_text(lesson: Lesson) -> str:
    """Which sizes of groups have no table of roles, and how many groups would."""
    others = [size for size in dict.fromkeys(lesson.group_sizes) if not SMALLEST <= size <= LARGEST]
    if not others:
        return ""
    fit = fitting_groups(lesson.students, MOST_GROUPS)
    if lesson.students < SMALLEST:
        remedy = "one student alone has all roles"
    elif fit is None:
        remedy = "divide the class into several lessons"
    else:
        remedy = f"use {fit[0]} to {fit[1]} groups" if fit[0] < fit[1] else f"use {fit[0]} group{'s' * (fit[0] > 1)}"
    shown = f"{others[0]} student{'s' * (others[0] != 1)}"
    return f"There are groups of {shown}, and roles are for {SMALLEST} to {LARGEST}: {remedy}."
