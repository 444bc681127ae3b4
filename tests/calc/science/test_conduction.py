"""Checks: textbook constants of a plate, published worked examples, and scipy's integration of the heat equation."""

import math

import pytest
from crumbcoat_calc.science.conduction import Axis, at_place, ball_terms, left_over, plate_terms, time_until_s
from hypothesis import given
from hypothesis import strategies as st

BIOTS = st.floats(0.01, 50)


def test_a_plate_of_biot_1_has_the_constants_of_the_textbooks():
    """Textbook table of one-term coefficients: 0.8603 and 1.1191."""
    first = plate_terms(1.0)[0]
    assert first.z == pytest.approx(0.8603, abs=0.00005)
    assert first.c == pytest.approx(1.1191, abs=0.00005)


def test_a_layer_cake_cools_as_in_the_worked_example():
    """Half-thickness 5.08 cm, k 0.20, 700 kg/m3, 2300 J/(kg K), h 9, 22 to 8 °C in 4 °C: Bi 2.286, z 1.1165, 7.8 h."""
    terms = plate_terms(9 * 0.0508 / 0.20)
    assert terms[0].z == pytest.approx(1.1165, abs=0.0001)
    assert terms[0].c == pytest.approx(1.1895, abs=0.0001)
    axis = Axis(terms, 0.20 / (700 * 2300) / 0.0508**2)
    assert time_until_s([axis], (8 - 4) / (22 - 4)) / 3600 == pytest.approx(7.8, abs=0.05)


def test_a_small_ball_of_steel_cools_as_one_lump():
    """A solved problem: 12 mm steel ball, h 5, k 20; its Biot number by volume and surface is 0.0005."""
    h, k, radius = 5.0, 20.0, 0.006
    assert h * (radius / 3) / k == pytest.approx(0.0005)
    per_s = k / (7800 * 460) / radius**2
    tau_s = 7800 * 460 * (radius / 3) / h
    half_s = time_until_s([Axis(ball_terms(h * radius / k), per_s)], 0.5)
    assert half_s == pytest.approx(tau_s * math.log(2), rel=0.001)


def test_a_cube_of_aluminium_cools_as_in_the_worked_example():
    """A solved problem: 6 cm, 500 °C into 10 °C, h 120; with 2700 kg/m3 and 900 J/(kg K) 144.5 s to 250 °C."""
    side = Axis(plate_terms(120 * 0.03 / 237), 237 / (2700 * 900) / 0.03**2)
    assert pytest.approx(202.5) == 2700 * 900 * 0.01 / 120
    assert time_until_s([side, side, side], 240 / 490) == pytest.approx(144.5, rel=0.02)  # The middle, a little later.


def heat_equation(biot, fourier, *, ball):
    """Temperatures on a grid from the middle to the surface, by the method of lines; 1 at the start."""
    import numpy as np
    from scipy.integrate import solve_ivp

    cells = 80
    edges = np.linspace(0, 1, cells + 1)
    middles = (edges[1:] + edges[:-1]) / 2
    area = edges**2 if ball else np.ones_like(edges)
    volume = (edges[1:] ** 3 - edges[:-1] ** 3) / 3 if ball else edges[1:] - edges[:-1]
    step = 1 / cells

    def change(_, t):
        inner = area[1:-1] * (t[1:] - t[:-1]) / step
        outer = -area[-1] * t[-1] / (1 / biot + step / 2)
        flows = np.concatenate([[0.0], inner, [outer]])
        return (flows[1:] - flows[:-1]) / volume

    found = solve_ivp(change, (0, fourier), np.ones(cells), method="BDF", rtol=1e-7, atol=1e-9).y[:, -1]
    return middles, found, float((found * volume).sum() / volume.sum())


@pytest.mark.parametrize(("biot", "fourier"), [(0.5, 0.1), (2.0, 0.05), (6.0, 0.4)])
def test_the_series_is_the_solution_of_the_heat_equation(biot, fourier):
    middles, found, _ = heat_equation(biot, fourier, ball=False)
    for at in (0, 40, 79):
        place = float(middles[at])
        share = left_over([Axis(at_place(plate_terms(biot), place), 1.0)], fourier)
        assert share == pytest.approx(float(found[at]), abs=0.001)
    _, _, mean = heat_equation(biot, fourier, ball=True)
    assert left_over([Axis(ball_terms(biot), 1.0)], fourier) == pytest.approx(mean, abs=0.002)


@given(BIOTS)
def test_at_the_start_everything_is_left(biot):
    assert left_over([Axis(ball_terms(biot), 1.0)], 0.02) <= 1.001
    assert left_over([Axis(plate_terms(biot), 1.0)], 0.02) == pytest.approx(1.0, abs=0.02)
    assert time_until_s([Axis(plate_terms(biot), 1.0)], 1.0) == 0


@given(BIOTS, st.floats(0.05, 0.9), st.floats(0.01, 0.5))
def test_less_is_left_later(biot, share, less):
    axes = [Axis(plate_terms(biot), 1e-4)]
    assert time_until_s(axes, share * (1 - less)) > time_until_s(axes, share)
