"""Checks of mixed sugars: laws of thermodynamics, directions that were found, and recalled maxima as a band."""

import math

import pytest
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.mixed_sugars import (
    MOLECULES_OF_WATER,
    crystal_water_g_per_g,
    soluble_beside,
    solutes,
)
from crumbcoat_calc.science.solubility import grams_per_gram_water, saturated_percent, solubility_g_per_g_water
from crumbcoat_calc.science.water_activity import norrish_and_money_born
from hypothesis import given
from hypothesis import strategies as st

AT_20 = grams_per_gram_water(saturated_percent(20))

OTHERS = st.dictionaries(
    st.sampled_from(["glucose", "fructose", "lactose", "maltose"]), st.floats(0.001, 1.2), max_size=4
)


def activity(sugar, dissolved):
    """By the rule in the docstring, written once more without the code's derivative."""
    table = solutes()
    moles = {name: mass / table[name].molar_mass_g_mol for name, mass in dissolved.items()} | {"water": 1 / 18.015}
    total = math.fsum(moles.values())
    roots = {name: table[name].root_k if name in table else 0.0 for name in moles}
    mean = math.fsum(roots[name] * moles[name] for name in moles) / total
    log = {name: math.log(moles[name] / total) - (roots[name] - mean) ** 2 for name in moles}
    return log[sugar] + MOLECULES_OF_WATER.get(sugar, 0) * log["water"]


@given(OTHERS, st.floats(1.8, 4.8))
def test_a_saturated_syrup_has_the_activity_of_the_one_without_other_sugars(others, alone):
    found = soluble_beside("sucrose", alone, others)
    assert 0 < found <= alone
    assert activity("sucrose", {**others, "sucrose": found}) == pytest.approx(
        activity("sucrose", {"sucrose": alone}), abs=1e-6
    )


@given(st.sampled_from(["glucose", "lactose", "maltose"]), st.floats(0.1, 2.5), st.floats(0.01, 2))
def test_the_same_for_crystals_with_water(sugar, alone, sucrose):
    found = soluble_beside(sugar, alone, {"sucrose": sucrose})
    assert 0 < found <= alone
    assert activity(sugar, {"sucrose": sucrose, sugar: found}) == pytest.approx(
        activity(sugar, {sugar: alone}), abs=1e-6
    )


@given(
    st.sampled_from(sorted(solutes())), st.sampled_from(sorted(solutes())), st.floats(0.1, 2.5),
    st.floats(0, 100), st.floats(0.001, 10),
)  # fmt: skip
def test_more_of_another_sugar_never_raises_it(sugar, other, alone, grams, more):
    """Found for invert sugar beside sucrose; here for all, however much there is."""
    if sugar != other:
        less = soluble_beside(sugar, alone, {other: grams + more})
        assert 0 < less <= soluble_beside(sugar, alone, {other: grams}) + 1e-9


@given(st.sampled_from(sorted(solutes())), OTHERS, st.floats(0, 5), st.floats(0.1, 2.5))
def test_others_leave_at_least_what_dissolving_takes_for_granted(sugar, others, sucrose, alone):
    beside = {name: mass for name, mass in {**others, "sucrose": sucrose}.items() if name != sugar}
    assert soluble_beside(sugar, alone, beside) >= alone * math.exp(-0.75 * math.fsum(beside.values()))


@given(OTHERS, st.floats(0.1, 2))
def test_sugar_and_water_obey_gibbs_and_duhem(others, sucrose):
    """Sum over all of X d ln a = 0 along any change: here a little more sucrose. Water's ln a is Norrish's own."""
    step = 1e-5

    def logs(sucrose_g):
        dissolved = {**others, "sucrose": sucrose_g}
        table = solutes()
        moles = {name: mass / table[name].molar_mass_g_mol for name, mass in dissolved.items()}
        water = math.log(norrish_and_money_born(1.0, dissolved)[0])
        sugars = {name: activity(name, dissolved) - MOLECULES_OF_WATER.get(name, 0) * water for name in moles}
        return moles, water, sugars

    moles, water, sugars = logs(sucrose)
    _, more_water, more_sugars = logs(sucrose + step)
    rest = (more_water - water) / 18.015 + math.fsum(moles[name] * (more_sugars[name] - sugars[name]) for name in moles)
    assert abs(rest) < 1e-4 * step


@pytest.mark.parametrize("t_c", [0, 20, 40])
def test_total_solids_rise_with_invert_sugar(t_c):
    """Varzakas and others, figure after Davis and Prince 1955: the direction, 0 to 40 °C."""
    at = grams_per_gram_water(saturated_percent(t_c))
    invert = [0.1 * step for step in range(16)]
    sucrose = [soluble_beside("sucrose", at, {"glucose": part / 2, "fructose": part / 2}) for part in invert]
    totals = [one + other for one, other in zip(sucrose, invert, strict=True)]
    assert sucrose == sorted(sucrose, reverse=True)
    assert totals == sorted(totals)


@pytest.mark.parametrize(("share", "percent"), [(20, 70), (30, 72), (50, 76)])
def test_the_recalled_maxima_lie_in_the_band(share, percent):
    """From memory, ±1.5: total solids of a saturated syrup at 20 °C with this share of invert in its sugars."""
    invert = percent / (100 - percent) * share / 100
    displaced = AT_20 - soluble_beside("sucrose", AT_20, {"glucose": invert / 2, "fructose": invert / 2})
    low = AT_20 - constants("mixed-sugars")["displacement_high"] * displaced
    recalled = percent / (100 - percent) - invert
    assert low < recalled < AT_20
    total = AT_20 - displaced + invert
    assert 100 * total / (1 + total) == pytest.approx(percent, abs=1.5)


def test_dextrose_sets_where_there_is_mostly_invert_sugar():
    """From memory: full invert syrup at 20 °C is saturated with dextrose at 63 % (61 to 65)."""
    alone = solubility_g_per_g_water("glucose", 20)[0]
    dextrose = alone
    for _ in range(40):
        dextrose = soluble_beside("glucose", alone, {"fructose": dextrose})
    assert 100 * 2 * dextrose / (1 + 2 * dextrose) == pytest.approx(63, abs=2)


def test_sucrose_lowers_the_solubility_of_lactose_to_a_third():
    """From memory: 0.5 (0.35 to 0.65) of it at saturation. The model is at the low end, which is where it is used."""
    alone = solubility_g_per_g_water("lactose", 20)[0]
    assert soluble_beside("lactose", alone, {"sucrose": AT_20}) / alone == pytest.approx(0.34, abs=0.02)


def test_crystals_of_lactose_are_a_twentieth_water():
    """Molar masses: 100 g of lactose make 105.26 g of crystals."""
    assert 100 * (1 + crystal_water_g_per_g("lactose")) == pytest.approx(105.26, abs=0.02)
    assert crystal_water_g_per_g("sucrose") == 0
