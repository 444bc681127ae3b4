"""The table of a class's plan: a row of each stage and each look of the teacher, a column of each group."""

from collections.abc import Sequence

from crumbcoat_calc.lesson.class_plan import LessonPlan, letter_of
from crumbcoat_calc.lesson.clock import clock_text
from crumbcoat_calc.lesson.lesson import Lesson
from crumbcoat_calc.lesson.steps import place_text
from crumbcoat_calc.recipe.model import Recipe

_NOT_MADE = "–"


def at_text(after_s: float, lesson: Lesson) -> str:
    """The time of day so long after the talk."""
    return clock_text(lesson.start_s + lesson.talk_s, after_s)


def run_rows(one: LessonPlan, lesson_text: str, recipes: Sequence[Recipe], lesson: Lesson) -> list[list[str]]:
    """For each stage and each look, when each group begins it; a dash where a group does not make it."""
    starts: dict[str, dict[int, float]] = {}
    for turn in one.plan.turns:
        name = _row_name(turn.task, one, recipes)
        begun = starts.setdefault(name, {})
        begun[turn.group] = min(turn.start_s, begun.get(turn.group, turn.start_s))
    order = dict.fromkeys(_row_name(task.key, one, recipes) for job in one.jobs for task in job.tasks)
    return [
        [
            lesson_text + name,
            *(
                at_text(starts[name][group], lesson) if group in starts[name] else _NOT_MADE
                for group in range(1, lesson.groups + 1)
            ),
        ]
        for name in order
    ]


def _row_name(key: str, one: LessonPlan, recipes: Sequence[Recipe]) -> str:
    """`A 2 Whisk the meringue`, `A 3.1 your look`, or what is weighed."""
    if key not in one.places:
        return f"{key.removesuffix('weigh')}Weigh and set up"
    number, place = one.places[key]
    letter = letter_of(number, len(recipes))
    if key.endswith(" look"):
        return f"{letter}{place_text(place)} your look"
    return f"{letter}{place[0] + 1} {recipes[number].stages[place[0]].title}"
