"""A plan for a class: when each group does each task, and which shared tool it has, so that nothing waits too long."""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import replace

from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.lesson.forward import pull_forward
from crumbcoat_calc.lesson.placing import Busy, Placed, place
from crumbcoat_calc.lesson.plan import Holding, Job, Plan, Turn
from crumbcoat_calc.lesson.work import MINUTE_S, Work

_MOST_TRIED = 60
"""With more blocks than this in all groups, no gap is looked for before the end of the same block of another group."""

_SHUFFLES = 20
"""Of groups with different jobs, this number of orders is drawn by lot."""


class CannotBePlanned(Exception):
    """A group cannot do its job even with the kitchen to itself: too few hands or tools at one moment."""

    def __init__(self, group: int) -> None:
        super().__init__(group)
        self.group = group


def plan_of(jobs: Sequence[Job], tools: Mapping[str, int]) -> Plan:
    """A plan in whole minutes, in which no task's product waits longer than it may, and no tool is taken twice.

    Made backwards: each group's last task comes first, and each task before it as late as hands, tools and what follows
    allow. Group after group gets the earliest end that it can have beside the groups before it, in several orders, of
    which the shortest plan counts. What may wait without limit is then done as early as possible. The plan is good, but
    not always the shortest.

    Args:
        jobs: one for each group; keys differ within a job, and no task follows itself.
        tools: how many there are of each shared tool, 1 or more; of any other every group has its own.

    Raises:
        CannotBePlanned: if a group's job cannot be done in that kitchen at all.
        InputError: at `tasks`, for a repeated key, or an unknown or circular `after`.

    Source:
        definition (backward schedule generation under precedence, longest waits and renewable resources).

    >>> from crumbcoat_calc.lesson.plan import Follows, Hold, Task
    >>> base = Task(key="base", duration_s=300.0)
    >>> whip = Task(key="whip", duration_s=600.0, after=(Follows(key="base", longest_wait_s=0.0),))
    >>> job = Job(tasks=(base, whip), holds=(Hold(tool="mixer", tasks=("whip",)),))
    >>> [(turn.group, turn.task, turn.start_s) for turn in plan_of([job, job], {"mixer": 1}).turns]
    [(1, 'base', 0.0), (1, 'whip', 300.0), (2, 'base', 600.0), (2, 'whip', 900.0)]
    """
    best = _best_placed(jobs, tools, [])
    # With one pair of hands a group takes fewer tools at once, which may leave more for others.
    if any(job.hands > 1 for job in jobs):
        with suppress(CannotBePlanned):
            best = _best_placed([replace(job, hands=1) for job in jobs], tools, best)
    return _plan(best)


def _best_placed(jobs: Sequence[Job], tools: Mapping[str, int], best: list[Placed]) -> list[Placed]:
    """All groups placed in the best order of those tried, or `best` if none of them is better."""
    known = {job: Work(job) for job in dict.fromkeys(jobs)}
    works = [known[job] for job in jobs]
    stuck: CannotBePlanned | None = None
    for order in _orders(works):
        try:
            best = _placed(works, order, tools, _length(best) if best else None) or best
        except CannotBePlanned as error:  # Another order may do.
            stuck = error
    if stuck is not None and not best:
        raise stuck
    return best


def _orders(works: Sequence[Work]) -> list[list[tuple[int, int]]]:
    """Orders in which blocks of groups go in, each as group and block.

    Group after group, or block after block of all groups, in each order of the blocks; or half of the groups in one
    order and half in the other. With different jobs the longest come first, or the shortest, or as drawn by lot.
    """
    found: list[list[tuple[int, int]]] = []
    groups = range(len(works))
    by_length = sorted(groups, key=lambda group: -works[group].chain)
    lines = [tuple(groups)]
    if len(set(works)) > 1:
        lines += [tuple(by_length), tuple(reversed(by_length)), *(_shuffled(groups, seed) for seed in range(_SHUFFLES))]
    for line in dict.fromkeys(lines):
        orders = {work: work.block_orders() for work in set(works)}
        most = max(map(len, orders.values()), default=1)
        for turned in range(most):
            of = {group: orders[works[group]][turned % len(orders[works[group]])] for group in groups}
            found.append([(group, block) for group in line for block in of[group]])
            found.append(_rounds(line, of))
            if most > 1:
                other = {group: orders[works[group]][(turned + 1) % len(orders[works[group]])] for group in groups}
                half = {group: of[group] if 2 * place < len(line) else other[group] for place, group in enumerate(line)}
                found.append(_rounds(line, half))
    unique = {tuple(order): order for order in found}
    return list(unique.values())


def _shuffled(groups: Sequence[int], seed: int) -> tuple[int, ...]:
    draws = Draws(seed)
    return tuple(sorted(groups, key=lambda _: draws.next_bits()))


def _rounds(line: Sequence[int], of: Mapping[int, Sequence[int]]) -> list[tuple[int, int]]:
    most = max(map(len, of.values()), default=0)
    return [(group, of[group][number]) for number in range(most) for group in line if number < len(of[group])]


def _placed(
    works: Sequence[Work], order: Sequence[tuple[int, int]], tools: Mapping[str, int], shorter_than: int | None
) -> list[Placed] | None:
    """All groups placed in this order; None if that would not be shorter."""
    busy: Busy = {}
    placed = [Placed(group, work, {}, {}) for group, work in enumerate(works)]
    latest = 0
    first_end: dict[tuple[Work, int], int] = {}
    for group, number in order:
        one, work = placed[group], works[group]
        block = work.blocks[number]
        end = max(first_end.get((work, number), 0), *(_earliest_end(one, task) for task in block))
        while (shorter_than is None or end < shorter_than) and not place(one, block, end, tools, busy):
            end += 1
            if end > latest + 2 * work.upper:  # Nothing is in its way there but itself.
                raise CannotBePlanned(group + 1)
        if shorter_than is not None and end >= shorter_than:
            return None
        for hold in {hold for task in block for hold in work.holds_of[task] if hold in one.held}:
            unit, start, stop = one.held[hold]
            busy.setdefault((work.holds[hold][0], unit), []).append((start, stop))
            latest = max(latest, stop)
        latest = max(latest, end)
        if len(order) > _MOST_TRIED:
            first_end[work, number] = end
    pull_forward(placed, tools, busy)
    return placed


def _earliest_end(one: Placed, task: int) -> int:
    """The least minute at which a task can end after what is placed already."""
    work = one.work
    if task in one.starts:
        return one.starts[task] + work.lasts[task]
    return work.lasts[task] + max((_earliest_end(one, need) for need in work.before[task]), default=0)


def _length(placed: Sequence[Placed]) -> int:
    return max((start + one.work.lasts[task] for one in placed for task, start in one.starts.items()), default=0)


def _plan(placed: Sequence[Placed]) -> Plan:
    turns, holdings = [], []
    for one in placed:
        tasks = one.work.job.tasks
        for number, start in one.starts.items():
            end_s = MINUTE_S * (start + one.work.lasts[number])
            turns.append(Turn(group=one.group + 1, task=tasks[number].key, start_s=MINUTE_S * start, end_s=end_s))
        for number, (unit, start, stop) in one.held.items():
            tool, members, _ = one.work.holds[number]
            keys = tuple(tasks[member].key for member in members)
            holdings.append(
                Holding(
                    group=one.group + 1,
                    tool=tool,
                    unit=unit,
                    start_s=MINUTE_S * start,
                    end_s=MINUTE_S * stop,
                    tasks=keys,
                )
            )
    places = [one.work.place for one in sorted(placed, key=lambda one: one.group)]
    turns.sort(key=lambda turn: (turn.start_s, turn.group, places[turn.group - 1][turn.task]))
    holdings.sort(key=lambda holding: (holding.tool, holding.unit, holding.start_s))
    return Plan(turns=tuple(turns), holdings=tuple(holdings))
