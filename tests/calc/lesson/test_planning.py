"""Plans for random lessons by the rules, minute by minute; and published job shops whose shortest plans are known."""

import csv
from dataclasses import replace
from pathlib import Path

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.lesson.plan import Follows, Hold, Job, Plan, Task, Turn
from crumbcoat_calc.lesson.plan_rules import broken_rules
from crumbcoat_calc.lesson.planning import CannotBePlanned, plan_of
from hypothesis import given, settings
from hypothesis import strategies as st

TOOLS = ("mixer", "bowl", "hob", "teacher")
EXAMPLES = Path(__file__).parents[2] / "reference" / "scheduling_examples.csv"
"""JSPLIB's instances ft06 (Fisher & Thompson 1963), la01 and la05 (Lawrence 1984), with and without waiting."""


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    """Work like that of recipes: chains in which some products may not wait, and tools held over several tasks."""
    tasks: list[Task] = []
    chains: list[list[str]] = []
    for chain in range(draw(st.integers(1, 3))):
        keys: list[str] = []
        for number in range(draw(st.integers(1, 4))):
            limit = draw(st.sampled_from([0.0, 0.0, 600.0, 1800.0, None]))
            after = [Follows(key=keys[-1], longest_wait_s=limit)] if keys else []
            earlier = [task.key for task in tasks if task.key not in keys]
            if earlier and draw(st.integers(0, 4)) == 0:
                after.append(
                    Follows(key=draw(st.sampled_from(earlier)), longest_wait_s=draw(st.sampled_from([1200.0, None])))
                )
            keys.append(f"{chain}.{number}")
            lasts_s = 30.0 * draw(st.integers(0, 40))
            tasks.append(Task(key=keys[-1], duration_s=lasts_s, attended=draw(st.booleans()), after=tuple(after)))
        chains.append(keys)
    holds = []
    for keys in chains:
        for tool in draw(st.lists(st.sampled_from(TOOLS), max_size=2, unique=True)):
            first = draw(st.integers(0, len(keys) - 1))
            last = draw(st.integers(first, len(keys) - 1))
            then_s = draw(st.sampled_from([0.0, 120.0, 300.0]))
            holds.append(Hold(tool=tool, tasks=tuple(keys[first : last + 1]), then_s=then_s))
    return Job(tasks=tuple(tasks), holds=tuple(holds), hands=draw(st.integers(1, 3)))


@given(
    st.lists(jobs(), min_size=1, max_size=2),
    st.integers(1, 5),
    st.fixed_dictionaries({tool: st.integers(1, 3) for tool in TOOLS}),
)
def test_a_plan_keeps_every_rule(kinds: list[Job], groups: int, tools: dict[str, int]) -> None:
    lesson = [kinds[number % len(kinds)] for number in range(groups)]
    _check(lesson, tools)


@pytest.mark.full
@settings(max_examples=10_000)
@given(st.lists(jobs(), min_size=1, max_size=2), st.integers(1, 5), st.integers(1, 3))
def test_ten_thousand_plans_keep_every_rule(kinds: list[Job], groups: int, of_each: int) -> None:
    _check([kinds[number % len(kinds)] for number in range(groups)], dict.fromkeys(TOOLS, of_each))


def _check(lesson: list[Job], tools: dict[str, int]) -> None:
    try:
        plan = plan_of(lesson, tools)
    except CannotBePlanned as error:
        with pytest.raises(CannotBePlanned):  # It is not the other groups that are in the way.
            plan_of([lesson[error.group - 1]], tools)
        return
    assert broken_rules(lesson, tools, plan) == ()
    assert plan.length_s >= max(_longest_chain(job) for job in lesson)


def _longest_chain(job: Job) -> float:
    """Found by walking every chain: independent of calc."""
    by_key = {task.key: task for task in job.tasks}

    def until_end_of(task: Task) -> float:
        lasts_s = -(-task.duration_s // 60) * 60
        return lasts_s + max((until_end_of(by_key[follows.key]) for follows in task.after), default=0.0)

    return max(until_end_of(task) for task in job.tasks)


WHISK = Task(key="whisk", duration_s=600.0)
BUTTER = Task(key="butter", duration_s=480.0, after=(Follows(key="whisk", longest_wait_s=0.0),))
MERINGUE = Job(tasks=(WHISK, BUTTER), holds=(Hold(tool="mixer", tasks=("whisk", "butter"), then_s=120.0),))


@pytest.mark.parametrize(
    ("spoilt", "says"),
    [
        (lambda turn: replace(turn, start_s=turn.start_s + 60, end_s=turn.end_s + 60), "waits 60 s"),
        (lambda turn: replace(turn, start_s=turn.start_s - 60, end_s=turn.end_s - 60), "begins before whisk"),
        (lambda turn: replace(turn, end_s=turn.end_s - 60), "does not take its time"),
        (lambda turn: replace(turn, task="whisk"), "each of its tasks once"),
    ],
)
def test_a_spoilt_turn_breaks_a_rule(spoilt: object, says: str) -> None:
    plan = plan_of([MERINGUE, MERINGUE], {"mixer": 1})
    assert broken_rules([MERINGUE, MERINGUE], {"mixer": 1}, plan) == ()
    last = len(plan.turns) - 1
    turns = tuple(spoilt(turn) if place == last else turn for place, turn in enumerate(plan.turns))  # type: ignore[operator]
    assert any(says in rule for rule in broken_rules([MERINGUE, MERINGUE], {"mixer": 1}, replace(plan, turns=turns)))


def test_a_mixer_that_two_groups_hold_breaks_a_rule() -> None:
    plan = plan_of([MERINGUE, MERINGUE], {"mixer": 2})
    both = tuple(replace(holding, unit=1) for holding in plan.holdings)
    broken = broken_rules([MERINGUE, MERINGUE], {"mixer": 2}, replace(plan, holdings=both))
    assert broken == ("mixer 1 is held by groups 1 and 2 at once",)
    assert "group 1 does not have each tool for its tasks" in broken_rules(
        [MERINGUE, MERINGUE], {"mixer": 2}, replace(plan, holdings=())
    )


def test_two_tasks_at_once_need_two_hands() -> None:
    """Yolks that must be ready as the syrup is: one pair of hands cannot do both."""
    syrup, yolks = Task(key="syrup", duration_s=540.0), Task(key="yolks", duration_s=300.0)
    both = (Follows(key="syrup", longest_wait_s=0.0), Follows(key="yolks", longest_wait_s=0.0))
    tasks = (syrup, yolks, Task(key="pour", duration_s=60.0, after=both))
    with pytest.raises(CannotBePlanned):
        plan_of([Job(tasks=tasks)], {})
    turns = {turn.task: turn for turn in plan_of([Job(tasks=tasks, hands=2)], {}).turns}
    assert turns["syrup"].end_s == turns["yolks"].end_s == turns["pour"].start_s == 540.0


def test_what_may_wait_is_done_at_the_start_and_what_may_not_just_before() -> None:
    """By hand: one mixer, so the second group's meringue begins at 20 min; it weighs at once, and heats at 11 min."""
    weigh = Task(key="weigh", duration_s=300.0)
    heat = Task(key="heat", duration_s=540.0, after=(Follows(key="weigh"),))
    whisk = replace(WHISK, after=(Follows(key="heat", longest_wait_s=0.0),))
    job = Job(tasks=(weigh, heat, whisk, BUTTER), holds=MERINGUE.holds)
    second = {turn.task: turn.start_s / 60 for turn in plan_of([job, job], {"mixer": 1}).turns if turn.group == 2}
    assert second == {"weigh": 0, "heat": 25, "whisk": 34, "butter": 44}


@pytest.mark.parametrize(
    ("tasks", "problem"),
    [
        ((WHISK, WHISK), "two tasks have the key 'whisk'"),
        ((BUTTER,), "'butter' follows 'whisk', which is not there"),
        ((replace(WHISK, after=(Follows(key="whisk"),)),), "'whisk' waits for itself"),
    ],
)
def test_wrong_tasks_are_refused(tasks: tuple[Task, ...], problem: str) -> None:
    with pytest.raises(InputError, match=problem):
        plan_of([Job(tasks=tasks)], {})


def _rows(instance: str, problem: str, record: str) -> list[dict[str, str]]:
    with EXAMPLES.open(encoding="utf-8", newline="") as file:
        kinds = (instance, problem, record)
        return [row for row in csv.DictReader(file) if (row["instance"], row["problem"], row["record"]) == kinds]


def _shop(instance: str, longest_wait_s: float | None) -> tuple[list[Job], dict[str, int]]:
    """A job shop as a lesson: each job a group, each operation a task that holds its machine."""
    found = []
    for row in _rows(instance, "job shop", "job"):
        operations = [operation.split(":") for operation in row["data"].split()]
        tasks = tuple(
            Task(
                key=str(number),
                duration_s=60.0 * int(minutes),
                attended=False,
                after=(Follows(key=str(number - 1), longest_wait_s=longest_wait_s),) if number else (),
            )
            for number, (_, minutes) in enumerate(operations)
        )
        holds = tuple(Hold(tool=machine, tasks=(str(number),)) for number, (machine, _) in enumerate(operations))
        found.append(Job(tasks=tasks, holds=holds))
    return found, {hold.tool: 1 for job in found for hold in job.holds}


@pytest.mark.parametrize(
    ("instance", "problem", "at_most"),
    [
        ("ft06", "job shop", 1.10),
        ("la01", "job shop", 1.13),
        ("la05", "job shop", 1.00),
        ("ft06", "no-wait job shop", 1.14),
        pytest.param("la01", "no-wait job shop", 1.25, marks=pytest.mark.full),
    ],
)
def test_a_published_job_shop_takes_hardly_longer_than_its_shortest_plan(
    instance: str, problem: str, at_most: float
) -> None:
    """JSPLIB: no plan is shorter than the optimum; ours is longer by at most the factor beside it."""
    shop, machines = _shop(instance, 0.0 if "no-wait" in problem else None)
    plan = plan_of(shop, machines)
    assert broken_rules(shop, machines, plan) == ()
    shortest = int(_rows(instance, problem, "optimum")[0]["value"])
    assert shortest <= plan.length_s / 60 <= at_most * shortest


@pytest.mark.parametrize("problem", ["job shop", "no-wait job shop"])
def test_the_rules_find_nothing_in_a_plan_that_is_known_to_be_the_shortest(problem: str) -> None:
    """Start times of a shortest plan of ft06, found and proven by a constraint solver."""
    shop, machines = _shop("ft06", 0.0 if "no-wait" in problem else None)
    turns = []
    for group, row in enumerate(_rows("ft06", problem, "optimal start times (one of many)"), 1):
        for task, start in zip(shop[group - 1].tasks, row["data"].split(), strict=True):
            begin_s = 60.0 * int(start)
            turns.append(Turn(group=group, task=task.key, start_s=begin_s, end_s=begin_s + task.duration_s))
    at = {(turn.group, turn.task): turn for turn in turns}
    holdings = plan_of(shop, machines).holdings
    moved = tuple(
        replace(
            holding,
            start_s=at[holding.group, holding.tasks[0]].start_s,
            end_s=at[holding.group, holding.tasks[0]].end_s,
        )
        for holding in holdings
    )
    plan = Plan(turns=tuple(turns), holdings=moved)
    assert broken_rules(shop, machines, plan) == ()
    assert plan.length_s / 60 == int(_rows("ft06", problem, "optimum")[0]["value"])
