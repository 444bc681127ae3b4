"""Checks: Versteeg et al. 2016 (abstract), blends of palm and palm kernel oil (1996), published melting ranges."""

import pytest
from crumbcoat_calc.foods.components import INDEX
from crumbcoat_calc.foods.table import OWN, Food, food, foods
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.fat_sorts import FAMILIES, fats_of
from crumbcoat_calc.science.solid_fat import (
    blend_percents,
    curves,
    fat_constants,
    melting_heat_j_per_g,
    solid_fat_percent,
    solid_percents,
)
from crumbcoat_calc.tables import load_rows
from hypothesis import given
from hypothesis import strategies as st

BLENDS = st.dictionaries(st.sampled_from(sorted(curves())), st.floats(0.1, 1000), min_size=1).map(
    lambda fats: tuple(sorted(fats.items()))
)


def butter_at(t_c):
    return solid_fat_percent([(food("butter_unsalted"), 100.0)], t_c)


@pytest.mark.parametrize(("t_c", "low", "high"), [(5, 49.9, 66.1), (20, 14.6, 29.6)])
def test_the_band_covers_the_range_found_at_19_sites(t_c, low, high):
    answer = butter_at(t_c)
    assert answer.low <= low
    assert answer.high >= high


@pytest.mark.parametrize(("t_c", "percent"), [(0, 65), (10, 40), (20, 20), (35, 3), (40, 0)])
def test_the_band_covers_single_values_of_a_dairy_training_text(t_c, percent):
    answer = butter_at(t_c)
    assert answer.low <= percent <= answer.high


def test_a_value_by_another_method_is_left_outside():
    """An abstract's 20.1 % 'solidified fat' at 10 °C depends on its method."""
    assert butter_at(10).low > 20.1


def test_a_dropping_point_of_31_to_35_degrees_leaves_little_solid():
    """Versteeg et al. 2016: dropping point 30.5 to 35.4 °C; a dairy training text has 3 % at 35 °C."""
    assert butter_at(35.4).high < 4.2
    assert butter_at(30.5).low > 0


@pytest.mark.parametrize(
    ("fat", "solid_at", "liquid_at"),
    [("cocoa_butter", 28, 38), ("coconut", 20, 28), ("palm_kernel", 23, 30), ("palm", 33, 45)],
)
def test_fats_melt_in_their_published_ranges(fat, solid_at, liquid_at):
    """Belitz, tables 14.8 and 14.9: cocoa butter 28 to 36 °C, coconut oil 20 to 28, palm kernel oil 23 to 30; a trade
    specification of palm oil has 33 to 39 °C."""
    assert solid_percents(fat, solid_at)[2] > 3
    assert solid_percents(fat, liquid_at)[2] <= 1


def test_palm_and_palm_kernel_oil_are_softest_near_60_to_40():
    """Int J Food Sci Nutr 1996 47:71-74 (abstract): at 10 °C it falls short of a straight line most near 60:40."""
    shortfalls = {}
    for palm in range(5, 100, 5):
        straight = (palm * solid_percents("palm", 10)[0] + (100 - palm) * solid_percents("palm_kernel", 10)[0]) / 100
        value = blend_percents((("palm", float(palm)), ("palm_kernel", 100.0 - palm)), 10)[0]
        shortfalls[palm] = straight - value
        assert value < straight
    assert max(shortfalls, key=lambda palm: shortfalls[palm]) == pytest.approx(60, abs=10)


def test_within_a_family_fats_add_up():
    """The upper estimate of the reference for blends within one family."""
    assert FAMILIES["milk_chocolate"] == "cocoa_butter"
    blended = blend_percents((("cocoa_butter", 30.0), ("milk_chocolate", 10.0)), 20)
    assert blended[0] == pytest.approx(
        (3 * solid_percents("cocoa_butter", 20)[0] + solid_percents("milk_chocolate", 20)[0]) / 4
    )


def test_milk_fat_softens_cocoa_butter_more_than_in_proportion():
    """From memory: the fat of milk chocolate, a sixth of it milk fat, has 58 % (50 to 65) solid at 20 °C, tempered."""
    value, low, high = blend_percents((("cocoa_butter", 82.5), ("milk", 17.5)), 20)
    straight = (82.5 * solid_percents("cocoa_butter", 20)[0] + 17.5 * solid_percents("milk", 20)[0]) / 100
    assert low <= 58 <= high
    assert value < straight


def test_a_measured_melting_heat_lies_in_the_band():
    """80.8 J/g, Abd El-Rahman et al. 1998 (abstract)."""
    _, low, high = melting_heat_j_per_g("milk")
    assert low < 80.8 < high


@pytest.mark.parametrize("t_c", [-0.1, 151, float("nan")])
def test_outside_the_range_it_is_withheld(t_c):
    assert isinstance(butter_at(t_c), Withheld)


def test_fat_that_is_not_known_is_named_and_a_little_of_it_widens_the_band():
    contents = [0.0] * len(INDEX)
    contents[INDEX["fat_g"]] = 75.0
    block = Food(key="", name="plant block", group=OWN, per_100g=tuple(contents), source="stated")
    assert "plant block" in solid_fat_percent([(block, 100.0)], 20).reason
    butter = butter_at(20)
    with_some = solid_fat_percent([(food("butter_unsalted"), 100.0), (block, 5.0)], 20)
    assert with_some.low < butter.low
    assert with_some.high > butter.high
    assert solid_fat_percent([(food("water_tap"), 100.0)], 20) == Withheld("there is no fat")


def test_a_vegetable_oil_is_liquid():
    answer = solid_fat_percent([(food("oil_olive"), 100.0)], 15)
    assert (answer.value, answer.low, answer.high) == (0, 0, 0)


def test_every_fat_sort_belongs_to_a_kind_or_a_group_and_has_a_curve():
    known = {*foods(), *{one.group for one in foods().values()}}
    rows = load_rows("fat_sorts", lambda cells: (cells["of"], cells["fat"]), ("of",))
    assert {of for of, _ in rows} <= known
    assert {fat for _, fat in rows} <= set(curves())
    for fat in curves():
        assert set(fat_constants(fat)) >= {"melting_heat", "dilation", "liquid_density_40c"}


@given(BLENDS, st.floats(0, 60), st.floats(0.01, 10))
def test_warming_never_makes_fat_solid_and_the_band_holds_the_value(fats, t_c, step):
    now, later = blend_percents(fats, t_c), blend_percents(fats, t_c + step)
    assert all(warm <= cold + 1e-9 for cold, warm in zip(now, later, strict=True))
    typical, low, high = now
    assert 0 <= low <= typical + 1e-9
    assert typical <= high + 1e-9
    assert high <= 100 + 1e-9


@given(st.lists(st.tuples(st.sampled_from(sorted(foods())), st.floats(0, 1000)), max_size=6))
def test_all_the_fat_is_of_some_sort(parts):
    mixture = [(food(key), mass) for key, mass in parts]
    fat_g = sum((one.content("fat_g") or 0.0) * mass / 100 for one, mass in mixture)
    assert sum(mass for _, mass in fats_of(mixture)) == pytest.approx(fat_g, abs=1e-6)


@given(BLENDS, st.floats(0.1, 10), st.floats(0, 45))
def test_a_larger_batch_is_as_firm(fats, factor, t_c):
    larger = tuple((fat, factor * mass) for fat, mass in fats)
    assert blend_percents(larger, t_c) == pytest.approx(blend_percents(fats, t_c))


def test_the_same_fat_twice_is_one():
    one = solid_fat_percent([(food("butter_unsalted"), 100.0)], 18)
    two = solid_fat_percent([(food("butter_unsalted"), 40.0), (food("butter_unsalted"), 60.0)], 18)
    assert isinstance(one, Estimate)
    assert two[:3] == pytest.approx(one[:3])
