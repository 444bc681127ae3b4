"""Household measures: each text is read back and weighed again; errors stay within their bounds for every food."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import AS_IT_COMES, Food, food, foods, grams_of
from crumbcoat_calc.kitchen.household import SYSTEMS, in_cups_and_spoons, in_pieces
from crumbcoat_calc.values.units import is_volume, number_and_words, unit_name
from hypothesis import given
from hypothesis import strategies as st

MEASURED = [
    (each, how)
    for each in foods().values()
    for how in sorted({measure.how for measure in each.measures if is_volume(measure.unit)})
]
NEVER_BY_VOLUME = [each for each in foods().values() if not any(is_volume(m.unit) for m in each.measures)]
measured = st.sampled_from(MEASURED)
systems = st.sampled_from(sorted(SYSTEMS))


def weighed_again(shown: str, food: Food, how: str) -> float:
    total = 0.0
    for part in shown.removesuffix(f", {how}").split(" + "):
        count, words = number_and_words(part)
        unit = unit_name(words)
        assert unit is not None
        total += grams_of(food, float(count), unit, how)
    return total


@pytest.mark.parametrize(
    ("key", "mass_g", "system", "how", "text"),
    [
        pytest.param("butter_unsalted", 227, "us", AS_IT_COMES, "1 US cup", id="USDA: a cup of butter is 227 g"),
        pytest.param("butter_unsalted", 14.2, "us", AS_IT_COMES, "1 US tbsp", id="USDA: a tablespoon is 14.2 g"),
        pytest.param("butter_unsalted", 255, "us", AS_IT_COMES, "1 US cup + 2 US tbsp", id="two measures together"),
        pytest.param("sugar_granulated", 100, "us", AS_IT_COMES, "½ US cup", id="USDA: a cup of sugar is 200 g"),
        pytest.param("sugar_powdered", 240, "us", "unsifted", "2 US cups, unsifted", id="powdered, unsifted"),
        pytest.param("sugar_powdered", 200, "us", "sifted", "2 US cups, sifted", id="powdered, sifted: 100 g per cup"),
        pytest.param("water_bottled", 250, "metric", AS_IT_COMES, "1 metric cup", id="water: 237 g in 236.6 mL"),
        pytest.param("water_bottled", 20, "australian", AS_IT_COMES, "1 AU tbsp", id="an AU tablespoon of water"),
        pytest.param("water_bottled", 15, "metric", AS_IT_COMES, "1 metric tbsp", id="a metric tablespoon of water"),
    ],
)
def test_household(key: str, mass_g: float, system: str, how: str, text: str) -> None:
    shown = in_cups_and_spoons(food(key), mass_g, system, how)
    assert shown == text


@given(which=measured, mass_g=st.floats(0.5, 5000), system=systems)
def test_one_or_two_measures_unless_there_is_too_little(which: tuple[Food, str], mass_g: float, system: str) -> None:
    shown = in_cups_and_spoons(which[0], mass_g, system, which[1])
    if shown is None:
        assert mass_g < grams_of(which[0], 0.1, SYSTEMS[system][2], which[1]) + 1e-9
        return
    assert 1 <= len(shown.split(" + ")) <= 2


@given(which=measured, mass_g=st.floats(0.5, 5000), system=systems)
def test_the_error_stays_within_its_bound(which: tuple[Food, str], mass_g: float, system: str) -> None:
    """Half of the gap between marks: 1/8 tsp up to a tablespoon, 6 % of more than that,

    where USDA weighs cup and spoon of one food apart, so that they are not exact multiples.
    """
    shown = in_cups_and_spoons(which[0], mass_g, system, which[1])
    _, tablespoon, teaspoon = (grams_of(which[0], 1, unit, which[1]) for unit in SYSTEMS[system])
    if shown is None:
        assert mass_g < teaspoon / 10 + 1e-9
        return
    error_g = abs(weighed_again(shown, *which) - mass_g)
    if mass_g < tablespoon:
        assert error_g <= max(teaspoon / 8, 0.03 * mass_g) + 1e-6
    else:
        assert error_g <= 0.06 * mass_g


@given(which=measured, count=st.integers(1, 12), system=systems)
def test_whole_cups_stay_whole(which: tuple[Food, str], count: int, system: str) -> None:
    unit = SYSTEMS[system][0]
    shown = in_cups_and_spoons(which[0], grams_of(which[0], count, unit, which[1]), system, which[1])
    assert shown is not None
    number, words = number_and_words(shown.removesuffix(f", {which[1]}"))
    assert (number, unit_name(words)) == (count, unit)


def test_a_metric_cup_weighs_by_the_ratio_of_the_volumes() -> None:
    """nist-hb44: 236.5882365 mL; kitchen convention: 250 mL."""
    flour = next(
        each for each, how in MEASURED if how == AS_IT_COMES and any(m.unit == "us_cup" for m in each.measures)
    )
    us, metric = grams_of(flour, 1, "us_cup"), grams_of(flour, 1, "metric_cup")
    assert metric / us == pytest.approx(250 / 236.5882365)


def test_a_food_without_weights_has_no_measure() -> None:
    """Another food's density is never used."""
    assert NEVER_BY_VOLUME
    for each in NEVER_BY_VOLUME:
        for system in SYSTEMS:
            assert in_cups_and_spoons(each, 100, system) is None


def test_a_food_without_a_weight_measured_this_way_has_no_measure() -> None:
    assert in_cups_and_spoons(food("sugar_powdered"), 100, "us", "packed") is None
    assert in_cups_and_spoons(food("sugar_granulated"), 100, "us", "sifted") is None


def test_an_amount_too_small_to_measure_has_no_measure() -> None:
    assert in_cups_and_spoons(food("salt_table"), 0.3, "us") is None
    assert in_cups_and_spoons(food("salt_table"), 0.0, "us") is None


def test_an_unknown_system_is_refused() -> None:
    with pytest.raises(InputError) as refused:
        in_cups_and_spoons(food("salt_table"), 6, "imperail")
    assert refused.value.path == ("system",)
    assert "us, metric, australian" in refused.value.remedy


def test_sticks_of_butter() -> None:
    """USDA: a stick is 113 g."""
    butter = food("butter_unsalted")
    assert grams_of(butter, 1, "stick") == pytest.approx(113.398, abs=0.5), "4 oz, from memory"
    assert in_pieces(butter, 56.5, "stick") == "½ stick"
    assert in_pieces(butter, 5, "stick") is None
    assert in_pieces(food("sugar_granulated"), 113, "stick") is None
