"""Roles that go round: counted here for each student, from the printed tables."""

from collections import Counter

import pytest
from crumbcoat_calc.lesson.roles import fitting_groups
from hypothesis import given
from hypothesis import strategies as st

from tests.calc.calculators.test_handout import EVERYDAY, ICING, MERINGUE, texts


@pytest.mark.parametrize("size", range(2, 7))
def test_everybody_has_a_role_at_each_stage_and_all_roles_in_turn(size):
    shown = texts(MERINGUE, EVERYDAY, students=str(3 * size), groups="3")
    (table,) = shown["roles"]
    head, *stages = table["rows"]
    assert head == ["stage", *[f"student {number}" for number in range(1, size + 1)]]
    assert [row[0].split()[0] for row in stages] == ["A"] * 3 + ["B"] * 3
    everyone = set(stages[0][1:])
    for _, *roles in stages:
        assert len(roles) == size
        assert set(roles) == everyone
        for word in ("weigher", "cook", "timekeeper", "recorder"):
            assert sum(word in role for role in roles) == 1
    for student in range(size):
        had = Counter(row[1 + student] for row in stages)
        assert max(had.values()) - min(had.get(role, 0) for role in everyone) <= 1
    assert shown["roles.problem"] == ""


def test_there_is_a_table_for_each_size_in_use():
    shown = texts(ICING, students="17", groups="6")
    assert [section["title"] for section in shown["roles"]] == ["Roles in a group of 3", "Roles in a group of 2"]
    assert "the reader" not in shown["roles.duties"]
    assert "the timekeeper watches" in shown["roles.duties"]


def test_stages_made_beforehand_have_no_roles_and_different_recipes_share_a_table():
    rows = texts(MERINGUE, beforehand="1", students="8", groups="4")["roles"][0]["rows"]
    assert [row[0] for row in rows[1:]] == ["2 Whisk the meringue", "3 Fill with butter"]
    rows = texts(MERINGUE, EVERYDAY, makes="one recipe", students="8", groups="4")["roles"][0]["rows"]
    assert [row[0] for row in rows[1:]] == ["stage 1", "stage 2", "stage 3"]


@pytest.mark.parametrize(
    ("students", "groups", "said"),
    [
        ("18", "2", "groups of 9 students, and roles are for 2 to 6: use 3 to 9 groups."),
        ("4", "4", "groups of 1 student, and roles are for 2 to 6: use 1 to 2 groups."),
        ("1", "1", "groups of 1 student, and roles are for 2 to 6: one student alone has all roles."),
        (
            "300",
            "40",
            "groups of 8 students, and roles are for 2 to 6: divide the class into several lessons.",
        ),
    ],
)
def test_a_group_too_large_or_too_small_is_said_with_a_remedy(students, groups, said):
    assert texts(ICING, students=students, groups=groups)["roles.problem"] == f"There are {said}"


@given(st.integers(2, 240))
def test_the_remedy_is_right(students):
    low, high = fitting_groups(students, 40)
    for groups in (low, high):
        assert students // groups >= 2
        assert -(-students // groups) <= 6
    if low > 1:
        assert -(-students // (low - 1)) > 6
    if high < 40:
        assert students // (high + 1) < 2
