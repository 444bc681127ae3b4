"""Bounds of what is not known: the true contents of foods of the table, hidden, always lie within them."""

from dataclasses import replace

import pytest
from crumbcoat_calc.foods.bounds import TRANS_IN_EGG_FAT, TRANS_IN_MILK_FAT, margins_of, range_of, ranges_of
from crumbcoat_calc.foods.components import COMPONENTS, PROXIMATES
from crumbcoat_calc.foods.composition import energy, energy_ranges, mixed, mixture_of
from crumbcoat_calc.foods.figures import figure_texts
from crumbcoat_calc.foods.table import Food, food, food_with, foods
from hypothesis import given
from hypothesis import strategies as st

SUMS_MISS_G = 1.2
"""By how much a part that USDA prints is above its whole: butter has 1.09 g of sugars in no carbohydrate."""


SODIUM_IN_ASH_MG = 434
"""Sodium in 1 g of ash at the most: sodium carbonate, Na2CO3, from standard atomic weights."""


def adds_up(kind: Food) -> bool:
    """Whether a printed row fits together: its parts fill 100 g and no more, as do the parts of its parts.

    Of a row that contradicts itself the hidden figure cannot be bounded by the others. test_table.py names such rows.
    """
    proximates = [kind.content(component) for component in PROXIMATES]
    carbohydrate = [kind.content(component) or 0.0 for component in ("fibre_g", "starch_g", "sugars_g")]
    fat = [kind.content(f"{part}_fat_g") or 0.0 for part in ("saturated", "monounsaturated", "polyunsaturated")]
    whole, sodium, ash = kind.content("carbohydrate_g"), kind.content("sodium_mg") or 0.0, kind.content("ash_g")
    total = sum(content or 0.0 for content in proximates)
    return (
        (99.94 < total < 100 + 1e-9 if None not in proximates else total < 99)
        and sum(fat) < (kind.content("fat_g") or 0.0) + 0.06
        and (whole is None or sum(carbohydrate) < whole + 0.06)
        and (ash is None or sodium <= SODIUM_IN_ASH_MG * ash)
        # Printed as 0.000 with 5 g of milk fat: Greek yogurt, see data/README.md.
        and (kind.content("trans_fat_g") != 0 or (kind.content("milk_fat_g") or 0.0) < 1)
    )


SOUND = sorted(key for key, kind in foods().items() if adds_up(kind))


def test_most_rows_of_the_table_fit_together() -> None:
    assert len(SOUND) > 300
    assert {"baking_soda", "cream_single", "chestnut_cream", "yogurt_greek_plain_whole"}.isdisjoint(SOUND)


def hidden(kind: Food, components: frozenset[str]) -> Food:
    contents = [
        None if component in components else content
        for component, content in zip(COMPONENTS, kind.per_100g, strict=True)
    ]
    return replace(kind, per_100g=tuple(contents))


@given(st.sampled_from(SOUND), st.frozensets(st.sampled_from(COMPONENTS)), st.floats(1, 500))
def test_what_is_hidden_lies_within_its_bounds(key: str, components: frozenset[str], mass_g: float) -> None:
    """Outside check: usda-sr28's own figures, which the bounds have not seen."""
    kind = food(key)
    poor = hidden(kind, components)
    for component in components:
        truth = kind.content(component)
        if truth is not None:
            low, high = range_of(poor, component)
            assert low - SUMS_MISS_G <= truth <= max(high * 1.1, high + SUMS_MISS_G)
    whole = energy(mixture_of(kind, mass_g))
    if whole is not None:
        for truth, (low, high) in zip(whole, energy_ranges(mixture_of(poor, mass_g)), strict=True):
            assert low - 0.05 * mass_g <= truth <= high + 0.2 * mass_g


@given(st.sampled_from(sorted(foods())), st.frozensets(st.sampled_from(PROXIMATES)))
def test_bounds_are_in_order_and_what_is_left_is_never_given_away_twice(key: str, components: frozenset[str]) -> None:
    poor = hidden(food(key), components)
    known = sum(poor.content(component) or 0.0 for component in PROXIMATES)
    for component, (low, high) in ranges_of(poor).items():
        assert 0 <= low < high
        if component in PROXIMATES:
            assert high <= max(low, 100 - known) + 1e-9
    kcal = margins_of(poor).get("energy_kcal", (0.0, 0.0))
    assert 0 <= kcal[1] <= 9 * max(0.0, 100 - known) + 1e-9


def test_trans_fat_of_milk_fat_lies_within_what_others_analysed() -> None:
    """Outside checks: USDA Foundation Foods, which the band is not from; 3 g in 100 g of butterfat is commonly printed.

    Whole, 2 % and 1 % milk (746782, 746778, 746772) and ricotta (746766): trans fat in fat.
    """
    for trans_g, fat_g in ((0.112, 3.2), (0.07, 1.9), (0.036, 0.95), (0.351, 11), (3, 100)):
        assert TRANS_IN_MILK_FAT[0] < trans_g / fat_g < TRANS_IN_MILK_FAT[1]


def shares_of_trans_fat(group: str, fat: str) -> list[float]:
    """The shares of trans fat in the analysed foods of a group whose fat is all of that kind."""
    shares = []
    for kind in foods().values():
        trans_g, fat_g = kind.content("trans_fat_g"), kind.content(fat)
        if kind.group == group and trans_g and fat_g and fat_g > 1 and fat_g == kind.content("fat_g"):
            shares.append(trans_g / fat_g)
    return shares


@pytest.mark.parametrize(
    ("band", "group", "fat"),
    [(TRANS_IN_MILK_FAT, "dairy", "milk_fat_g"), (TRANS_IN_EGG_FAT, "egg", "fat_g")],
)
def test_the_band_of_trans_fat_is_that_of_the_analysed_rows(band: tuple[float, float], group: str, fat: str) -> None:
    shares = shares_of_trans_fat(group, fat)
    assert (min(shares), max(shares)) == pytest.approx(band, rel=0.03)


def test_trans_fat_that_nobody_analysed_is_bounded_by_milk_fat_and_any_other_fat_may_have_more() -> None:
    """By hand: 81.11 g of milk fat have 1.54 to 4.06 g; of 10 g of other fat all can be trans fat."""
    assert range_of(food("butter_unsalted"), "trans_fat_g") == pytest.approx((0.019 * 81.11, 0.05 * 81.11))
    mixed_fat = food_with(None, name="spread", stated={"fat_g": 30.0, "milk_fat_g": 20.0})
    assert range_of(mixed_fat, "trans_fat_g") == pytest.approx((0.38, 11.0))


def test_a_part_is_bounded_by_its_whole_and_the_whole_by_its_known_parts() -> None:
    """By hand: 100 - 30 - 8 leaves 62 g; of 40 g of fat, 25 saturated and 10 unsaturated leave 5."""
    paste = food_with(None, name="paste", stated={"fat_g": 30.0, "protein_g": 8.0, "sugars_g": 20.0, "sucrose_g": 18.0})
    assert range_of(paste, "carbohydrate_g") == (20.0, 62.0)
    assert range_of(paste, "water_g") == (0.0, 42.0)  # The sugars are in it, so only 42 g are left for water.
    assert range_of(paste, "glucose_g") == (0.0, 2.0)
    assert range_of(paste, "milk_fat_g") == (0.0, 30.0)
    assert range_of(paste, "calcium_mg") == (0.0, float("inf"))
    butter = food_with(None, name="fat", stated={"fat_g": 40.0, "saturated_fat_g": 25.0, "monounsaturated_fat_g": 10.0})
    assert range_of(butter, "polyunsaturated_fat_g") == (0.0, 5.0)


def test_sodium_is_bounded_by_the_ash() -> None:
    """Sodium carbonate is 2 x 22.990 / 105.99 sodium (molar masses): 434 mg in a g of ash."""
    assert pytest.approx(0.434, abs=5e-4) == 2 * 22.990 / 105.99
    gum = food_with(None, name="gum", stated={"water_g": 10.0, "fibre_g": 80.0, "ash_g": 5.0})
    assert range_of(gum, "sodium_mg") == (0.0, 5 * 434.0)


def test_a_gram_of_an_unknown_gum_leaves_every_figure_of_a_kilogram_of_frosting() -> None:
    gum = food_with(None, name="xanthan", stated={"calcium_mg": 100.0})
    parts = [("butter_unsalted", 400), ("sugar_powdered", 400), ("cream_heavy_whipping", 199)]
    mixture = mixed([*(mixture_of(food(key), mass_g) for key, mass_g in parts), mixture_of(gum, 1)])
    texts = figure_texts(mixture)
    assert not [text for text in texts.values() if text.startswith("at least") or text == "not known"]
    without = figure_texts(mixed([mixture_of(food(key), mass_g) for key, mass_g in parts]))
    assert texts["water.percent"] == "18.8 to 18.9 %"
    assert without["water.percent"] == "18.8 %"
    assert "Not known exactly for xanthan: " in texts["missing"]


def test_water_that_boils_off_must_possibly_be_there() -> None:
    """70 g of fat leave at most 30 g of water; 20 g boil off, so 0 to 10 g are left."""
    paste = mixture_of(food_with(None, name="paste", stated={"fat_g": 70.0}), 100)
    cooked = paste.without_water(20)
    assert (cooked.at_least("water_g"), cooked.at_most("water_g")) == (0.0, 10.0)
    with pytest.raises(ValueError, match="there is only 30 g"):
        paste.without_water(31)
