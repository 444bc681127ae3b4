"""Checks: the saturation table's arithmetic, published laws of mixtures as bounds, mass balance."""

import math
from dataclasses import replace

import pytest
from crumbcoat_calc.foods.table import food, foods
from crumbcoat_calc.science.constituents import Constituents, constituents_of
from crumbcoat_calc.science.dissolving import Syrup, dissolved_g, strength_percent, syrup_of
from crumbcoat_calc.science.estimate import Withheld
from crumbcoat_calc.science.mixed_sugars import crystal_water_g_per_g
from crumbcoat_calc.science.solubility import solubility_g_per_g_water
from hypothesis import given
from hypothesis import strategies as st

KEYS = sorted(foods())


def syrup(*parts, t_c=20.0):
    return syrup_of(constituents_of([(food(key), mass) for key, mass in parts]), t_c)


def sucrose(made):
    return made.dissolved_of("sucrose")


def test_a_saturated_syrup_takes_what_the_table_says():
    """Antokolskaya 1964 in Mohos 2010: 203.9 g per 100 g of water at 20 °C, in the band; Vavrinecz 200.5."""
    made = syrup(("water_tap", 100), ("sugar_granulated", 500))
    per_100g = [100 * value / made.water_g for value in sucrose(made)]
    assert per_100g[0] == pytest.approx(200.5, abs=0.05)
    assert per_100g[1] < 203.9 < per_100g[2]
    assert made.saturated is True
    assert made.headroom_g == (0, 0, 0)


def test_headroom_is_what_still_dissolves():
    made = syrup(("water_tap", 100), ("sugar_granulated", 100))
    assert made.saturated is False
    assert made.headroom_g[0] == pytest.approx(made.water_g * 2.0046 - sucrose(made)[0], abs=0.05)


def test_strength_is_sugar_in_syrup():
    made = syrup(("water_tap", 50), ("sugar_granulated", 50))
    assert strength_percent(made).value == pytest.approx(50, abs=0.1)


def test_butter_with_powdered_sugar_and_cream():
    """Computed apart: 227 g butter, 340 g powdered sugar, 30 g of 36 % cream: about 107 g of it dissolves at 20 °C."""
    made = syrup(("butter_salted", 227), ("sugar_powdered", 340), ("cream_heavy_whipping", 30))
    assert sucrose(made)[0] == pytest.approx(107.0 * made.water_g / 53.36, rel=0.01)
    assert sucrose(made)[0] == pytest.approx(107.0, rel=0.02)


def test_starch_is_never_dissolved():
    made = syrup(("water_tap", 1000), ("sugar_powdered", 100))
    assert sucrose(made)[0] == pytest.approx(97.81)


def test_sugars_that_are_not_listed_are_between_all_sucrose_and_all_soluble():
    """200 g of semisweet chips and 60 g of cream: by hand 36 g of water take 72 g of sucrose, and 37 g stay."""
    made = syrup(("chocolate_semisweet_chips", 200), ("cream_heavy_whipping", 60))
    value, fewest, most = made.dissolved_g
    assert value == pytest.approx(72, abs=1.5)
    assert made.undissolved_g[0] == pytest.approx(37, abs=1.5)
    assert made.undissolved_g[1] == pytest.approx(0, abs=0.001)
    assert most == pytest.approx(value + made.undissolved_g[0])
    assert fewest < value
    assert made.saturated is None


@pytest.mark.parametrize("sugar_g", [1e-9, 0.01, 1])
def test_a_little_sucrose_beside_them_changes_little(sugar_g):
    """Known sucrose of 0 and of a trace once gave 75.4 % and a refusal."""
    parts = (("chocolate_semisweet_chips", 200), ("cream_heavy_whipping", 60))
    without, with_it = syrup(*parts), syrup(*parts, ("sugar_granulated", sugar_g))
    for before, after in zip(without.dissolved_g, with_it.dissolved_g, strict=True):
        assert after == pytest.approx(before, abs=sugar_g + 1e-6)


def test_a_bought_syrup_is_dissolved_whatever_its_sugars():
    """Corn syrup is clear at 77 %; as sucrose, a third of it would be crystals, which is the low end."""
    made = syrup(("corn_syrup_light", 100))
    assert made.undissolved_g[:2] == (0, 0)
    assert made.undissolved_g[2] > 25


def test_honey_holds_more_dextrose_than_is_soluble():
    """White and others 1962, as restated: 38.38 fructose, 31.31 glucose, 1.31 sucrose, 7.31 maltose, 17.2 water.

    Honey is liquid for weeks and sets in the end: the band holds both; its high end is the syrup with all of it.
    """
    made = replace(
        constituents_of([(food("water_bottled"), 17.2 / 0.9998)]),
        fructose_g=38.38, glucose_g=31.31, sucrose_g=1.31, maltose_g=7.31,
    )  # fmt: skip
    answer = syrup_of(made, 20)
    assert answer.undissolved_g[1] == 0
    assert answer.slow_g["glucose"] > 10
    assert strength_percent(answer).high == pytest.approx(100 * 78.31 / 95.51, abs=0.01)


def test_a_mixture_of_sugars_only_widens_the_band():
    """A little honey, corn syrup or rum once took every figure away."""
    plain = syrup(("butter_unsalted", 200), ("sugar_powdered", 300))
    for key in ("honey", "corn_syrup_light", "dextrose_monohydrate", "rum_80_proof", "golden_syrup"):
        made = syrup(("butter_unsalted", 200), ("sugar_powdered", 300), (key, 20))
        assert isinstance(made, Syrup), key
        assert made.saturated is True
        assert made.dissolved_g[2] - made.dissolved_g[1] > plain.dissolved_g[2] - plain.dissolved_g[1]


def test_a_little_lactose_only_widens_the_band():
    plain = syrup(("water_bottled", 88.13 / 0.9998), ("sugar_granulated", 300))
    milky = syrup(("milk_whole", 100), ("sugar_granulated", 300))
    assert sucrose(milky)[0] == pytest.approx(sucrose(plain)[0] - 5.05 * 0.6, abs=0.3)
    assert sucrose(milky)[1] == pytest.approx(sucrose(plain)[1] - 5.05 * 0.9, abs=0.4)
    assert sucrose(milky)[2] == pytest.approx(sucrose(plain)[2], abs=0.01)


def test_a_thin_mixture_of_sugars_dissolves_whatever_its_sugars():
    made = syrup(("water_tap", 300), ("honey", 50), ("sugar_granulated", 60))
    assert made.saturated is False
    assert made.undissolved_g == pytest.approx((0, 0, 0), abs=1e-9)


def test_sweetened_condensed_milk_leaves_lactose_undissolved():
    """It is known to hold lactose crystals: more lactose than 18.2 g per 100 g of water dissolves at 20 °C."""
    made = constituents_of([(food("milk_condensed_sweetened"), 100)])
    lactose = made.lactose_g
    assert lactose / made.water_g > 0.182 * 1.5
    answer = syrup_of(made, 20)
    dissolved = answer.dissolved_of("lactose")
    crystals = lactose - dissolved[0]
    free_water = made.water_g - 0.05263 * crystals
    assert dissolved[0] / free_water == pytest.approx(solubility_g_per_g_water("lactose", 20)[0], rel=1e-4)
    assert answer.water_g == pytest.approx(free_water, rel=1e-5)
    assert answer.undissolved_g[2] > crystals > answer.undissolved_g[1]


def test_little_lactose_beside_little_sucrose_is_surely_dissolved():
    """Whipped cream: 5 g of lactose and 10 g of sugar in 100 g of water; alone 18.2 g of lactose would dissolve."""
    made = syrup(("milk_whole", 110), ("sugar_granulated", 10))
    value, low, high = made.dissolved_of("lactose")
    assert low == value == high


def test_lactose_beside_much_sucrose_has_a_lower_end():
    made = syrup(("milk_whole", 110), ("milk_powder_skim", 20), ("sugar_granulated", 300))
    assert made.dissolved_of("lactose")[1] == pytest.approx(0.34 * 0.92 * 0.191 * made.water_g, rel=0.1)
    assert made.dissolved_of("lactose")[0] > 0.15 * made.water_g


def test_alcohol_lowers_what_dissolves_and_widens_the_band():
    """From memory: 100 g of 20 % spirit takes about 132 g of sucrose at 25 °C, of 10 % about 169 g."""
    plain = replace(constituents_of([(food("sugar_granulated"), 400)]), water_g=100.0)
    for ethanol_g, recalled in ((25.0, 165), (11.1, 188)):
        made = syrup_of(replace(plain, ethanol_g=ethanol_g), 25)
        value, low, high = sucrose(made)
        assert low < recalled < high
        assert value == pytest.approx(recalled, rel=0.12)
    assert "alcohol" in syrup_of(replace(plain, ethanol_g=100.0), 20).reason
    nearly = syrup_of(replace(plain, ethanol_g=99.999), 20)
    assert sucrose(nearly)[1] < 0.01


def test_dry_dextrose_stays_in_part():
    """Jackson and Silsbee: 51.2 % at 25 °C, so 50 g of water take about 52 g of dextrose."""
    made = syrup(("water_tap", 50), ("glucose_anhydrous", 100), t_c=25)
    dissolved = made.dissolved_of("glucose")
    assert dissolved[0] == pytest.approx(1.049 * (50 - 0.1 * (100 - dissolved[0])), rel=0.01)
    assert made.undissolved_g[0] == pytest.approx(100 - dissolved[0], abs=0.3)


@pytest.mark.parametrize("t_c", [-1, 101, float("nan")])
def test_outside_the_temperatures_it_is_withheld(t_c):
    assert isinstance(syrup(("water_tap", 50), ("sugar_granulated", 10), t_c=t_c), Withheld)


def test_hot_milk_is_not_withheld():
    """The table of lactose ends at 89 °C."""
    made = syrup(("milk_whole", 500), ("sugar_granulated", 100), t_c=95)
    assert made.undissolved_g == pytest.approx((0, 0, 0), abs=1e-9)


def test_without_water_nothing_dissolves():
    assert "no water" in syrup(("oil_canola", 50), ("lard", 10)).reason


MOST = {
    "water_g": 500, "sucrose_g": 1000, "lactose_g": 100, "glucose_g": 200, "fructose_g": 200, "maltose_g": 100,
    "sugars_low_g": 300,
}  # fmt: skip
MIXED = st.fixed_dictionaries({name: st.floats(5 if name == "water_g" else 0, most) for name, most in MOST.items()})
NOTHING = constituents_of([])


def mixture(contents: dict[str, float], ethanol_share: float = 0.0, syrup_share: float = 0.0) -> Constituents:
    unlisted = contents["sugars_low_g"]
    more = {"sugars_high_g": unlisted, "likely_sugars_g": unlisted, "syrup_sugars_g": unlisted * syrup_share}
    return replace(NOTHING, **contents, **more, ethanol_g=contents["water_g"] * ethanol_share)


def check(made: Constituents, answer: Syrup) -> None:
    total = math.fsum(
        [made.sucrose_g, made.sugars_low_g, made.lactose_g, made.glucose_g, made.fructose_g, made.maltose_g]
    )
    for dissolved, undissolved in zip(
        answer.dissolved_g, [answer.undissolved_g[end] for end in (0, 2, 1)], strict=True
    ):
        assert dissolved + undissolved == pytest.approx(total, abs=1e-6)
    for band in (answer.dissolved_g, answer.undissolved_g, answer.headroom_g):
        value, low, high = band
        assert -1e-6 <= low <= value + 1e-6 <= high + 2e-6
    for solution in answer.solutions:
        assert all(mass >= 0 for mass in solution.sugars_g.values())
        assert made.water_g / 2 <= solution.water_g + made.ethanol_g <= made.water_g + made.ethanol_g + 1e-9
    strength = strength_percent(answer)
    assert 0 <= strength.low <= strength.value <= strength.high < 100
    if answer.saturated is not None:
        assert (answer.headroom_g[0] > 0) != answer.saturated or answer.headroom_g[0] == 0


@given(MIXED, st.floats(0, 100), st.floats(0, 0.9), st.floats(0, 1), st.floats(0.1, 50))
def test_mass_is_conserved_and_the_band_is_one(contents, t_c, ethanol, in_syrup, factor):
    made = mixture(contents, ethanol, in_syrup)
    answer = syrup_of(made, t_c)
    check(made, answer)
    scaled = mixture({name: factor * mass for name, mass in contents.items()}, ethanol, in_syrup)
    bigger = syrup_of(scaled, t_c)
    assert strength_percent(bigger)[:3] == pytest.approx(strength_percent(answer)[:3])
    assert bigger.dissolved_g == pytest.approx([factor * mass for mass in answer.dissolved_g], abs=1e-6)


@given(MIXED, st.sampled_from([*MOST, "ethanol_g", "syrup_sugars_g"]), st.floats(0, 60), st.floats(0.0001, 0.01))
def test_a_little_more_of_anything_changes_little(contents, what, t_c, more):
    """No figure jumps: a gram moves at most 40 g, if it is water at 60 °C that holds all the sugars at the high end."""
    made = mixture(contents, 0.2, 0.5)
    grown = {what: getattr(made, what) + more}
    if what == "sugars_low_g":
        grown |= {"sugars_high_g": grown[what], "likely_sugars_g": grown[what]}
    if what == "syrup_sugars_g":
        grown[what] = min(grown[what], made.sugars_low_g)
    one, other = syrup_of(made, t_c), syrup_of(replace(made, **grown), t_c)
    for name in ("dissolved_g", "undissolved_g", "headroom_g"):
        for before, after in zip(getattr(one, name), getattr(other, name), strict=True):
            assert abs(after - before) <= 40 * more + 1e-6, name
    assert {one.saturated, other.saturated} != {True, False}


@given(MIXED, st.floats(0, 60), st.floats(0.1, 50), st.floats(0, 0.5))
def test_more_water_dissolves_more(contents, t_c, more, ethanol):
    made = mixture(contents, ethanol)
    one, other = syrup_of(made, t_c), syrup_of(replace(made, water_g=made.water_g + more), t_c)
    for before, after in zip(one.dissolved_g, other.dissolved_g, strict=True):
        assert after >= before - 1e-6
    for before, after in zip(one.undissolved_g, other.undissolved_g, strict=True):
        assert after <= before + 1e-6


@given(MIXED, st.sampled_from(["sucrose_g", "fructose_g", "sugars_low_g"]), st.floats(0, 60), st.floats(0.1, 50))
def test_more_sugar_never_dissolves_less_in_all(contents, what, t_c, more):
    """As long as none crystallises with water, which it would take from the others.

    At the low end, where two saturated sugars each displace the other in full, it may be a third of what is added.
    """
    made = replace(mixture(contents), lactose_g=0.0, glucose_g=0.0, maltose_g=0.0)
    grown = replace(made, **{what: getattr(made, what) + more})
    if what == "sugars_low_g":
        grown = replace(grown, sugars_high_g=grown.sugars_low_g, likely_sugars_g=grown.sugars_low_g)
    one, other = syrup_of(made, t_c), syrup_of(grown, t_c)
    for name, slack in (("dissolved_g", (0, 1 / 3, 0)), ("undissolved_g", (0, 0, 0))):
        for before, after, less in zip(getattr(one, name), getattr(other, name), slack, strict=True):
            assert after >= before - less * more - 1e-6, name


@given(MIXED, st.floats(0, 60), st.floats(0, 0.4), st.floats(0.01, 0.4))
def test_more_alcohol_never_dissolves_more(contents, t_c, ethanol, more):
    one, other = syrup_of(mixture(contents, ethanol), t_c), syrup_of(mixture(contents, ethanol + more), t_c)
    for before, after in zip(one.dissolved_g, other.dissolved_g, strict=True):
        assert after <= before + 1e-6


@given(st.floats(0, 200), st.floats(0.01, 3), st.floats(1, 200), st.sampled_from(["lactose", "glucose"]))
def test_crystals_take_their_water_along(mass_g, soluble, water_g, sugar):
    taken = crystal_water_g_per_g(sugar)
    dissolved = dissolved_g(mass_g, soluble, water_g, taken)
    free = water_g - min(taken * (mass_g - dissolved), water_g / 2)
    assert dissolved == pytest.approx(min(mass_g, soluble * free), rel=1e-9)


@given(st.lists(st.tuples(st.sampled_from(KEYS), st.floats(0.1, 500)), min_size=1, max_size=6), st.floats(0, 100))
def test_any_foods_at_all(parts, t_c):
    made = constituents_of([(food(key), mass) for key, mass in parts])
    answer = syrup_of(made, t_c)
    if isinstance(answer, Withheld):
        assert made.unknown or made.water_g <= 0 or made.ethanol_g >= made.water_g
    elif made.sugars_low_g == made.sugars_high_g:
        check(made, answer)


@given(st.floats(1, 500), st.floats(0, 1000), st.floats(0, 80), st.floats(0.1, 10))
def test_warmth_never_makes_sugar_fall_out(water, sugar, t_c, warmer):
    cold = syrup(("water_tap", water), ("sugar_granulated", sugar), ("milk_powder_skim", sugar / 5), t_c=t_c)
    warm = syrup(("water_tap", water), ("sugar_granulated", sugar), ("milk_powder_skim", sugar / 5), t_c=t_c + warmer)
    for before, after in zip(cold.dissolved_g, warm.dissolved_g, strict=True):
        assert after >= before - 1e-6
