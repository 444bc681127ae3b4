"""What a card says of its own batches: only what its trials have seen."""

from typing import Any

import pytest
from crumbcoat_calc.trials.notebook import notebook_of
from crumbcoat_calc.trials.reading import trial_from
from crumbcoat_calc.trials.record import Record, record_of

from tests.calc.trials.test_notebook import RECIPE

SWEETER: dict[str, Any] = RECIPE | {
    "ingredients": RECIPE["ingredients"] | {"sugar": {"kind": "sugar_powdered", "amount": "165 g"}}  # type: ignore[operator]
}


def record(*trials: dict[str, object], **versions: dict[str, object]) -> Record:
    read = [
        (f"{number}.yaml", trial_from({"number": str(number), "date": "2026-05-03"} | fields))
        for number, fields in enumerate(trials, 1)
    ]
    notebook = notebook_of(RECIPE, versions, read)
    assert notebook.problems == ()
    return record_of(RECIPE, versions, notebook.made)


def kept(days: int, did: str = "held", **more: str) -> dict[str, object]:
    test = {"test": "keeping", "time": f"{days} days", "did": did, "temperature": "4 °C", "where": "fridge"}
    return {"tests": [test | more]}


def test_batches_of_the_recipe_as_it_is_are_counted_and_no_others() -> None:
    other = {"changed": {"ingredients": {"sugar": "120 g"}}, "date": "2026-06-01"}
    assert record().made == ""
    assert record({"did": "held"}).made == "Made once, on 3 May 2026"
    assert record({"because": "It holds."}, {}).made == "Made once, on 3 May 2026", "nothing is noted of the other one"
    assert record({"did": "held"}, {"date": "2026-04-30", "weighed": {"sugar": "151 g"}}, other).made == (
        "Made 2 times, last on 3 May 2026"
    )


@pytest.mark.parametrize(
    ("trials", "sentences"),
    [
        ([kept(3), kept(4)], ("In our test it kept 4 days at 4 °C (39 °F) in the refrigerator.",)),
        ([kept(4), kept(3, "wept")], ()),
        ([kept(2), kept(3, "wept"), kept(5)], ("In our test it kept 2 days at 4 °C (39 °F) in the refrigerator.",)),
        ([kept(3, "wept")], ()),
        ([{"changed": {"ingredients": {"sugar": "120 g"}}} | kept(4)], ()),
        ([{"tests": [{"test": "piping", "time": "2 days", "did": "held"}]}], ()),
    ],
)
def test_it_kept_as_long_as_the_longest_batch_that_none_failed_before(
    trials: list[dict[str, object]], sentences: tuple[str, ...]
) -> None:
    assert record(*trials).kept == sentences


def test_a_version_says_what_changed_and_why_in_the_words_of_the_trial_that_became_it() -> None:
    became = {"from": "v1", "changed": {"ingredients": {"sugar": "150 g"}}, "because": "It wept.", "verdict": "publish"}
    found = record(became, {"date": "2026-04-01"}, v1=SWEETER)
    assert found.versions == ("Since 3 May 2026: 15 g less sugar, powdered (icing sugar). It wept.",)
    assert record({"changed": {"ingredients": {"sugar": "120 g"}}}, v1=SWEETER).versions == ()
