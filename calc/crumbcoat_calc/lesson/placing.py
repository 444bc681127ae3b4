"""One group's work beside that of others: backwards, each task as late as hands, tools and what follows allow."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from crumbcoat_calc.lesson.work import Work

_MOVES = 12
"""So often is a task moved out of another's way before an end counts as impossible."""

Busy = dict[tuple[str, int], list[tuple[int, int]]]
"""When each unit of each tool is taken by groups that are placed, as minutes of start and end."""


@dataclass(slots=True)
class Placed:
    """One group's work with the minute at which each task starts, and unit, start and end of each hold."""

    group: int
    work: Work
    starts: dict[int, int]
    held: dict[int, tuple[int, int, int]]


def place(made: Placed, block: Sequence[int], end: int, tools: Mapping[str, int], busy: Busy) -> bool:
    """Place a block of tasks with the last one ending at that minute or before; whether it goes.

    Where a task cannot start early enough before one that must not wait, that one is moved, and all begins again.
    """
    latest_starts: dict[int, int] = {}
    for _ in range(_MOVES):
        stuck = _place_all(made, block, end, tools, busy, latest_starts)
        if stuck is None:
            return True
        earlier = _start(
            made, stuck, _latest_start(made, stuck, end, latest_starts), _not_before(made, stuck), tools, busy
        )
        nexts = [(after, limit, made.starts[after]) for after, limit in made.work.next[stuck] if after in made.starts]
        _take_back(made, block)
        if earlier is None:
            return False
        stop = earlier + made.work.lasts[stuck]
        for after, limit, start in nexts:
            if start - stop > limit:
                if after not in block:
                    return False
                latest_starts[after] = int(stop + limit)
    return False


def _place_all(
    made: Placed,
    block: Sequence[int],
    end: int,
    tools: Mapping[str, int],
    busy: Busy,
    latest_starts: Mapping[int, int],
) -> int | None:
    """Place each task from the last one on, what has the least room first; the task that does not fit, or None."""
    work = made.work
    inside = set(block)
    waits_for = {task: sum(after in inside for after, _ in work.next[task]) for task in block}
    ready: dict[int, tuple[int, float]] = {}

    def add(task: int) -> None:
        limits = [
            made.starts[after] - limit - work.lasts[task] for after, limit in work.next[task] if after in made.starts
        ]
        ready[task] = (_latest_start(made, task, end, latest_starts), max([_not_before(made, task), *limits]))

    for task in block:
        if not waits_for[task]:
            add(task)
    while ready:
        task = min(ready, key=lambda number: (ready[number][0] - ready[number][1], -ready[number][0], number))
        last, first = ready.pop(task)
        start = _start(made, task, last, first, tools, busy)
        if start is None:
            return task
        made.starts[task] = start
        for need in work.before[task]:
            if need in inside:
                waits_for[need] -= 1
                if not waits_for[need]:
                    add(need)
    return None


def _take_back(made: Placed, block: Sequence[int]) -> None:
    for task in block:
        made.starts.pop(task, None)
        for hold in made.work.holds_of[task]:
            made.held.pop(hold, None)


def _not_before(made: Placed, task: int) -> float:
    """The end of what comes first, as far as it is placed."""
    return max(
        (made.starts[need] + made.work.lasts[need] for need in made.work.before[task] if need in made.starts), default=0
    )


def _latest_start(made: Placed, task: int, end: int, latest_starts: Mapping[int, int]) -> int:
    before = min((made.starts[after] for after, _ in made.work.next[task] if after in made.starts), default=end)
    return min(before - made.work.lasts[task], latest_starts.get(task, end))


def _start(made: Placed, task: int, last: int, first: float, tools: Mapping[str, int], busy: Busy) -> int | None:
    """The latest minute from `last` down to `first` at which a task can start; its tools are then taken."""
    work, lasts = made.work, made.work.lasts[task]
    holds = [hold for hold in work.holds_of[task] if work.holds[hold][0] in tools]
    start = last
    while start >= first:
        if work.attended[task] and lasts:
            begins = too_few_hands(made, start, start + lasts)
            if begins is not None:
                start = begins - lasts
                continue
        taken: dict[int, tuple[int, int, int]] = {}
        for hold in holds:
            got = _taken(made, hold, start, start + lasts, tools, busy, taken)
            if isinstance(got, int):
                start = got
                break
            taken[hold] = got
        else:
            made.held.update(taken)
            return start
    return None


def too_few_hands(made: Placed, start: int, stop: int) -> int | None:
    """Where an attended task that is in the way starts; None if there are hands for one more."""
    work = made.work
    during = [
        (begin, ends)
        for other, begin in made.starts.items()
        if work.attended[other] and begin < stop and start < (ends := begin + work.lasts[other])
    ]
    if len(during) < work.hands:
        return None
    moments = [start, *(begin for begin, _ in during if begin > start)]
    if max(sum(begin <= moment < ends for begin, ends in during) for moment in moments) < work.hands:
        return None
    return max(begin for begin, _ in during)


def _taken(
    made: Placed,
    hold: int,
    start: int,
    stop: int,
    tools: Mapping[str, int],
    busy: Busy,
    others: Mapping[int, tuple[int, int, int]],
) -> tuple[int, int, int] | int:
    """Unit, start and end of a hold once a task of it is there too; the next start to try if no unit is free then."""
    tool, tasks, then = made.work.holds[hold]
    own = [
        (unit, begin, ends)
        for held in (made.held, others)
        for number, (unit, begin, ends) in held.items()
        if number != hold and made.work.holds[number][0] == tool
    ]
    if hold in made.held:
        unit, begin, ends = made.held[hold]
        begin, ends = min(begin, start), max(ends, stop + then)
        # Its other tasks are there already: an earlier start makes it only longer.
        return (unit, begin, ends) if in_the_way(busy, own, tool, unit, begin, ends) is None else -1
    # Its other tasks come before this one: at least so long is it held.
    least = max(0, min(start, stop - sum(made.work.lasts[task] for task in tasks)))
    free, tries = [], []
    for unit in range(1, tools[tool] + 1):
        blocked = in_the_way(busy, own, tool, unit, least, stop + then)
        if blocked is None:
            free.append((_room(busy, own, tool, unit, start), -unit))
        else:
            tries.append(start - max(1, stop + then - blocked))
    return (-max(free)[1], start, stop + then) if free else max(tries)


def in_the_way(
    busy: Busy, own: Sequence[tuple[int, int, int]], tool: str, unit: int, start: int, stop: int
) -> int | None:
    """The latest start of what keeps a unit from being free from `start` to `stop`; None if it is."""
    starts = [begin for begin, ends in busy.get((tool, unit), ()) if begin < stop and start < ends]
    starts += [begin for other, begin, ends in own if other == unit and begin < stop and start < ends]
    return max(starts) if starts else None


def _room(busy: Busy, own: Sequence[tuple[int, int, int]], tool: str, unit: int, start: int) -> int:
    """How many minutes before `start` a unit is free."""
    ends = [stop for _, stop in busy.get((tool, unit), ()) if stop <= start]
    ends += [stop for other, _, stop in own if other == unit and stop <= start]
    return start - max(ends, default=0)
