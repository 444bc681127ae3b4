"""What changed from one trial to the next: grams, steps, points."""

from typing import Any

import pytest
from crumbcoat_calc.trials.differences import grams_texts, points_rows, sentence_of, short_text, size_factor, step_texts
from crumbcoat_calc.trials.notebook import MadeTrial

from .test_notebook import book, trial

SUGAR = {"ingredients": {"sugar": "120 g"}}


def made(number: int, *trials: tuple[str, Any]) -> MadeTrial:
    notebook = book(*trials)
    assert notebook.problems == ()
    return next(one for one in notebook.made if one.trial.number == number)


def grams(one: MadeTrial) -> list[str]:
    return grams_texts(one.origin.recipe, one.recipe)


@pytest.mark.parametrize(
    ("changed", "texts"),
    [
        pytest.param({"sugar": "120 g"}, ["30 g less sugar, powdered (icing sugar): 150 g, now 120 g"], id="less"),
        pytest.param({"salt": "Left out"}, ["salt left out (1 g)"], id="left out"),
        pytest.param(
            {"gum": {"kind": "cornstarch", "name": "starch", "amount": "2 g", "add_at": "1.2"}},
            ["2 g starch, new"],
            id="a new one",
        ),
        pytest.param(
            {"milk": {"kind": "cream_light", "name": "cream"}},
            ["another kind: cream: 120 g, now 120 g"],
            id="another kind",
        ),
        pytest.param({}, [], id="nothing"),
    ],
)
def test_grams(changed: dict[str, Any], texts: list[str]) -> None:
    assert grams(made(1, trial(1, changed={"ingredients": changed}))) == texts


def test_a_trial_is_compared_with_what_was_really_weighed_before() -> None:
    """Trial 1 weighed 125 g of sugar, so that trial 2 with the planned 120 g has 5 g less."""
    second = made(2, trial(1, changed=SUGAR, weighed={"sugar": "125 g"}), trial(2, **{"from": "1"}))
    assert grams(second) == ["5 g less sugar, powdered (icing sugar): 125 g, now 120 g"]
    assert short_text(second) == "made again"


def test_a_batch_of_another_size_says_so_in_one_text() -> None:
    half = {"ingredients": {"butter": "100 g", "milk": "60 g", "sugar": "75 g", "salt": "0.5 g"}}
    one = made(1, trial(1, changed=half))
    assert size_factor(one.origin.recipe, one.recipe) == pytest.approx(0.5)
    assert grams(one) == ["a batch of 0.5 times the size"]
    assert points_rows(one) == []
    assert sentence_of(one) == ""


def test_points_by_hand() -> None:
    """200 g butter with 81.11 % fat and 120 g whole milk with 3.25 % in 471 g, then in 441 g (usda-sr28 01145, 01077).

    166.12 / 471 = 35.3 %, and 166.12 / 441 = 37.7 %.
    """
    rows = points_rows(made(1, trial(1, changed=SUGAR)))
    assert rows[0] == ["Fat", "35.3 %", "37.7 %", "2.4 points more"]
    assert [row[0] for row in rows] == ["Fat", "Water", "Sugars"]


def test_a_sentence_only_of_what_is_worth_one() -> None:
    assert sentence_of(made(1, trial(1, changed=SUGAR))).startswith("It becomes richer in fat")
    assert sentence_of(made(1, trial(1, changed={"ingredients": {"salt": "Left out"}}))) == ""


def test_steps_and_short_texts() -> None:
    steps = {"steps": {"1.2": {"time": "4 min"}, "2.2": "left out"}}
    one = made(1, trial(1, changed={"steps": {"1.2": {"time": "4 min"}}}))
    assert short_text(one) == "step 1.2 done in another way"
    assert step_texts(one.trial.changed.steps) == ["step 1.2: time 4 min"]
    assert step_texts(trial(1, changed=steps)[1].changed.steps)[1] == "step 2.2 left out"
    assert short_text(made(1, trial(1))) == "the recipe as it is"
    both = {"ingredients": {"sugar": "100 g", "milk": "130 g"}}
    assert short_text(made(1, trial(1, changed=both)), 1) == "50 g less sugar, powdered (icing sugar)"
