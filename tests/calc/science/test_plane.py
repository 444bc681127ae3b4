"""The map agrees with the state of each of its points, and its regions are those that a kitchen knows."""

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.plane import Region, plane_of
from crumbcoat_calc.science.state import state_of

BUTTER, SUGAR, MILK = food("butter_unsalted"), food("sugar_granulated"), food("milk_whole")


def test_a_point_has_the_figures_of_its_state():
    plane = plane_of([(BUTTER, 300)], (SUGAR, range(0, 900, 100)), (MILK, range(0, 400, 50)), 20)
    assert (len(plane.points), len(plane.points[0])) == (8, 9)
    for y, row in zip(plane.row_g, plane.points, strict=True):
        for x, point in zip(plane.column_g, row, strict=True):
            state = state_of([(BUTTER, 300), (SUGAR, x), (MILK, y)], 20)
            assert point.fat_percent == pytest.approx(100 * state.fat_g.value / state.mass_g)
            assert point.undissolved_sugar_g == pytest.approx(state.undissolved_sugar_g.value)
            assert point.fat_volume_percent == pytest.approx(state.fat_volume_percent.value)


def test_regions_follow_each_other_as_sugar_is_added():
    """Common practice: butter alone is water in fat; a milk frosting first gets runnier, then stiffer."""
    plane = plane_of([(BUTTER, 300)], (SUGAR, range(0, 900, 5)), (MILK, [0, 200]), 20)
    assert plane.points[0][0].region is Region.WATER_IN_FAT
    seen = list(dict.fromkeys(point.region for point in plane.points[1]))
    assert seen == [Region.THINS, Region.NEARLY_SATURATED, Region.STIFFENS]


def test_what_is_not_known_is_not_drawn():
    plane = plane_of([(BUTTER, 300)], (food("honey"), [300]), (SUGAR, [300]), 20)
    point = plane.points[0][0]
    assert (point.undissolved_sugar_g, point.fat_volume_percent, point.region) == (None, None, Region.UNKNOWN)
    assert point.fat_percent == pytest.approx(27.04, abs=0.01)
    assert plane_of([(BUTTER, 300)], (SUGAR, [0]), (MILK, [0]), 130).points[0][0].region is Region.UNKNOWN


def test_a_known_emulsion_is_taken_as_one():
    parts = ([(BUTTER, 300)], (SUGAR, [20]), (MILK, [20]), 20)
    assert plane_of(*parts).points[0][0].region is Region.WATER_IN_FAT
    assert plane_of(*parts, emulsified=True).points[0][0].region is Region.THINS
    assert isinstance(state_of([(BUTTER, 300)], 20).fat_volume_percent, Estimate)
