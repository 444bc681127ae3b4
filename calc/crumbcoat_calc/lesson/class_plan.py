"""The plan of a class: one lesson, or several where something has to wait for hours between them."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.lesson.lesson import BOWL, MAKES, MIXER, SEVERAL, Lesson
from crumbcoat_calc.lesson.plan import Job, Plan
from crumbcoat_calc.lesson.planning import CannotBePlanned, plan_of
from crumbcoat_calc.lesson.steps import TEACHER, LessonSteps, Place, Routine, lessons_of
from crumbcoat_calc.recipe.model import Recipe

Planner = Callable[[Sequence[Job], Mapping[str, int]], Plan]

_MORE_HANDS = 3
"""How many more hands are tried where a group has too few for what must be done at once."""

_LARGEST_GROUP = 6
"""The most students in a group that is proposed (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonPlan:
    """One lesson: what is done in `jobs`, one for each group, and when, in s from the end of the talk.

    `places` has recipe, stage and step of each task, `alone` those of the steps that go on after the lesson.
    """

    plan: Plan
    jobs: tuple[Job, ...]
    places: Mapping[str, tuple[int, Place]]
    alone: tuple[tuple[int, Place], ...]

    def whole_s(self, lesson: Lesson) -> float:
        """From the beginning of the talk to the last dish washed, in s."""
        return lesson.talk_s + self.plan.length_s + lesson.taste_s + lesson.clean_s


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassPlan:
    """The lessons of a class. `hands`: how many tasks a group does at a time, more than the lesson's where it must."""

    lessons: tuple[LessonPlan, ...]
    hands: int

    def fits(self, lesson: Lesson) -> bool:
        """Whether each lesson fits the time there is; it does if none is given."""
        return lesson.available_s is None or all(one.whole_s(lesson) <= lesson.available_s for one in self.lessons)


def letter_of(recipe: int, recipes: int) -> str:
    """`A ` for the first of several recipes; nothing for an only one."""
    return f"{'ABCD'[recipe]} " if recipes > 1 else ""


def class_plan(recipes: Sequence[Recipe], lesson: Lesson, planner: Planner = plan_of) -> ClassPlan:
    """The plan for a class that makes these recipes.

    Args:
        planner: what makes the plan of each lesson.

    Raises:
        InputError: at `makes`, if there are fewer groups than recipes of one group each; at `beforehand`, for a stage
            that is not there; at a tool, if there are too few for one group alone.
    """
    if lesson.makes == MAKES[1] and lesson.groups < len(recipes):
        count = len(recipes)
        problem = f"if each group makes one recipe, {count} recipes need {count} groups, and there are {lesson.groups}"
        raise InputError(problem, "use more groups, or let each group make all recipes", ("makes",))
    steps = [_steps(recipe, number, len(recipes), lesson) for number, recipe in enumerate(recipes)]
    count = max(map(len, steps))
    # A recipe for which one lesson is enough is made in the last one, together with what was begun before.
    by_lesson = [[_at(one, number - count + len(one)) for one in steps] for number in range(count)]
    for more in range(_MORE_HANDS + 1):
        hands = lesson.hands + more
        try:
            lessons = tuple(_lesson_plan(parts, lesson, hands, len(recipes), planner) for parts in by_lesson)
            return ClassPlan(lessons=lessons, hands=hands)
        except CannotBePlanned:
            continue
    raise _too_few(by_lesson, lesson, len(recipes))


def _steps(recipe: Recipe, number: int, recipes: int, lesson: Lesson) -> tuple[LessonSteps, ...]:
    without = frozenset(stage for of, stage in lesson.beforehand if of == number)
    if without and max(without) >= len(recipe.stages):
        problem = f"{recipe.title} has no stage {max(without) + 1}"
        raise InputError(problem, f"use 1 to {len(recipe.stages)}", ("beforehand",))
    routine = Routine(weigh_s=lesson.weigh_s, look_s=lesson.look_s, wash_s=lesson.wash_s, change_s=lesson.change_s)
    return lessons_of(recipe, routine, letter_of(number, recipes), without)


def _at(steps: Sequence[LessonSteps], number: int) -> LessonSteps:
    return steps[number] if number >= 0 else LessonSteps()


def _lesson_plan(
    parts: Sequence[LessonSteps], lesson: Lesson, hands: int, recipes: int, planner: Planner = plan_of
) -> LessonPlan:
    jobs = []
    for group in range(lesson.groups):
        made = [parts[number] for number in lesson.recipes_of(group, recipes)]
        tasks = tuple(task for one in made for task in one.tasks)
        jobs.append(Job(tasks=tasks, holds=tuple(hold for one in made for hold in one.holds), hands=hands))
    return LessonPlan(
        plan=planner(jobs, tools_of(lesson)),
        jobs=tuple(jobs),
        places={key: (number, place) for number, one in enumerate(parts) for key, place in one.places.items()},
        alone=tuple((number, place) for number, one in enumerate(parts) for place in one.alone),
    )


def tools_of(lesson: Lesson) -> dict[str, int]:
    """How many there are of each tool that groups share; the teacher is one of them."""
    return {TEACHER: 1, **lesson.tools}


def _too_few(by_lesson: Sequence[Sequence[LessonSteps]], lesson: Lesson, recipes: int) -> InputError:
    """What one group alone has too few of: the tool without which it would go."""
    alone = replace(lesson, groups=1, students=lesson.students // lesson.groups)
    for tool, count in lesson.tools.items():
        others = {other: number for other, number in lesson.tools.items() if other != tool}
        try:
            for parts in by_lesson:
                _lesson_plan(parts, replace(alone, tools=others), lesson.hands + _MORE_HANDS, recipes)
        except CannotBePlanned:
            continue
        words = SEVERAL[tool] if count > 1 else tool
        problem = f"with {count} {words} for all, not even one group can do its work"
        return InputError(problem, f"use {count + 1} or more, or leave the field empty", (SEVERAL[tool],))
    return InputError(
        "some of its steps cannot wait for each other as long as they would have to",
        "choose one recipe a group, or have a stage made beforehand",
        ("makes",),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """One change with which the lesson fits, in words, and the lesson with it."""

    words: str
    lesson: Lesson


def what_would_help(recipes: Sequence[Recipe], lesson: Lesson) -> tuple[Remedy, ...]:
    """The single changes, each planned, with which every lesson fits the time there is; nothing if it fits already."""
    found = []
    for changes in _changes(recipes, lesson):
        fitting = next((one for one in changes if _fits(recipes, one.lesson)), None)
        if fitting is not None:
            found.append(fitting)
    alone = replace(lesson, beforehand=frozenset())
    if len(recipes) > 1 and all(_fits([recipe], alone) for recipe in recipes):
        found.append(Remedy(words="a lesson for each recipe", lesson=alone))
    return tuple(found)


def _fits(recipes: Sequence[Recipe], lesson: Lesson) -> bool:
    try:
        return class_plan(recipes, lesson).fits(lesson)
    except InputError:
        return False


def _changes(recipes: Sequence[Recipe], lesson: Lesson) -> Iterator[list[Remedy]]:
    """Changes of one sort at a time, the smallest first."""
    mixers = lesson.tools.get(MIXER, lesson.groups)
    more = []
    for count in dict.fromkeys((mixers + 1, (mixers + lesson.groups + 1) // 2, lesson.groups)):
        if count > mixers:
            bowls = {BOWL: max(lesson.tools[BOWL], count)} if BOWL in lesson.tools else {}
            tools = {**lesson.tools, MIXER: count, **bowls}
            more.append(Remedy(words=f"{count} mixers", lesson=replace(lesson, tools=tools)))
    yield more
    if len(recipes) > 1 and lesson.makes == MAKES[0]:
        yield [Remedy(words="each group making one of the recipes", lesson=replace(lesson, makes=MAKES[1]))]
    for number, recipe in enumerate(recipes):
        of = f" of {recipe.title}" if len(recipes) > 1 else ""
        for stage in range(len(recipe.stages) - 1):
            words = f"stage {stage + 1}{of} ({recipe.stages[stage].title}) made beforehand by the teacher"
            yield [Remedy(words=words, lesson=replace(lesson, beforehand=lesson.beforehand | {(number, stage)}))]
    fewer = [
        Remedy(words=f"{count} groups" if count > 1 else "one group", lesson=replace(lesson, groups=count))
        for count in range(lesson.groups - 1, 0, -1)
        if -(-lesson.students // count) <= _LARGEST_GROUP
    ]
    yield fewer
