"""The solver's plans: published job shops at their known optimum, and never longer than those of handouts."""

import pytest
from crumbcoat_calc.lesson.plan import Job
from crumbcoat_calc.lesson.plan_rules import broken_rules
from crumbcoat_calc.lesson.planning import CannotBePlanned, plan_of
from crumbcoat_site.shortest_plans.shortest import shortest_plan
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.calc.lesson.test_planning import MERINGUE, _rows, _shop, jobs


@pytest.mark.parametrize(
    ("instance", "problem"), [("ft06", "job shop"), ("la05", "job shop"), ("ft06", "no-wait job shop")]
)
def test_a_published_job_shop_is_planned_at_its_optimum(instance: str, problem: str) -> None:
    """JSPLIB: ft06 takes 55, la05 593 units of time; ft06 without waiting 73."""
    shop, machines = _shop(instance, 0.0 if "no-wait" in problem else None)
    found = shortest_plan(shop, machines, 60)
    assert broken_rules(shop, machines, found.plan) == ()
    assert found.plan.length_s / 60 == found.at_least_s / 60 == int(_rows(instance, problem, "optimum")[0]["value"])


@settings(max_examples=15)
@given(st.lists(jobs(), min_size=1, max_size=2), st.integers(1, 4), st.integers(1, 2))
def test_it_keeps_every_rule_and_is_never_longer(kinds: list[Job], groups: int, of_each: int) -> None:
    lesson = [kinds[number % len(kinds)] for number in range(groups)]
    tools = dict.fromkeys(("mixer", "bowl", "hob", "teacher"), of_each)
    try:
        ours = plan_of(lesson, tools)
    except CannotBePlanned:
        return
    found = shortest_plan(lesson, tools, 2)
    assert broken_rules(lesson, tools, found.plan) == ()
    assert found.at_least_s <= found.plan.length_s <= ours.length_s


def test_two_groups_and_one_mixer_take_as_long_as_the_mixer_is_taken() -> None:
    """By hand: 18 min at the mixer, 2 min to hand it over, 18 min."""
    found = shortest_plan([MERINGUE, MERINGUE], {"mixer": 1}, 5)
    assert (found.plan.length_s, found.at_least_s) == (38 * 60, 38 * 60)
