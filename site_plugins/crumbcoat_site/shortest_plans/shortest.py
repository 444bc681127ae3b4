"""The shortest plan of a lesson, by a constraint solver, which also proves how far a shorter one is possible."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from crumbcoat_calc.lesson.plan import Holding, Job, Plan, Turn
from crumbcoat_calc.lesson.plan_rules import broken_rules
from crumbcoat_calc.lesson.planning import plan_of
from crumbcoat_calc.lesson.work import MINUTE_S, minutes

_WORKERS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortest:
    """A plan, and `at_least_s`: no plan of the same lesson is shorter than this."""

    plan: Plan
    at_least_s: float


def shortest_plan(jobs: Sequence[Job], tools: Mapping[str, int], seconds: float) -> Shortest:
    """The shortest plan that is found in a time, never longer than that of `plan_of`.

    Args:
        jobs, tools: as `plan_of` takes them.
        seconds: how long the solver may search.

    Raises:
        CannotBePlanned: as `plan_of` does.

    Source:
        or-tools, CP-SAT: interval variables with cumulative constraints.
    """
    ours = plan_of(jobs, tools)
    starts, at_least = _solved(jobs, tools, ours, seconds)
    if starts is None:
        return Shortest(plan=ours, at_least_s=MINUTE_S * at_least)
    plan = _plan(jobs, tools, starts)
    broken = broken_rules(jobs, tools, plan)
    assert not broken, broken
    return Shortest(plan=plan, at_least_s=MINUTE_S * at_least)


def _solved(
    jobs: Sequence[Job], tools: Mapping[str, int], ours: Plan, seconds: float
) -> tuple[dict[tuple[int, str], int] | None, int]:
    """The minute at which each group starts each task, None if none was found; and the least minutes of any plan."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    most = minutes(ours.length_s)
    after_it = most + max((minutes(hold.then_s) for job in jobs for hold in job.holds), default=0)
    starts: dict[tuple[int, str], Any] = {}
    held: dict[str, list[Any]] = {}
    hints = {(turn.group, turn.task): minutes(turn.start_s) for turn in ours.turns}
    length = model.new_int_var(0, most, "length")
    for group, job in enumerate(jobs, 1):
        lasts = {task.key: minutes(task.duration_s) for task in job.tasks}
        attended = []
        for task in job.tasks:
            start = model.new_int_var(0, most - lasts[task.key], f"{group} {task.key}")
            starts[group, task.key] = start
            model.add_hint(start, hints[group, task.key])
            model.add(length >= start + lasts[task.key])
            if task.attended and lasts[task.key]:
                attended.append(model.new_fixed_size_interval_var(start, lasts[task.key], ""))
        model.add_cumulative(attended, [1] * len(attended), job.hands)
        for task in job.tasks:
            for follows in task.after:
                wait = starts[group, task.key] - starts[group, follows.key] - lasts[follows.key]
                model.add(wait >= 0)
                if follows.longest_wait_s is not None:
                    model.add(wait <= int(follows.longest_wait_s // MINUTE_S))
        for hold in job.holds:
            if hold.tool in tools:
                held.setdefault(hold.tool, []).append(
                    _span(model, hold.tasks, group, starts, lasts, hold.then_s, after_it)
                )
    for tool, spans in held.items():
        model.add_cumulative(spans, [1] * len(spans), tools[tool])
    model.minimize(length)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = _WORKERS
    status = solver.solve(model)
    at_least = int(-(-solver.best_objective_bound // 1))
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None, max(at_least, 0)
    return {place: solver.value(start) for place, start in starts.items()}, at_least


def _span(
    model: Any,
    keys: Sequence[str],
    group: int,
    starts: Mapping[tuple[int, str], Any],
    lasts: Mapping[str, int],
    then_s: float,
    most: int,
) -> Any:
    """From the start of the first to the end of the last of these tasks, and as long after."""
    begin, length, end = (model.new_int_var(0, most, "") for _ in range(3))
    model.add_min_equality(begin, [starts[group, key] for key in keys])
    model.add_max_equality(end, [starts[group, key] + lasts[key] + minutes(then_s) for key in keys])
    return model.new_interval_var(begin, length, end, "")


def _plan(jobs: Sequence[Job], tools: Mapping[str, int], starts: Mapping[tuple[int, str], int]) -> Plan:
    """The plan with these starts; each hold gets a unit that is free, of which there is one at any moment."""
    turns, spans = [], []
    for group, job in enumerate(jobs, 1):
        ends = {task.key: starts[group, task.key] + minutes(task.duration_s) for task in job.tasks}
        for task in job.tasks:
            start_s = MINUTE_S * starts[group, task.key]
            turns.append(Turn(group=group, task=task.key, start_s=start_s, end_s=MINUTE_S * ends[task.key]))
        for hold in job.holds:
            if hold.tool in tools:
                begin = min(starts[group, key] for key in hold.tasks)
                end = max(ends[key] for key in hold.tasks) + minutes(hold.then_s)
                spans.append((begin, end, group, hold))
    free_from: dict[tuple[str, int], int] = {}
    holdings = []
    for begin, end, group, hold in sorted(spans, key=lambda span: span[:3]):
        unit = next(unit for unit in range(1, tools[hold.tool] + 1) if free_from.get((hold.tool, unit), 0) <= begin)
        free_from[hold.tool, unit] = end
        span = {"start_s": MINUTE_S * begin, "end_s": MINUTE_S * end}
        holdings.append(Holding(group=group, tool=hold.tool, unit=unit, tasks=hold.tasks, **span))
    turns.sort(key=lambda turn: (turn.start_s, turn.group, turn.task))
    return Plan(turns=tuple(turns), holdings=tuple(holdings))
