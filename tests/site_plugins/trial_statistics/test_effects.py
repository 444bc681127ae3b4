"""Effects in a plan of two ingredients: what is put in comes out, and too few data say nothing."""

import random
from collections.abc import Sequence

import pytest
from crumbcoat_calc.trials.plans import SQUARE, STAR, points_of
from crumbcoat_site.trial_statistics.effects import BEND, BOTH, FIRST, OTHER_BEND, SECOND, Effects, TooFew, effects_of

NOISE = (0.1, -0.1, 0.0)


def square(values: Sequence[float]) -> Effects | TooFew:
    return effects_of(points_of(SQUARE, len(values) - 4), values)


def test_the_effects_of_a_square_by_hand() -> None:
    """Corners 10, 14, 20, 28: first (4 + 8)/2, second (10 + 14)/2, both (8 - 4)/2; their mean 18, the middle 15."""
    found = square([10, 14, 20, 28, 15.1, 14.9, 15.0])
    assert isinstance(found, Effects)
    assert {name: round(one.value, 9) for name, one in found.found.items()} == {FIRST: 6, SECOND: 12, BOTH: 2, BEND: 3}
    assert (found.free, found.scatter) == (2, pytest.approx(0.1))
    first = found.found[FIRST]
    assert first.high - first.value == pytest.approx(
        4.302653 * 0.1
    )  # t for 2 degrees; error of an effect s sqrt(1/2 + 1/2)
    bend = found.found[BEND]
    assert bend.error == pytest.approx(0.1 * (1 / 4 + 1 / 3) ** 0.5)


def test_the_effects_of_a_star_by_hand() -> None:
    levels = points_of(STAR, 3)
    found = effects_of(levels, [8, 12, 6, 20, *[10 + noise for noise in NOISE]])
    assert isinstance(found, Effects)
    values = {name: round(one.value, 9) for name, one in found.found.items()}
    assert values == {FIRST: 4, SECOND: 14, BEND: 0, OTHER_BEND: 3}


def test_an_effect_that_is_nothing_is_called_larger_in_one_of_twenty() -> None:
    """Of 300 plans of pure scatter 5 % are 15, with a standard deviation of 3.8."""
    chance = random.Random(5)
    plans = [square([chance.gauss(0, 1) for _ in range(7)]) for _ in range(300)]
    false = sum(
        1 for plan in plans if isinstance(plan, Effects) and not plan.found[FIRST].low <= 0 <= plan.found[FIRST].high
    )
    assert 5 <= false <= 25


@pytest.mark.parametrize(
    ("levels", "values", "words"),
    [
        (points_of(SQUARE, 2), [1, 2, 3, 4, 5, 6], "three repeats of the centre are needed to judge; there are two"),
        (points_of(SQUARE, 1), [1, 2, 3, 4, 5], "there is one"),
        (points_of(SQUARE, 3)[1:], [1, 2, 3, 4, 5, 6], "1 of the 5 points of the plan has no reading"),
        (points_of(SQUARE, 0), [1, 2, 3, 4], "1 of the 5 points of the plan has no reading"),
        (points_of(STAR, 3)[3:], [1, 2, 3, 4], "3 of the 5 points of the plan have no reading"),
        (points_of(SQUARE, 3), [1, 2, 3, 4, 34, 34, 34], "the repeats are all alike as read"),
    ],
)
def test_too_few_data_say_what_is_missing(levels: list[tuple[int, int]], values: list[float], words: str) -> None:
    found = effects_of(levels, values)
    assert isinstance(found, TooFew)
    assert words in found.reason


def test_what_was_really_weighed_counts() -> None:
    levels = [(-1.0, -1.1), (1.05, -1.0), (-1.0, 1.0), (0.95, 1.0), (0.02, 0.0), (0.0, 0.01), (0.0, 0.0)]
    values = [50 + 3 * a + 5 * b + noise for (a, b), noise in zip(levels, (0, 0, 0, 0, *NOISE), strict=True)]
    found = effects_of(levels, values)
    assert isinstance(found, Effects)
    assert found.found[FIRST].low < 6 < found.found[FIRST].high
    assert found.found[SECOND].low < 10 < found.found[SECOND].high
