"""Checks: a worked example of frosting as one lump, what a kitchen knows, sums of masses."""

import math

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Withheld
from crumbcoat_calc.science.state import mixture_state
from crumbcoat_calc.science.warming import (
    DEGREES,
    Around,
    cake_times_s,
    dollop_times_s,
    falls_to,
    half_ball_times_s,
    in_the_sun,
    melting,
    value_at,
)
from hypothesis import given
from hypothesis import strategies as st

ROOM = Around(22.0)


def frosting(butter=100.0, sugar=150.0, **more):
    parts = [("butter_unsalted", butter), ("sugar_powdered", sugar), *more.items()]
    return mixture_state([(food(key), mass) for key, mass in parts], 20)


def test_solid_fat_of_butter_by_hand():
    """100 g of butter with 81.11 g of fat in 250 g; versteeg-2016: 14.6 to 29.6 % of it solid at 20 °C."""
    value, low, high = value_at(melting([frosting()]).of_mixture, 20)
    assert low <= 81.11 / 250 * 14.6 < 81.11 / 250 * 29.6 <= high + 0.01
    assert low < value < high


def test_ends_widen_the_band():
    lean, fat = frosting(), frosting(butter=120)
    both = melting([lean, fat])
    for at in range(len(DEGREES)):
        ends = [melting([one]).of_mixture[at] for one in (lean, fat)]
        assert both.of_mixture[at][1] == pytest.approx(min(end[1] for end in ends))
        assert both.of_mixture[at][2] == pytest.approx(max(end[2] for end in ends))


def test_where_it_is_soft():
    """From memory: milk fat has 15 % solid between 20 and 25 °C (20 to 12), and 10 % between 25 and 30 (12 to 6)."""
    curve = melting([frosting()]).of_fat
    assert 20 < falls_to(curve, 15)[0] < 25
    assert 25 < falls_to(curve, 10)[0] < 30
    assert falls_to(curve, 99) == (2, 2, 2)
    assert falls_to([(50.0, 40.0, 60.0)] * len(DEGREES), 10) == (35, 35, 35)


def test_without_fat_nothing_melts():
    assert melting([mixture_state([(food("sugar_powdered"), 100), (food("water_tap"), 20)], 20)]) == Withheld(
        "there is no fat"
    )


def test_a_dollop_takes_about_as_long_as_one_lump():
    """By hand: 30 g as half a ball, 0.9 g/mL, radius 2.515 cm, 39.8 cm2, 2.3 J/(g K), h 9: tau 1928 s, Bi 0.30."""
    radius = (3 * 30 / 0.9 / (2 * math.pi)) ** (1 / 3)
    assert radius == pytest.approx(2.515, abs=0.001)
    tau_s = 30 * 2.3 / (9 * 2 * math.pi * radius**2 * 1e-4)
    assert tau_s == pytest.approx(1928, rel=0.01)
    low, high = half_ball_times_s(0.9, 2.3, 4.0, 18.0, ROOM)
    lump_s = tau_s * math.log(18 / 4)
    assert low < lump_s * 1.15 < high * 1.05


def test_what_melts_takes_longer():
    """By hand: with 30 % fat a quarter of the heat between 5 and 20 °C melts it (95 J/g from memory)."""
    oil = mixture_state([(food("oil_canola"), 81), (food("water_tap"), 18), (food("sugar_powdered"), 150)], 20)
    with_butter, with_oil = [dollop_times_s(one, 0.9, 4.0, 18.0, ROOM) for one in (frosting(), oil)]
    assert with_butter[0] > 1.1 * with_oil[0]


def test_a_white_coat_takes_up_what_the_factors_give():
    """Glass lets 0.80 through and white takes up 0.20: of 600 W/m2 96, of 500 to 800 80 to 128."""
    sun = constants("sun")
    assert 600 * sun["glass"] * sun["white"] == pytest.approx(96, abs=5)
    around = in_the_sun(20.0, dark=False)
    assert around.most_k == pytest.approx(128 / 9)
    assert around.least_k == pytest.approx(80 / 9 / 2)
    assert in_the_sun(20.0, dark=True).least_k > around.most_k


def test_never_and_at_once():
    assert cake_times_s(1.0, 4.0, 22.0, ROOM) == (None, None)
    assert cake_times_s(1.0, 4.0, 4.0, ROOM) == (0.0, 0.0)
    assert cake_times_s(1.0, 20.0, 15.0, ROOM) == (0.0, 0.0)
    fast, slow = cake_times_s(1.0, 4.0, 30.0, in_the_sun(22.0, dark=False))
    assert fast is not None
    assert slow is None


def test_a_coat_warms_before_the_middle():
    coat, middle = cake_times_s(1.0, 4.0, 16.0, ROOM), cake_times_s(0.0, 4.0, 16.0, ROOM)
    assert coat[0] < coat[1] < middle[1]
    assert coat[0] < middle[0]


TEMPERATURES = st.floats(0, 15)


@given(TEMPERATURES, st.floats(0.5, 8), st.floats(18, 34), st.sampled_from([0.0, 1.0]))
def test_a_colder_start_takes_longer_and_a_warmer_room_less(start, colder, room, place):
    target = 16.0
    one = cake_times_s(place, start, target, Around(room))
    for fast, slow in (
        (one, cake_times_s(place, start - colder, target, Around(room))),
        (cake_times_s(place, start, target, Around(room + 1)), one),
    ):
        assert fast[0] <= slow[0] + 1
        assert fast[1] <= slow[1] + 1
        assert fast[0] <= fast[1]


@given(st.floats(10, 500), st.floats(0, 500), st.floats(0, 500))
def test_solid_fat_is_never_more_than_the_fat_and_never_rises(butter, sugar, cocoa):
    state = frosting(butter, sugar, cocoa_butter=cocoa)
    found = melting([state])
    share = 100 * state.fat_g.value / state.mass_g
    for at, (value, low, high) in enumerate(found.of_mixture):
        assert -1e-9 <= low <= value + 1e-9 <= high + 2e-9
        assert high <= share + 0.01
        if at:
            assert all(
                now <= before + 1e-9 for now, before in zip(found.of_mixture[at], found.of_mixture[at - 1], strict=True)
            )
