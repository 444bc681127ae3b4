"""Checks: arithmetic done apart from this code, geometry, Mason, Bibette & Weitz 1995."""

import math

import pytest
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.emulsion import (
    InnerPhase,
    Packing,
    fat_surface_m2,
    inner_phase_by_amount,
    packing,
)
from crumbcoat_calc.science.estimate import Estimate, Model, Withheld
from crumbcoat_calc.science.volumes import Volumes, fat_volume_percent
from hypothesis import given
from hypothesis import strategies as st


def volumes_of(fat_ml, aqueous_ml):
    return Volumes(*[Estimate(ml, ml, ml, Model("m", "v", "definition")) for ml in (fat_ml, aqueous_ml, 0.0)])


@pytest.mark.parametrize(
    ("fat", "fat_density", "aqueous_density", "share"),
    [(40, 0.915, 1.3288, 0.4919), (30, 0.9172, 1.2866, 0.3755), (81.1, 0.915, 1.0, 0.8242)],
)
def test_fat_volume(fat, fat_density, aqueous_density, share):
    volumes = volumes_of(fat / fat_density, (100 - fat) / aqueous_density)
    assert fat_volume_percent(volumes).value == pytest.approx(100 * share, abs=0.01)


def test_marks_are_those_of_equal_spheres():
    """Ordered: pi / (3 sqrt 2). Random: emulsions stiffen from 0.635 (Mason, Bibette & Weitz 1995)."""
    marks = constants("close-packing")
    assert marks["ordered"] == pytest.approx(math.pi / (3 * math.sqrt(2)), abs=0.00001)
    assert marks["random"] == pytest.approx(0.635, abs=0.006)


@pytest.mark.parametrize(
    ("share", "packed", "inside"),
    [
        (0.2, Packing.LOOSE, InnerPhase.FAT),
        (0.5, Packing.LOOSE, InnerPhase.EITHER),
        (0.7, Packing.CLOSE, InnerPhase.EITHER),
        (0.8242, Packing.SQUEEZED, InnerPhase.WATER),
    ],
)
def test_advice_by_amount(share, packed, inside):
    assert (packing(share), inner_phase_by_amount(share)) == (packed, inside)


@pytest.mark.parametrize(("share", "size_um", "m2_per_ml"), [(0.4, 2, 1.2), (0.45, 10, 0.27)])
def test_surface_in_the_right_units(share, size_um, m2_per_ml):
    """Six times the volume by the size: 1.2e6 m2 per m3 at 2 µm and 40 %; 0.27e6 at 10 µm and 45 %."""
    fat = Estimate(share, share, share, Model("m", "v", "definition"))
    assert fat_surface_m2(fat, size_um, size_um).value == pytest.approx(m2_per_ml)


def test_surface_of_a_batch_as_a_band():
    answer = fat_surface_m2(Estimate(100, 99, 101, Model("m", "v", "definition")), 5, 50)
    assert answer.low == pytest.approx(6 * 99 / 50)
    assert answer.high == pytest.approx(6 * 101 / 5)
    assert fat_surface_m2(Withheld("why"), 5, 50) == Withheld("why")


@given(st.floats(0, 100), st.floats(0.1, 100), st.floats(0.5, 20))
def test_more_fat_more_fat_volume_and_scaling_changes_nothing(fat, water, factor):
    share = fat_volume_percent(volumes_of(fat, water)).value
    assert fat_volume_percent(volumes_of(fat + 1, water)).value > share
    assert fat_volume_percent(volumes_of(factor * fat, factor * water)).value == pytest.approx(share)


def test_neither_fat_nor_water():
    assert fat_volume_percent(volumes_of(0.0, 0.0)) == Withheld("there is neither fat nor water")
