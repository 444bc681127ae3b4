"""Tasks moved later in a schedule, where what they make would wait long: creamed butter does not keep."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from crumbcoat_calc.lesson.schedule import Schedule, Slot, Task

LONGEST_WAIT_S = 2700.0
"""What was made waits at most so long for its next task, where that can be. Our choice, no source."""


def without_long_waits(
    schedule: Schedule, tasks: Sequence[Task], tools: Mapping[str, int] | None = None, hands: int = 1
) -> Schedule:
    """The schedule with each task that something waits for too long started as late as the others allow.

    The last tasks are moved first, and nothing else moves, so that the end stays what it is.

    Args:
        tasks, tools, hands: those that the schedule was made with.

    >>> from crumbcoat_calc.lesson.schedule import schedule_tasks
    >>> chill = Task(key="chill", duration_s=28800.0, attended=False)
    >>> cream, mix = Task(key="cream", duration_s=300.0), Task(key="mix", duration_s=60.0, after=("chill", "cream"))
    >>> made = without_long_waits(schedule_tasks([chill, cream, mix]), [chill, cream, mix])
    >>> [(slot.task, slot.start_s) for slot in made.slots]
    [('chill', 0.0), ('cream', 28500.0), ('mix', 28800.0)]
    """
    by_key = {task.key: task for task in tasks}
    next_keys: dict[str, list[str]] = {}
    for task in tasks:
        for need in task.after:
            next_keys.setdefault(need, []).append(task.key)
    slots = {(slot.group, slot.task): slot for slot in schedule.slots}
    for slot in sorted(schedule.slots, key=lambda slot: -slot.end_s):
        needed = [slots[slot.group, key].start_s for key in next_keys.get(slot.task, ())]
        if needed and min(needed) - slot.end_s > LONGEST_WAIT_S:
            others = [other for other in slots.values() if _are_rivals(slot, other, by_key)]
            slots[slot.group, slot.task] = _moved(slot, min(needed), others, by_key, dict(tools or {}), hands)
    place = {task.key: number for number, task in enumerate(tasks)}
    ordered = sorted(slots.values(), key=lambda slot: (slot.start_s, slot.group, place[slot.task]))
    return replace(schedule, slots=tuple(ordered))


def _are_rivals(slot: Slot, other: Slot, tasks: Mapping[str, Task]) -> bool:
    """Whether two tasks may want the same hands or the same tool."""
    hands = slot.group == other.group and tasks[slot.task].attended and tasks[other.task].attended
    tool = slot.tool is not None and slot.tool == other.tool and (slot.unit is not None or slot.group == other.group)
    return slot is not other and (hands or tool)


def _moved(
    slot: Slot,
    needed_s: float,
    others: Sequence[Slot],
    tasks: Mapping[str, Task],
    tools: Mapping[str, int],
    hands: int,
) -> Slot:
    """The slot at its latest start before the result is needed; as it was if nothing later is free."""
    lasts_s = slot.end_s - slot.start_s
    latest = needed_s - lasts_s
    starts = {latest, *(other.start_s - lasts_s for other in others)}
    for start in sorted((start for start in starts if slot.start_s < start <= latest), reverse=True):
        during = [other for other in others if other.start_s < start + lasts_s and start < other.end_s]
        attended = [other for other in during if other.group == slot.group and tasks[other.task].attended]
        if tasks[slot.task].attended and _most_at_once(attended, start) >= hands:
            continue
        taken = {other.unit for other in during if other.tool == slot.tool}
        units = [None] if slot.unit is None else range(1, tools[slot.tool or ""] + 1)
        free = [unit for unit in units if unit not in taken]
        if slot.tool is None or free:
            unit = free[0] if slot.tool is not None else None
            return replace(slot, start_s=start, end_s=start + lasts_s, unit=unit)
    return slot


def _most_at_once(slots: Sequence[Slot], start_s: float) -> int:
    """How many slots overlap at the busiest moment from a start on."""
    moments = [start_s, *(slot.start_s for slot in slots)]
    return max(sum(slot.start_s <= max(moment, start_s) < slot.end_s for slot in slots) for moment in moments)
