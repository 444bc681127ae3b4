"""What to try next: half-way between what held and what broke along one change, or what is missing."""

from typing import Any

import pytest
from crumbcoat_calc.trials.next_step import edges_of
from crumbcoat_calc.trials.next_step_texts import edge_text, next_texts
from crumbcoat_calc.trials.notebook import MadeTrial

from tests.calc.trials.test_notebook import book, trial

HEATED = {"1.1": {"heat_to": "80 °C", "time": "4 min"}}

OTHER_SHARES = {"ingredients": {"butter": {"portions": {"base": "100 g", "whip": "100 g"}}}}


def batch(number: int, did: str | None, steps: dict[str, object] | None = None, **amounts: str) -> tuple[str, Any]:
    fields: dict[str, object] = {"did": did} if did else {}
    return trial(number, changed={"ingredients": amounts, "steps": steps or {}}, **fields)


def made(*trials: tuple[str, Any]) -> tuple[MadeTrial, ...]:
    found = book(*trials)
    assert found.problems == ()
    return found.made


def texts(*trials: tuple[str, Any]) -> list[str]:
    return [edge_text(edge) for edge in edges_of(made(*trials))]


def test_half_way_between_what_held_and_what_broke() -> None:
    """Percentages by hand: butter 81.11 % fat, milk 3.25 % (USDA SR28), of 471, 421 and 446 g."""
    assert texts(batch(1, "held"), batch(2, "split", butter="150 g")) == [
        "35.3 % fat held (trial 1, butter 200 g), 29.8 % split (trial 2, butter 150 g): "
        "try 32.7 % fat, that is butter 175 g."
    ]


def test_only_the_nearest_trials_of_a_line_count() -> None:
    outcomes = (("held", "200 g"), ("split", "150 g"), ("held", "175 g"), ("held", "240 g"), ("split", "120 g"))
    line = [batch(number, did, butter=butter) for number, (did, butter) in enumerate(outcomes, 1)]
    (edge,) = edges_of(made(*line))
    assert (edge.held[0], edge.broke[0], edge.value) == (175, 150, 162)


def test_batches_that_were_made_twice_lead_to_one_suggestion() -> None:
    again = [batch(1, "held"), batch(2, "split", butter="150 g"), batch(3, "held"), batch(4, "split", butter="151 g")]
    (edge,) = edges_of(made(*again))
    assert (edge.held[1].trial.number, edge.broke[1].trial.number, edge.value) == (3, 4, 176)


def test_an_edge_on_each_side_is_found_the_latest_first() -> None:
    line = [batch(1, "held"), batch(2, "split", butter="150 g"), batch(3, "too stiff", butter="260 g")]
    assert [edge.value for edge in edges_of(made(*line))] == [230, 175]
    assert "was too stiff (trial 3" in texts(*line)[0]


LONGER = {"1.1": {"heat_to": "80 °C", "time": "6 min"}}
HOTTER = {"1.1": {"heat_to": "90 °C", "time": "4 min"}}


@pytest.mark.parametrize(
    ("change", "value", "words"),
    [
        (HOTTER, 85, "and split with step 1.1 heated to 90 °C (trial 2): try step 1.1 heated to 85 °C."),
        (LONGER, 300, "It held with step 1.1 for 4 min (trial 1) and split with step 1.1 for 6 min (trial 2)"),
    ],
)
def test_temperatures_and_times_too(change: dict[str, object], value: float, words: str) -> None:
    trials = made(batch(1, "held", steps=dict(HEATED)), batch(2, "split", steps=change))
    (edge,) = edges_of(trials)
    assert edge.value == value
    assert words in edge_text(edge)


def test_what_is_known_closely_enough_needs_no_trial() -> None:
    (text,) = texts(batch(1, "held"), batch(2, "split", butter="194 g"))
    assert text.endswith("the edge is known as closely as a kitchen can set it.")


def test_a_half_batch_is_compared_at_the_size_of_the_whole_one() -> None:
    half = batch(2, "split", butter="75 g", milk="60 g", sugar="75 g", salt="0.5 g")
    (edge,) = edges_of(made(batch(1, "held"), half))
    assert (edge.held[0], edge.broke[0], edge.value) == (200, pytest.approx(150), 175)
    assert "29.8 % split (trial 2, butter 150 g in a batch of this size)" in edge_text(edge)
    other = batch(2, "split", butter="75 g", milk="60 g", sugar="60 g", salt="0.5 g")
    assert edges_of(made(batch(1, "held"), other)) == []
    (again,) = next_texts(
        made(batch(1, "held"), batch(2, "split", butter="100 g", milk="60 g", sugar="75 g", salt="0.5 g"))
    )
    assert "same batch" in again


def test_trials_that_contradict_each_other_lead_to_nothing() -> None:
    line = [batch(1, "held"), batch(2, "split", butter="170 g"), batch(3, "held", butter="150 g")]
    (text,) = texts(*line)
    assert text.endswith("though others held on both sides of that: nothing follows. Make trial 2 again.")


def test_the_same_batch_that_held_once_is_to_be_made_again() -> None:
    same = (batch(1, "held"), batch(2, "split", butter="202 g"))
    (text,) = next_texts(made(*same))
    assert text.startswith("Trial 1 held, and trial 2 split, and they are the same batch")
    (text,) = next_texts(made(*same, batch(3, "split", butter="150 g")))
    assert "make it again" in text


def test_a_trial_between_them_that_waits_is_named() -> None:
    (text,) = texts(batch(1, "held"), batch(2, "split", butter="150 g"), batch(3, None, butter="180 g"))
    assert text.endswith("trial 3 is between them. Fill in what it did.")


def test_a_test_that_failed_counts_where_the_trial_says_nothing() -> None:
    kept = {"test": "keeping", "did": "held"}
    failed = trial(2, changed={"ingredients": {"butter": "150 g"}}, tests=[kept, {"test": "holding", "did": "slumped"}])
    (text,) = texts(trial(1, tests=[kept]), failed)
    assert "slumped (trial 2" in text


@pytest.mark.parametrize(
    ("trials", "words"),
    [
        ([], "no trial yet"),
        ([batch(1, None)], "No trial says what it did"),
        ([batch(1, "split")], "No trial held"),
        ([batch(1, "held")], "No trial broke"),
        ([batch(1, "held"), batch(2, "split", butter="150 g", sugar="100 g")], "differ in butter and sugar. Make"),
        ([batch(1, "held"), batch(2, "split", steps={"1.1": {"tool": "whisk"}})], "differ in more than amounts"),
        ([batch(1, "held"), batch(2, "split", steps=dict(HEATED))], "differ in more than amounts"),
        ([batch(1, "held"), trial(2, did="split", changed=OTHER_SHARES)], "differ in more than amounts"),
    ],
)
def test_too_few_data_say_what_is_missing(trials: list[tuple[str, Any]], words: str) -> None:
    found = made(*trials)
    assert edges_of(found) == []
    assert words in next_texts(found)[0]
