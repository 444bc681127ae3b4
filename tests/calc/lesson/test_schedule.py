"""Schedules: property tests, and cases worked by hand."""

from dataclasses import replace

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.lesson.schedule import Task, clock_text, fewest_tools, schedule_tasks, tasks_from, untimed
from crumbcoat_calc.lesson.waiting import without_long_waits
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given
from hypothesis import strategies as st

TOOLS = ("mixer", "stove", "whisk", None)


@st.composite
def task_lists(draw):
    tasks = []
    for number in range(draw(st.integers(1, 9))):
        known = [task.key for task in tasks]
        after = draw(st.lists(st.sampled_from(known), unique=True, max_size=3)) if known else []
        tasks.append(
            Task(
                key=f"t{number}",
                duration_s=draw(st.integers(0, 40)) * 30.0,
                attended=draw(st.booleans()),
                tool=draw(st.sampled_from(TOOLS)),
                after=tuple(after),
            )
        )
    return draw(st.permutations(tasks))


def _longest_chain(tasks):
    """The time of the longest chain of tasks, found by walking every chain: independent of calc."""
    by_key = {task.key: task for task in tasks}

    def until_end_of(task):
        return task.duration_s + max((until_end_of(by_key[need]) for need in task.after), default=0.0)

    return max(until_end_of(task) for task in tasks)


def _of_tool(made, tool):
    return [slot for slot in made.slots if slot.tool == tool]


def _of_group(made, group):
    return [slot for slot in made.slots if slot.group == group]


def _most_at_once(slots):
    """How many slots with a length overlap at the busiest moment."""
    long = [slot for slot in slots if slot.end_s > slot.start_s]
    return max((sum(a.start_s <= b.start_s < a.end_s for a in long) for b in long), default=0)


@given(task_lists(), st.integers(1, 5), st.integers(1, 3), st.integers(1, 2))
def test_a_schedule_keeps_every_rule(tasks, groups, mixers, hands):
    made = schedule_tasks(tasks, groups, {"mixer": mixers}, hands)
    _check_rules(made, tasks, groups, mixers, hands)
    assert made.critical_path_s == pytest.approx(_longest_chain(tasks))
    assert made.makespan_s >= made.critical_path_s - 1e-9
    mixing = groups * sum(task.duration_s for task in tasks if task.tool == "mixer")
    assert made.makespan_s >= mixing / mixers - 1e-9


@given(task_lists(), st.integers(1, 5), st.integers(1, 3), st.integers(1, 2))
def test_what_is_moved_later_keeps_every_rule_and_the_end(tasks, groups, mixers, hands):
    tasks = [replace(task, duration_s=8 * task.duration_s) for task in tasks]
    first = schedule_tasks(tasks, groups, {"mixer": mixers}, hands)
    made = without_long_waits(first, tasks, {"mixer": mixers}, hands)
    _check_rules(made, tasks, groups, mixers, hands)
    assert max(slot.end_s for slot in made.slots) <= first.makespan_s
    before = {(slot.group, slot.task): slot.start_s for slot in first.slots}
    assert all(slot.start_s >= before[slot.group, slot.task] for slot in made.slots)


def test_butter_is_creamed_when_the_cold_base_is_ready_and_groups_still_share_the_mixer():
    """By hand: the base is cold after 28 800 s; 2 groups cream for 300 s with one mixer, the last one until then."""
    chill = Task(key="chill", duration_s=28800, attended=False)
    cream = Task(key="cream", duration_s=300, tool="mixer")
    mix = Task(key="mix", duration_s=60, after=("chill", "cream"))
    tasks = [chill, cream, mix]
    made = without_long_waits(schedule_tasks(tasks, 2, {"mixer": 1}), tasks, {"mixer": 1})
    assert sorted(slot.start_s for slot in _of_tool(made, "mixer")) == [28200, 28500]
    assert made.makespan_s == 28860


def _check_rules(made, tasks, groups, mixers, hands):
    by_key = {task.key: task for task in tasks}
    times = {(slot.group, slot.task): slot for slot in made.slots}
    assert len(made.slots) == len(times) == groups * len(tasks), "every group does every task once"
    for slot in made.slots:
        task = by_key[slot.task]
        assert slot.end_s - slot.start_s == pytest.approx(task.duration_s)
        assert all(times[slot.group, need].end_s <= slot.start_s for need in task.after), "precedence is kept"
    assert _most_at_once(_of_tool(made, "mixer")) <= mixers, "no mixer is booked twice"
    for unit in range(1, mixers + 1):
        assert _most_at_once([slot for slot in _of_tool(made, "mixer") if slot.unit == unit]) <= 1
    for group in range(1, groups + 1):
        assert _most_at_once([slot for slot in _of_group(made, group) if by_key[slot.task].attended]) <= hands
        assert _most_at_once([slot for slot in _of_group(made, group) if slot.tool == "stove"]) <= 1


@given(task_lists(), st.integers(1, 4))
def test_with_enough_tools_and_hands_one_group_needs_the_longest_chain(tasks, groups):
    own_tools = [Task(key=t.key, duration_s=t.duration_s, attended=t.attended, after=t.after) for t in tasks]
    made = schedule_tasks(own_tools, groups, hands=len(tasks))
    assert made.makespan_s == pytest.approx(made.critical_path_s)


@given(task_lists(), st.integers(1, 3))
def test_no_task_could_start_earlier(tasks, groups):
    """No slot can move to time zero or to the end of an earlier slot without breaking a rule."""
    by_key = {task.key: task for task in tasks}
    made = schedule_tasks(tasks, groups, {"mixer": 1})
    ends = {(slot.group, slot.task): slot.end_s for slot in made.slots}
    for slot in made.slots:
        task = by_key[slot.task]
        ready = max((ends[slot.group, need] for need in task.after), default=0.0)
        for start in {ready, *(one.end_s for one in made.slots)}:
            if not ready <= start < slot.start_s:
                continue
            end = start + task.duration_s
            rivals = [
                one
                for one in made.slots
                if one is not slot
                and one.start_s < end
                and start < one.end_s
                and (
                    (task.attended and one.group == slot.group and by_key[one.task].attended)
                    or (task.tool == "mixer" and one.tool == "mixer")
                    or (task.tool is not None and one.tool == task.tool and one.group == slot.group)
                )
            ]
            assert rivals or task.duration_s == 0, f"{slot} could start at {start}"


def test_two_groups_share_one_mixer_while_the_first_chills():
    """By hand: whip 10, chill 30, coat 5 min; group 2 whips while group 1 chills: 10 + 10 + 30 + 5 = 55 min."""
    tasks = [
        Task(key="whip", duration_s=600, tool="mixer"),
        Task(key="chill", duration_s=1800, attended=False, after=("whip",)),
        Task(key="coat", duration_s=300, after=("chill",)),
    ]
    made = schedule_tasks(tasks, 2, {"mixer": 1})
    assert made.makespan_s == 3300
    assert [(slot.group, slot.start_s) for slot in _of_tool(made, "mixer")] == [(1, 0), (2, 600)]


def test_fewest_mixers():
    """By hand: 7 groups, 10 min each, 30 min: 3 groups per mixer, so 3 mixers; 5 min is too short for any number."""
    whip = [Task(key="whip", duration_s=600, tool="mixer")]
    assert fewest_tools("mixer", whip, 7, 1800) == 3
    assert fewest_tools("mixer", whip, 7, 300) is None


def test_clock_rounds_minutes_down():
    assert clock_text(8 * 3600 + 59 * 60, 119) == "09:00"
    assert clock_text(0, 3 * 86400) == "00:00 (3 days later)"


ONE = Task(key="one", duration_s=60)


@pytest.mark.parametrize(
    ("arguments", "path", "remedy"),
    [
        pytest.param({"tasks": [ONE, ONE]}, ("tasks", 1), "use a different key for each", id="repeated key"),
        pytest.param(
            {"tasks": [ONE, Task(key="two", duration_s=1, after=("onne",))]},
            ("tasks", 1),
            "did you mean 'one'?",
            id="waits for an unknown task",
        ),
        pytest.param(
            {"tasks": [Task(key="a", duration_s=1, after=("b",)), Task(key="b", duration_s=1, after=("a",))]},
            ("tasks",),
            "remove one `after`",
            id="wait for each other",
        ),
        pytest.param(
            {"tasks": [Task(key="a", duration_s=-1)]}, ("tasks", 0), "use zero or more seconds", id="negative time"
        ),
        pytest.param({"tasks": [ONE], "groups": 0}, ("groups",), "use 1 to 200 groups", id="no group"),
        pytest.param({"tasks": [ONE], "groups": 100000}, ("groups",), "use 1 to 200 groups", id="too many groups"),
        pytest.param({"tasks": [ONE], "hands": 0}, ("hands",), "use 1 or more", id="no hands"),
        pytest.param(
            {"tasks": [ONE], "tools": {"mixer": 0}},
            ("tools", "mixer"),
            "use 1 or more, or leave the tool out",
            id="no mixer",
        ),
    ],
)
def test_error(arguments, path, remedy):
    with pytest.raises(InputError) as caught:
        schedule_tasks(**arguments)
    assert (caught.value.path, caught.value.remedy) == (path, remedy)


def test_nothing_to_do_takes_no_time():
    assert schedule_tasks([], 3).makespan_s == 0


RECIPE = {
    "title": "Test frosting", "summary": "For a test.", "author": "the tests", "family": "other",
    "yield": {"portions": "1", "of": "bowl"},
    "ingredients": {
        "milk": {"kind": "milk_whole", "amount": "200 g"},
        "butter": {"kind": "butter_unsalted", "amount": "100 g"},
    },
    "stages": [
        {"title": "Warm milk", "makes": "warm_milk", "steps": [{"do": "Warm it.", "add": ["milk"], "time": "5 min"}]},
        {"title": "Whip", "steps": [
            {"do": "Beat.", "add": ["butter"], "tool": "stand mixer, paddle", "time": "3 to 4 min"},
            {"do": "Whip on.", "tool": "Stand mixer, whisk", "time": "2 min", "unattended": "yes"},
            {"do": "Scrape."},
            {"do": "Pour in.", "add": ["warm_milk"], "tool": "stand mixer, whisk", "time": "60 s"},
            {"do": "Chill.", "time": "1 h", "unattended": "yes"},
        ]},
    ],
}  # fmt: skip


def test_tasks_of_a_recipe():
    """By hand: consecutive steps at the mixer are one task with their longest times; the milk is warmed meanwhile."""
    recipe = recipe_from(RECIPE)
    assert tasks_from(recipe) == (
        Task(key="1.1", duration_s=300),
        Task(key="2.1-2.2", duration_s=360, tool="mixer"),
        Task(key="2.3", duration_s=0, after=("2.1-2.2",)),
        Task(key="2.4", duration_s=60, tool="mixer", after=("2.3", "1.1")),
        Task(key="2.5", duration_s=3600, attended=False, after=("2.4",)),
    )
    assert untimed(recipe) == ("2.3",)
    assert schedule_tasks(tasks_from(recipe), 1, {"mixer": 1}).makespan_s == 300 + 360 + 60 + 3600
    assert schedule_tasks(tasks_from(recipe), 1, {"mixer": 1}, hands=2).makespan_s == 360 + 60 + 3600
