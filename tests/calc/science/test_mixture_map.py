"""The map agrees with the state of each of its points, and its regions are those that a kitchen knows."""

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.science.between import state_at_ends
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.mixture_map import Region, map_mixture
from crumbcoat_calc.science.state import mixture_state

BUTTER, SUGAR, MILK = food("butter_unsalted"), food("sugar_granulated"), food("milk_whole")


def test_a_point_has_the_figures_of_its_state():
    mixture_map = map_mixture([(BUTTER, 300)], (SUGAR, range(0, 900, 100)), (MILK, range(0, 400, 50)), 20)
    assert (len(mixture_map.points), len(mixture_map.points[0])) == (8, 9)
    for y, row in zip(mixture_map.row_g, mixture_map.points, strict=True):
        for x, point in zip(mixture_map.column_g, row, strict=True):
            state = mixture_state([(BUTTER, 300), (SUGAR, x), (MILK, y)], 20)
            assert point.fat_percent == pytest.approx(100 * state.fat_g.value / state.mass_g)
            assert point.undissolved_sugar_g == pytest.approx(state.undissolved_sugar_g.value)
            assert point.fat_volume_percent == pytest.approx(state.fat_volume_percent.value)


def test_regions_follow_each_other_as_sugar_is_added():
    """Common practice: butter alone is water in fat. Where it is not known what is inside, nothing is said to thin."""
    mixture_map = map_mixture([(BUTTER, 300)], (SUGAR, range(0, 900, 5)), (MILK, [0, 200]), 20)
    assert mixture_map.points[0][0].region is Region.WATER_IN_FAT
    seen = list(dict.fromkeys(point.region for point in mixture_map.points[1]))
    assert seen == [Region.UNSATURATED, Region.NEARLY_SATURATED, Region.STIFFENS]
    crowded = map_mixture([(BUTTER, 300)], (SUGAR, range(0, 400, 5)), (MILK, [100]), 20, emulsified=True)
    seen = list(dict.fromkeys(point.region for point in crowded.points[0]))
    assert seen[0] is Region.THINS
    assert seen[-1] is Region.STIFFENS


def test_what_is_not_known_is_not_drawn():
    mixture_map = map_mixture([(BUTTER, 300)], (food("alcohol_pure"), [300]), (SUGAR, [300]), 20)
    point = mixture_map.points[0][0]
    assert (point.undissolved_sugar_g, point.fat_volume_percent, point.region) == (None, None, Region.UNKNOWN)
    assert point.fat_percent == pytest.approx(27.04, abs=0.01)
    assert map_mixture([(BUTTER, 300)], (SUGAR, [0]), (MILK, [0]), 130).points[0][0].region is Region.UNKNOWN


def test_mixed_sugars_and_a_little_rum_are_drawn_with_the_figures_of_the_card():
    chips, rum = food("chocolate_semisweet_chips"), food("rum_80_proof")
    mixture_map = map_mixture([(BUTTER, 300), (rum, 20), (MILK, 60)], (food("honey"), [0, 30]), (chips, [0, 100]), 20)
    for y, row in zip(mixture_map.row_g, mixture_map.points, strict=True):
        for x, point in zip(mixture_map.column_g, row, strict=True):
            parts = [(BUTTER, 300), (rum, 20), (MILK, 60), (food("honey"), x), (chips, y)]
            state = state_at_ends(parts, 20)
            assert point.undissolved_sugar_g == pytest.approx(state.undissolved_sugar_g.value)
            assert point.fat_volume_percent == pytest.approx(state.fat_volume_percent.value)
            assert point.region is not Region.UNKNOWN


def test_a_known_emulsion_is_taken_as_one():
    parts = ([(BUTTER, 300)], (SUGAR, [20]), (MILK, [20]), 20)
    assert map_mixture(*parts).points[0][0].region is Region.WATER_IN_FAT
    assert map_mixture(*parts, emulsified=True).points[0][0].region is Region.THINS
    assert isinstance(mixture_state([(BUTTER, 300)], 20).fat_volume_percent, Estimate)
