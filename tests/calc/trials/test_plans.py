"""Plans for two ingredients: the points are those of textbooks, and levels and amounts are each other's inverse."""

import pytest
from crumbcoat_calc.trials.plans import SQUARE, STAR, Bounds, change_at, points_of


@pytest.mark.parametrize("plan", [STAR, SQUARE])
def test_a_plan_is_balanced_and_its_columns_are_orthogonal(plan: str) -> None:
    points = points_of(plan, 3)
    assert len(points) == 7
    assert points.count((0, 0)) == 3
    for column in zip(*points, strict=True):
        assert sum(column) == 0
        assert {-1, 1} <= set(column)
    assert sum(a * b for a, b in points) == 0


def test_levels_and_amounts() -> None:
    butter = Bounds("butter", 160, 220)
    assert [butter.amount_g(level) for level in (-1, 0, 1)] == [160, 190, 220]
    assert [butter.level(mass_g) for mass_g in (160, 205, 220)] == [-1, 0.5, 1]
    sugar = Bounds("sugar", 120, 180)
    assert change_at((butter, sugar), (1, -1)).ingredients == {
        "butter": {"amount": "220 g"},
        "sugar": {"amount": "120 g"},
    }
