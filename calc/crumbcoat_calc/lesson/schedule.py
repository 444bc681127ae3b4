"""A schedule for several groups that work through the same tasks and share tools."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum, inf

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.model import Recipe, Stage, Step
from crumbcoat_calc.values.display import number_text
from crumbcoat_calc.values.fields import did_you_mean

MOST_GROUPS = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing that a group does. `attended`: somebody has to stay with it. `after`: the tasks that come first."""

    key: str
    duration_s: float
    attended: bool = True
    tool: str | None = None
    after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """When one group does one task, in s from the start; groups and the `unit` of a shared tool are counted from 1."""

    group: int
    task: str
    start_s: float
    end_s: float
    tool: str | None
    unit: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """The slots of all groups; `critical_path_s` is the least time that one group needs, with any number of tools."""

    slots: tuple[Slot, ...]
    makespan_s: float
    critical_path_s: float


def tasks_from(recipe: Recipe, shared: Sequence[str] = ("mixer",)) -> tuple[Task, ...]:
    """The tasks of a recipe, named by their steps: `2.1` is the first step of the second stage, `2.1-2.3` three steps.

    A step takes the longest of its stated times; a step without a time takes none, see `untimed`. Consecutive steps of
    a stage with the same tool are one task, since nobody hands over the bowl between them. A stage that sets its
    product aside can start at once; any other stage follows the last one in the bowl; a step that uses the product of
    a stage follows that stage.

    Args:
        shared: words for tools that groups share; a step's tool that contains such a word is that tool.
    """
    tasks: list[Task] = []
    made: dict[str, str] = {}
    in_bowl: str | None = None
    for stage_number, stage in enumerate(recipe.stages, 1):
        before = None if stage.makes else in_bowl
        for steps in _runs(stage, shared):
            first, last = f"{stage_number}.{steps[0][0]}", f"{stage_number}.{steps[-1][0]}"
            needs = [before, *(made.get(use.what) for _, step in steps for use in step.uses)]
            task = Task(
                key=first if first == last else f"{first}-{last}",
                duration_s=fsum(step.time.longest_s for _, step in steps if step.time),
                attended=any(not step.unattended for _, step in steps),
                tool=_tool(steps[0][1], shared),
                after=tuple(dict.fromkeys(need for need in needs if need)),
            )
            tasks.append(task)
            before = task.key
        if stage.makes and before:
            made[stage.makes] = before
        elif not stage.makes:
            in_bowl = before
    return tuple(tasks)


def untimed(recipe: Recipe) -> tuple[str, ...]:
    """The steps without a stated time, such as `2.1`; they take no time in a schedule."""
    return tuple(
        f"{stage_number}.{number}"
        for stage_number, stage in enumerate(recipe.stages, 1)
        for number, step in enumerate(stage.steps, 1)
        if step.time is None
    )


def _tool(step: Step, shared: Sequence[str]) -> str | None:
    named = (word for word in shared if step.tool and word in step.tool.lower())
    return next(named, step.tool)


def _runs(stage: Stage, shared: Sequence[str]) -> list[list[tuple[int, Step]]]:
    runs: list[list[tuple[int, Step]]] = []
    for number, step in enumerate(stage.steps, 1):
        tool = _tool(step, shared)
        if runs and tool is not None and tool == _tool(runs[-1][-1][1], shared):
            runs[-1].append((number, step))
        else:
            runs.append([(number, step)])
    return runs


def schedule_tasks(
    tasks: Sequence[Task], groups: int = 1, tools: Mapping[str, int] | None = None, hands: int = 1
) -> Schedule:
    """A schedule in which every task starts as early as the other tasks, the tools and the hands allow.

    List scheduling: tasks are placed in the order of the time from their start to the end of the work, the longest
    first, group by group, each at the earliest time that breaks no rule. The result is good, but not always the
    shortest possible.

    Args:
        tasks: of one group; their keys differ, and no task waits for itself.
        groups: 1 to 200, each with the same tasks.
        tools: how many of each shared tool there are; every group has its own of any other tool.
        hands: how many attended tasks one group can do at a time, 1 or more.

    Raises:
        InputError: at `tasks`, for a repeated key, an unknown or circular `after` or a negative time; at `groups`,
            `hands` or `tools`, if out of range.

    Source:
        definition (list scheduling under precedence and resources).

    >>> whip = Task(key="whip", duration_s=600.0, tool="mixer")
    >>> chill = Task(key="chill", duration_s=1800.0, attended=False, after=("whip",))
    >>> both = schedule_tasks([whip, chill], groups=2, tools={"mixer": 1})
    >>> both.makespan_s, both.critical_path_s, [slot.group for slot in both.slots if slot.tool == "mixer"]
    (3000.0, 2400.0, [1, 2])
    """
    shared = dict(tools or {})
    if not 1 <= groups <= MOST_GROUPS:
        raise InputError(f"{groups} groups cannot be scheduled", f"use 1 to {MOST_GROUPS} groups", ("groups",))
    if hands < 1:
        raise InputError("a group must be able to do at least one task", "use 1 or more", ("hands",))
    for tool, count in shared.items():
        if count < 1:
            raise InputError(f"there is no {tool}", "use 1 or more, or leave the tool out", ("tools", tool))
    ordered = _in_order(tasks)
    to_the_end = _to_the_end(ordered)
    place = {task.key: number for number, task in enumerate(ordered)}
    jobs = [(task, group) for task in ordered for group in range(1, groups + 1)]
    jobs.sort(key=lambda job: (-to_the_end[job[0].key], place[job[0].key], job[1]))
    busy: dict[tuple[str, int, int], list[tuple[float, float]]] = {}
    ends: dict[tuple[str, int], float] = {}
    slots = []
    for task, group in jobs:
        earliest = max((ends[need, group] for need in task.after), default=0.0)
        wanted = []
        if task.attended:
            wanted.append([("hands", group, unit) for unit in range(hands)])
        if task.tool is not None:
            units = shared.get(task.tool)
            own = [(f"tool {task.tool}", group, 0)]
            wanted.append(own if units is None else [(f"tool {task.tool}", 0, unit) for unit in range(units)])
        start, taken = _earliest(earliest, task.duration_s, wanted, busy)
        for resource in taken:
            busy.setdefault(resource, []).append((start, start + task.duration_s))
            busy[resource].sort()
        ends[task.key, group] = start + task.duration_s
        unit = taken[-1][2] + 1 if task.tool in shared else None
        slots.append(
            Slot(group=group, task=task.key, start_s=start, end_s=start + task.duration_s, tool=task.tool, unit=unit)
        )
    slots.sort(key=lambda slot: (slot.start_s, slot.group, place[slot.task]))
    return Schedule(
        slots=tuple(slots),
        makespan_s=max((slot.end_s for slot in slots), default=0.0),
        critical_path_s=max(to_the_end.values(), default=0.0),
    )


def fewest_tools(tool: str, tasks: Sequence[Task], groups: int, available_s: float, hands: int = 1) -> int | None:
    """The smallest number of a tool with which the work fits the time; None if one for every group is not enough.

    Every group has its own of any other tool.

    >>> fewest_tools("mixer", [Task(key="whip", duration_s=600, tool="mixer")], groups=6, available_s=1800)
    2
    """
    for count in range(1, groups + 1):
        if schedule_tasks(tasks, groups, {tool: count}, hands).makespan_s <= available_s:
            return count
    return None


def clock_text(begin_s: float, after_s: float) -> str:
    """The time of day `after_s` seconds after `begin_s`, which is in s since midnight; minutes are rounded down.

    >>> clock_text(9 * 3600, 5400), clock_text(23 * 3600, 7200)
    ('10:30', '01:00 (next day)')
    """
    days, rest = divmod(int(begin_s + after_s), 86400)
    clock = f"{rest // 3600:02}:{rest % 3600 // 60:02}"
    later = "" if not days else " (next day)" if days == 1 else f" ({number_text(days, 0)} days later)"
    return clock + later


def _in_order(tasks: Sequence[Task]) -> list[Task]:
    by_key: dict[str, Task] = {}
    for number, task in enumerate(tasks):
        if task.key in by_key:
            raise InputError(f"two tasks have the key {task.key!r}", "use a different key for each", ("tasks", number))
        if not 0 <= task.duration_s < inf:
            problem = f"{task.key!r} cannot take {task.duration_s:g} s"
            raise InputError(problem, "use zero or more seconds", ("tasks", number))
        by_key[task.key] = task
    for number, task in enumerate(tasks):
        for need in task.after:
            if need not in by_key:
                remedy = did_you_mean(need, by_key, "use the key of another task")
                raise InputError(f"{task.key!r} waits for an unknown task {need!r}", remedy, ("tasks", number))
    ordered: list[Task] = []
    done: set[str] = set()
    waiting = list(tasks)
    while waiting:
        ready = [task for task in waiting if done.issuperset(task.after)]
        if not ready:
            circle = ", ".join(task.key for task in waiting)
            raise InputError(f"these tasks wait for each other: {circle}", "remove one `after`", ("tasks",))
        ordered += ready
        done |= {task.key for task in ready}
        waiting = [task for task in waiting if task.key not in done]
    return ordered


def _to_the_end(ordered: Sequence[Task]) -> dict[str, float]:
    to_the_end = {task.key: task.duration_s for task in ordered}
    by_key = {task.key: task for task in ordered}
    for task in reversed(ordered):
        for need in task.after:
            to_the_end[need] = max(to_the_end[need], by_key[need].duration_s + to_the_end[task.key])
    return to_the_end


def _earliest(
    earliest_s: float,
    duration_s: float,
    wanted: Sequence[Sequence[tuple[str, int, int]]],
    busy: Mapping[tuple[str, int, int], list[tuple[float, float]]],
) -> tuple[float, list[tuple[str, int, int]]]:
    """The first start at which one resource of each wanted group is free for the duration, and those resources.

    The start is the earliest time itself or the end of another task.
    """
    ends = {end for group in wanted for resource in group for _, end in busy.get(resource, ()) if end > earliest_s}
    for start in (earliest_s, *sorted(ends)):
        taken = []
        for group in wanted:
            free = [resource for resource in group if _free(busy.get(resource, ()), start, start + duration_s)]
            if not free:
                break
            taken.append(free[0])
        else:
            return start, taken
    raise AssertionError("everything is free after the last end")


def _free(times: Sequence[tuple[float, float]], start: float, end: float) -> bool:
    return all(end <= from_s or to_s <= start for from_s, to_s in times)
