"""The same batch made by several groups: mean and spread of what they read, and silence where there is nothing."""

from typing import Any

from crumbcoat_calc.trials.alike import Alike, alike_of
from crumbcoat_calc.trials.notebook import notebook_of
from crumbcoat_calc.trials.reading import trial_from

RECIPE: dict[str, object] = {
    "title": "Cream",
    "summary": "A cream.",
    "author": "Bench two",
    "family": "whipped cream",
    "yield": {"portions": "4", "of": "bowls"},
    "ingredients": {
        "cream": {"kind": "cream_heavy_whipping", "amount": "400 g", "role": "fat"},
        "sugar": {"kind": "sugar_powdered", "amount": "40 g", "role": "sweet"},
    },
    "stages": [{"title": "Whip", "steps": [{"do": "Whip.", "add": ["cream", "sugar"]}]}],
}


def tables(*trials: dict[str, Any]) -> list[Alike]:
    read = [
        (f"{number}.yaml", trial_from({"number": str(number), "date": "2026-11-24"} | fields))
        for number, fields in enumerate(trials, 1)
    ]
    found = notebook_of(RECIPE, {}, read)
    assert found.problems == ()
    return alike_of(found.made)


def read(*readings: dict[str, str], **fields: Any) -> dict[str, Any]:
    return {"readings": list(readings)} | fields


def test_mean_and_spread_of_a_certified_data_set() -> None:
    """NIST Statistical Reference Datasets, NumAcc1: 10000001, 10000003, 10000002 have mean 10000002 and SD 1.

    Here in the last digits of a temperature: 18.1, 18.3, 18.2, with mean 18.2 and SD 0.1.
    """
    (table,) = tables(
        *[read({"temperature": f"{t_c} °C"}, who=who) for t_c, who in ((18.1, "a"), (18.3, "b"), (18.2, "c"))]
    )
    assert table.title == "The same batch, made 3 times (trials 1, 2 and 3)"
    assert table.heads == ("", "a", "b", "c", "mean", "standard deviation", "n")
    assert table.rows == (("temperature, °C", "18.1", "18.3", "18.2", "18.20", "0.10", "3"),)


def test_a_spread_of_a_published_sample() -> None:
    """2, 4, 4, 4, 5, 5, 7, 9: mean 5, squares 32 in all, so the sample has an SD of sqrt(32 / 7) = 2.1."""
    marks = (2, 4, 4, 4, 5, 5, 7, 9)
    (table,) = tables(*[read({"spread": f"{mark} mm"}) for mark in marks])
    assert table.rows[0][-3:] == ("5.0", "2.1", "8")


def test_one_group_says_nothing() -> None:
    assert tables(read({"ph": "6.4"}, who="group 1")) == []
    assert tables(read({"ph": "6.4"}), {}) == []
    assert tables(read({"ph": "6.4"}), read({"ph": "6.5"}, changed={"ingredients": {"sugar": "60 g"}})) == []
    assert tables() == []


def test_what_was_weighed_may_differ_and_groups_of_one_name_go_by_number() -> None:
    one = {"changed": {"ingredients": {"sugar": "60 g"}}, "who": "group 1"}
    (table,) = tables(read({"ph": "6.4"}, **one), {}, read({"ph": "6.4"}, **one, weighed={"sugar": "61 g"}))
    assert table.heads[1:3] == ("trial 1", "trial 3")
    assert table.rows == (("pH", "6.4", "6.4", "6.4", "0", "2"),)


def test_readings_on_the_way_and_a_number_that_one_group_did_not_read() -> None:
    (table,) = tables(
        read({"at": "1.1", "temperature": "9 °C"}, {"at": "1", "mass": "430 g"}),
        read({"at": "1.1", "temperature": "8 °C"}),
    )
    assert table.rows == (
        ("temperature after 1.1, °C", "9", "8", "8.50", "0.71", "2"),
        ("mass after 1, g", "430", "", "", "", "1"),
    )


def test_a_trial_of_which_nothing_is_noted_was_only_planned_and_is_not_counted() -> None:
    held = {"did": "held", "readings": [{"ph": "6.4"}]}
    assert tables(held, {}) == []
    (table,) = tables(held, {}, held)
    assert table.title == "The same batch, made 2 times (trials 1 and 3)"


def test_a_time_that_it_still_held_has_no_mean_and_outcomes_are_counted() -> None:
    def test(time: str, did: str) -> dict[str, Any]:
        return {"tests": [{"test": "holding", "time": time, "did": did}]}

    seen_by_nobody = {"because": "Nobody looked."}
    (table,) = tables(test("60 min", "slumped"), test("2 h", "held"), seen_by_nobody)
    assert table.rows == (
        ("holding: time that it held, min", "60", "120 or more", "", "some still held", "", "2"),
        ("what it did", "slumped", "held", "", "1 of 2 held", "", "2"),
    )
