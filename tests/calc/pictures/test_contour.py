"""Lines of equal value against circles, straight lines and saddles that are known exactly."""

import math

import pytest
from crumbcoat_calc.pictures.contour import contour


def test_a_plane_has_straight_lines() -> None:
    values = [[2.0 * column + 3.0 * row for column in range(6)] for row in range(6)]
    pieces = contour(values, 9.5)
    assert pieces
    for piece in pieces:
        for column, row in piece:
            assert 2 * column + 3 * row == pytest.approx(9.5)
    length = math.fsum([math.dist(*piece) for piece in pieces])
    assert length == pytest.approx(math.dist((4.75, 0), (0, 9.5 / 3)))


def test_a_cone_has_circles() -> None:
    """The line of a cone at 7 is a circle of radius 7, as long as 2 pi 7 (definition)."""
    values = [[math.dist((column, row), (10, 10)) for column in range(21)] for row in range(21)]
    pieces = contour(values, 7.0)
    for piece in pieces:
        for point in piece:
            assert math.dist(point, (10, 10)) == pytest.approx(7, abs=0.03)
    assert math.fsum([math.dist(*piece) for piece in pieces]) == pytest.approx(2 * math.pi * 7, rel=0.01)
    ends = [point for piece in pieces for point in piece]
    assert all(sum(math.dist(end, other) < 1e-9 for other in ends) == 2 for end in ends), "the circle is closed"


def test_a_saddle_is_cut_by_its_mean() -> None:
    assert len(contour([[1.0, 0.0], [0.0, 1.0]], 0.4)) == 2
    joined = contour([[1.0, 0.0], [0.0, 1.0]], 0.4)
    apart = contour([[1.0, 0.0], [0.0, 1.0]], 0.6)
    assert joined[0] == ((pytest.approx(0.6), 0.0), (1.0, pytest.approx(0.4)))
    assert apart[0] == ((pytest.approx(0.4), 0.0), (0.0, pytest.approx(0.4)))


def test_what_is_unknown_has_no_line() -> None:
    assert contour([[0.0, None], [0.0, 1.0]], 0.5) == []
    assert contour([[0.0, 0.0], [0.0, 0.0]], 0.5) == []
