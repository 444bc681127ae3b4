"""What may wait without limit is done as early as it can be: weighing at the start, not just before its step."""

from collections.abc import Mapping, Sequence
from math import inf

from crumbcoat_calc.lesson.placing import Busy, Placed, in_the_way, too_few_hands


def pull_forward(placed: Sequence[Placed], tools: Mapping[str, int], busy: Busy) -> None:
    """Move each task whose product may wait without limit to the earliest minute at which nothing is in its way.

    A task that shares its hold of a tool with others stays. No other task moves, and no end becomes later.
    """
    by_start = sorted((start, one.group, task, one) for one in placed for task, start in one.starts.items())
    for _, _, task, one in by_start:
        work = one.work
        holds = [hold for hold in work.holds_of[task] if hold in one.held]
        can_wait = all(limit == inf for _, limit in work.next[task])
        if work.next[task] and can_wait and all(len(work.holds[hold][1]) == 1 for hold in holds):
            _move(one, task, holds, tools, busy)


def _move(one: Placed, task: int, holds: Sequence[int], tools: Mapping[str, int], busy: Busy) -> None:
    work, now = one.work, one.starts.pop(task)
    taken = {hold: one.held.pop(hold) for hold in holds}
    for hold, (unit, start, stop) in taken.items():
        busy[work.holds[hold][0], unit].remove((start, stop))
    earliest = max((one.starts[need] + work.lasts[need] for need in work.before[task]), default=0)
    tries = {earliest, *(begin + work.lasts[other] for other, begin in one.starts.items())}
    tries |= {
        stop for (tool, _), spans in busy.items() for _, stop in spans if tool in {work.holds[h][0] for h in holds}
    }
    for start in [*sorted(start for start in tries if earliest <= start < now), now]:
        found = _found(one, task, start, holds, tools, busy) if start < now else taken
        if found is not None:
            one.starts[task] = start
            one.held.update(found)
            for hold, (unit, begin, stop) in found.items():
                busy.setdefault((work.holds[hold][0], unit), []).append((begin, stop))
            return


def _found(
    one: Placed, task: int, start: int, holds: Sequence[int], tools: Mapping[str, int], busy: Busy
) -> dict[int, tuple[int, int, int]] | None:
    """The holds of a task that starts at that minute; None if hands or a tool are missing."""
    work = one.work
    stop = start + work.lasts[task]
    if work.attended[task] and too_few_hands(one, start, stop) is not None:
        return None
    found = {}
    for hold in holds:
        tool, _, then = work.holds[hold]
        units = (
            unit for unit in range(1, tools[tool] + 1) if in_the_way(busy, (), tool, unit, start, stop + then) is None
        )
        unit = next(units, None)
        if unit is None:
            return None
        found[hold] = (unit, start, stop + then)
    return found
