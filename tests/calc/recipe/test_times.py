"""How long a batch takes: sums worked by hand."""

from typing import Any

import pytest
from crumbcoat_calc.recipe.model import Time
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.recipe.times import times_of
from crumbcoat_calc.texts.times import about_text
from hypothesis import given
from hypothesis import strategies as st

RECIPE: dict[str, Any] = {
    "title": "Cream", "summary": "Cream.", "author": "Lantern Street teaching kitchen", "family": "whipped cream",
    "yield": {"portions": "12", "of": "cupcakes"},
    "ingredients": {"cream": {"kind": "cream_heavy_whipping", "amount": "500 g"}},
    "stages": [
        {"title": "Chill", "steps": [
            {"do": "Chill.", "add": ["cream"], "time": "8 h to 1 day", "unattended": "yes"},
            {"do": "Take it out."},
        ]},
        {"title": "Whip", "steps": [
            {"do": "Whip.", "time": "3 to 4 min"},
            {"do": "Rest it.", "time": "20 min", "optional": "yes"},
        ]},
    ],
}  # fmt: skip
MIN, H = 60.0, 3600.0


def test_all_steps_add_up_and_attended_ones_separately() -> None:
    times = times_of(recipe_from(RECIPE))
    assert times.total == Time(shortest_s=8 * H + 23 * MIN, longest_s=24 * H + 24 * MIN)
    assert times.attended == Time(shortest_s=23 * MIN, longest_s=24 * MIN)


def test_a_step_that_is_left_out_takes_no_time() -> None:
    times = times_of(recipe_from(RECIPE), {(1, 1)})
    assert times.total == Time(shortest_s=8 * H + 3 * MIN, longest_s=24 * H + 4 * MIN)
    assert times.attended == Time(shortest_s=3 * MIN, longest_s=4 * MIN)


@pytest.mark.parametrize(
    ("shortest_s", "longest_s", "shown"),
    [
        pytest.param(0, 0, "", id="no step states a time"),
        pytest.param(150, 150, "2 min 30 s", id="a few minutes to the second"),
        pytest.param(750, 800, "13 min", id="whole minutes from ten on; half a minute counts as one"),
        pytest.param(0.9 * H, 1.5 * H, "54 min to 1 h 30 min", id="about an hour to the minute"),
        pytest.param(8.8 * H, 25 * H + 5 * MIN, "8 h 50 min to 25 h", id="a chill overnight"),
    ],
)
def test_a_sum_is_shown_only_as_precisely_as_it_is_known(shortest_s: float, longest_s: float, shown: str) -> None:
    assert about_text(Time(shortest_s=shortest_s, longest_s=longest_s)) == shown


@given(st.floats(1, 400_000), st.floats(1, 400_000))
def test_the_longer_time_is_never_shown_as_the_shorter(one_s: float, other_s: float) -> None:
    from_text, to_text = (about_text(Time(shortest_s=time_s, longest_s=time_s)) for time_s in sorted((one_s, other_s)))
    both = about_text(Time(shortest_s=min(one_s, other_s), longest_s=max(one_s, other_s)))
    assert both == from_text if from_text == to_text else both.endswith(to_text)
