"""Texts of the schedule: what each group does when, who has the mixer, and whether it fits the time."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from crumbcoat_calc.lesson.lesson import Lesson
from crumbcoat_calc.lesson.schedule import (
    Schedule,
    Slot,
    Task,
    clock_text,
    fewest_tools,
    schedule_tasks,
    tasks_from,
    untimed,
)
from crumbcoat_calc.lesson.waiting import without_long_waits
from crumbcoat_calc.pictures.plan import Stretch, plan_chart
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.kitchen import MIXER
from crumbcoat_calc.values.display import duration_text, list_text

_LETTERS = "ABCDEFGH"


def plan_texts(batches: Sequence[Batch], lesson: Lesson) -> Texts:
    """`plan` and `plan.mixers`: rows; `plan.summary`, `plan.fit`, `plan.untimed`; `picture.plan`."""
    recipes = [batch.recipe for batch in batches]
    tasks = _tasks(recipes)
    tools = {MIXER: lesson.mixers} if lesson.mixers is not None else {}
    schedule = schedule_tasks(tasks, lesson.groups, tools, lesson.hands)
    schedule = without_long_waits(schedule, tasks, tools, lesson.hands)
    by_key = {task.key: task for task in tasks}
    timed = [slot for slot in schedule.slots if slot.end_s > slot.start_s]
    mixers = sorted({slot.unit for slot in timed if slot.unit is not None})
    return {
        "plan": [_task_row(task, schedule, recipes, lesson) for task in tasks if task.duration_s > 0],
        "plan.mixers": [[f"Mixer {unit}", _turns_text(timed, unit, lesson)] for unit in mixers],
        "plan.summary": _summary(schedule, lesson),
        "plan.fit": _fit_text(schedule, tasks, lesson),
        "plan.untimed": _untimed_text(recipes),
        "picture.plan": _chart(timed, by_key, lesson),
    }


def _tasks(recipes: Sequence[Recipe]) -> list[Task]:
    """The tasks of all recipes; with several recipes, each task starts with the letter of its recipe."""
    tasks: list[Task] = []
    for number, recipe in enumerate(recipes):
        letter = f"{_LETTERS[number]} " if len(recipes) > 1 else ""
        tasks += [
            replace(task, key=letter + task.key, after=tuple([letter + need for need in task.after]))
            for task in tasks_from(recipe, (MIXER,))
        ]
    return tasks


def _task_row(task: Task, schedule: Schedule, recipes: Sequence[Recipe], lesson: Lesson) -> list[str]:
    letter, _, steps = task.key.rpartition(" ")
    recipe = recipes[_LETTERS.index(letter) if letter else 0]
    stage = recipe.stages[int(steps.split(".")[0]) - 1]
    how = duration_text(task.duration_s) + ("" if task.attended else ", unattended")
    starts: dict[float, list[int]] = {}
    for slot in schedule.slots:
        if slot.task == task.key:
            starts.setdefault(slot.start_s, []).append(slot.group)
    when = [
        f"{_at(start_s, lesson)} {_groups_text(groups, lesson.groups)}" for start_s, groups in sorted(starts.items())
    ]
    return [task.key, stage.title, task.tool or "", how, "; ".join(when)]


def _groups_text(groups: Sequence[int], of: int) -> str:
    if of == 1:
        return ""
    if len(groups) == of:
        return "all groups"
    return f"group {groups[0]}" if len(groups) == 1 else f"groups {list_text([str(group) for group in groups])}"


def _turns_text(slots: Sequence[Slot], unit: int, lesson: Lesson) -> str:
    turns = [slot for slot in slots if slot.unit == unit]
    return "; ".join(
        f"{_at(slot.start_s, lesson)} to {_at(slot.end_s, lesson)} group {slot.group}, {slot.task}" for slot in turns
    )


def _at(after_s: float, lesson: Lesson) -> str:
    return clock_text(lesson.start_s, after_s)


def _summary(schedule: Schedule, lesson: Lesson) -> str:
    hands = "one task" if lesson.hands == 1 else f"{lesson.hands} tasks"
    shared = "" if lesson.mixers is None else f" and {lesson.mixers} mixer{'s' if lesson.mixers > 1 else ''} for all"
    return (
        f"From {_at(0, lesson)} to {_at(schedule.makespan_s, lesson)}, {duration_text(schedule.makespan_s)}, with "
        f"{hands} at a time in each group{shared}. "
        f"One group alone needs at least {duration_text(schedule.critical_path_s)}. "
        "Each task takes the longest time that the recipe gives; weighing and cleaning are extra."
    )


def _fit_text(schedule: Schedule, tasks: Sequence[Task], lesson: Lesson) -> str:
    if lesson.available_s is None:
        return ""
    over_s = schedule.makespan_s - lesson.available_s
    if over_s <= 0:
        return f"It fits into {duration_text(lesson.available_s)}, with {duration_text(-over_s)} to spare."
    fit = f"It takes {duration_text(over_s)} more than the {duration_text(lesson.available_s)} available."
    enough = (
        None if lesson.mixers is None else fewest_tools(MIXER, tasks, lesson.groups, lesson.available_s, lesson.hands)
    )
    if enough is not None:
        return f"{fit} With {enough} mixers it would fit."
    waits = [task for task in tasks if not task.attended]
    if waits:
        longest = max(waits, key=lambda task: task.duration_s)
        wait = f"{longest.key}, {duration_text(longest.duration_s)}"
        fit += f" Everything before the wait of {wait}, can be made the day before."
    return fit


def _untimed_text(recipes: Sequence[Recipe]) -> str:
    notes = [
        f"{recipe.title} states no time for {list_text(list(steps))}, so the plan allows none."
        for recipe in recipes
        if (steps := untimed(recipe))
    ]
    return " ".join(notes)


def _chart(slots: Sequence[Slot], tasks: Mapping[str, Task], lesson: Lesson) -> str:
    def kind(slot: Slot) -> str:
        if not tasks[slot.task].attended:
            return "alone"
        return "shared" if slot.tool == MIXER else "hands"

    stretches = [
        Stretch(group=slot.group, name=slot.task, start_s=slot.start_s, end_s=slot.end_s, kind=kind(slot))
        for slot in slots
    ]
    legend = [
        ("shared", "at the mixer"),
        ("hands", "by hand or at another tool"),
        ("alone", "left alone, nobody needed"),
    ]
    used = {stretch.kind for stretch in stretches}
    return plan_chart(
        "plan",
        "Plan on the clock, one row for each group",
        stretches,
        lesson.start_s,
        [entry for entry in legend if entry[0] in used],
    )
