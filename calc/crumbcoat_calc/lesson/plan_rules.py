"""What every plan keeps to, whoever made it: checked task by task and minute by minute."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from crumbcoat_calc.lesson.plan import Hold, Holding, Job, Plan, Turn
from crumbcoat_calc.lesson.work import MINUTE_S, minutes


def broken_rules(jobs: Sequence[Job], tools: Mapping[str, int], plan: Plan) -> tuple[str, ...]:
    """Each rule that a plan breaks, in words; nothing for a good plan.

    Every group does each of its tasks once, in whole minutes and for its time, after what comes first, and before what
    came first has waited too long; it never has more attended tasks at once than hands. Each hold has one unit of its
    tool from the first to the last of its tasks and as long after as it says, and no unit is held twice at a time.

    Args:
        jobs, tools: those that the plan was made for.
    """
    broken = []
    for group, job in enumerate(jobs, 1):
        turns = {turn.task: turn for turn in plan.turns if turn.group == group}
        keys = [turn.task for turn in plan.turns if turn.group == group]
        if sorted(keys) != sorted(task.key for task in job.tasks):
            return (f"group {group} does not do each of its tasks once",)
        broken += _of_turns(group, job, turns)
        holdings = [holding for holding in plan.holdings if holding.group == group]
        broken += _of_holds(group, [hold for hold in job.holds if hold.tool in tools], holdings, turns)
    return (*broken, *_of_units(tools, plan.holdings))


def _of_turns(group: int, job: Job, turns: Mapping[str, Turn]) -> list[str]:
    broken = []
    for task in job.tasks:
        turn = turns[task.key]
        if (
            turn.start_s < 0
            or turn.start_s % MINUTE_S
            or turn.end_s - turn.start_s != MINUTE_S * minutes(task.duration_s)
        ):
            broken.append(f"group {group}: {task.key} does not take its time")
        for follows in task.after:
            wait_s = turn.start_s - turns[follows.key].end_s
            if wait_s < 0:
                broken.append(f"group {group}: {task.key} begins before {follows.key} is done")
            elif follows.longest_wait_s is not None and wait_s > follows.longest_wait_s:
                broken.append(f"group {group}: {follows.key} waits {wait_s:g} s for {task.key}")
    attended = [turns[task.key] for task in job.tasks if task.attended and task.duration_s]
    for turn in attended:
        if sum(other.start_s <= turn.start_s < other.end_s for other in attended) > job.hands:
            broken.append(f"group {group}: too few hands at {turn.task}")
    return broken


def _of_holds(group: int, holds: Sequence[Hold], holdings: Sequence[Holding], turns: Mapping[str, Turn]) -> list[str]:
    asked = sorted((hold.tool, hold.tasks) for hold in holds)
    if asked != sorted((holding.tool, holding.tasks) for holding in holdings):
        return [f"group {group} does not have each tool for its tasks"]
    then_s = {(hold.tool, hold.tasks): hold.then_s for hold in holds}
    broken = []
    for holding in holdings:
        starts = min(turns[key].start_s for key in holding.tasks)
        ends = max(turns[key].end_s for key in holding.tasks)
        if holding.start_s > starts or holding.end_s < ends + then_s[holding.tool, holding.tasks]:
            broken.append(f"group {group} has the {holding.tool} for too short a time")
    return broken


def _of_units(tools: Mapping[str, int], holdings: Sequence[Holding]) -> list[str]:
    broken = []
    ordered = sorted(holdings, key=lambda holding: (holding.tool, holding.unit, holding.start_s, holding.end_s))
    for before, after in pairwise(ordered):
        if (before.tool, before.unit) == (after.tool, after.unit) and before.end_s > after.start_s:
            broken.append(f"{after.tool} {after.unit} is held by groups {before.group} and {after.group} at once")
    return [
        *broken,
        *(f"there is no {one.tool} {one.unit}" for one in holdings if not 1 <= one.unit <= tools[one.tool]),
    ]
