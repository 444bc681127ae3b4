"""Checks of milk sugar: the published table, the mass of its crystals, and what kitchens and dairies know."""

from dataclasses import replace

import pytest
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.science.constituents import constituents_of
from crumbcoat_calc.science.dissolving import syrup_of
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.lactose import lactose_of
from crumbcoat_calc.science.state import mixture_state
from hypothesis import given
from hypothesis import strategies as st

NOTHING = constituents_of([])


def lactose(*parts, t_c=20.0):
    made = constituents_of([(food(key), mass) for key, mass in parts])
    return lactose_of(made, syrup_of(made, t_c))


def solution(**contents):
    made = replace(NOTHING, **contents)
    return lactose_of(made, syrup_of(made, 20.0))


def test_in_water_alone_the_crystals_are_what_the_table_leaves():
    """Hudson between 0 and 15 °C: 13.1 g in 100 g of water at 4 °C. By hand for 30 g, with d dissolved:

    d = 0.1306 (100 - 0.05263 (30 - d)), so d = 12.94, and 17.06 g of lactose make 17.96 g of crystals.
    """
    found = solution(water_g=100.0, lactose_g=30.0)
    assert found.supersaturation.value == pytest.approx(30 / 13.06, abs=0.01)
    assert found.crystals_g.value == pytest.approx(17.96, abs=0.05)
    free_water = 100 - found.crystals_g.value * 0.05
    left = 30 - found.crystals_g.value * 0.95
    assert left / free_water == pytest.approx(0.1306, abs=0.0005)


def test_beside_sucrose_less_of_it_stays_dissolved():
    """From memory: half (0.35 to 0.65) as much beside a saturated sucrose syrup."""
    plain, sweet = solution(water_g=100.0, lactose_g=20.0), solution(water_g=100.0, lactose_g=20.0, sucrose_g=190.0)
    ratio = sweet.supersaturation.value / plain.supersaturation.value
    assert ratio == pytest.approx(2, abs=0.1)
    assert sweet.supersaturation.low / plain.supersaturation.low == pytest.approx(1 / 0.65, abs=0.1)
    assert sweet.supersaturation.high / plain.supersaturation.high == pytest.approx(1 / 0.35, abs=0.2)


def test_silk_is_supersaturated_and_plain_milk_is_not():
    """Milk has 5 g of lactose in 88 g of water; milk powder on top brings it near the 1.94 of milk caramel, which
    keeps for long if nothing starts its crystals (Advanced Dairy Chemistry 3)."""
    assert lactose(("milk_whole", 500)).supersaturation.high < 0.5
    silk = lactose(
        ("milk_whole", 265), ("buttermilk_powder", 45), ("milk_powder_skim", 20), ("butter_unsalted", 245),
        ("sugar_powdered", 240),
    )  # fmt: skip
    assert 1.5 < silk.supersaturation.value < 2.1
    assert silk.crystals_g.low > 5


def test_condensed_milk_has_crystals_and_ordinary_frosting_has_none():
    assert lactose(("milk_condensed_sweetened", 100)).supersaturation.low > 2
    assert lactose(("butter_unsalted", 300), ("sugar_powdered", 400), ("milk_whole", 30)).crystals_g.high == 0


def test_what_the_table_does_not_list_may_be_lactose():
    """Milk chocolate has lactose; the table has one figure for all its sugars."""
    assert isinstance(lactose(("chocolate_milk", 100), ("water_tap", 50)).crystals_g, Withheld)
    assert isinstance(lactose(("milk_whole", 500), ("vanilla_extract", 5)).crystals_g, Estimate)
    assert isinstance(lactose(("oil_canola", 50)).dissolved_g, Withheld)


@given(st.floats(1, 500), st.floats(0, 200), st.floats(0, 900), st.floats(0, 100), st.floats(0, 60), st.floats(0.01, 1))
def test_bands_are_bands_and_nothing_jumps(water, milk_sugar, sucrose, glucose, t_c, more):
    made = replace(NOTHING, water_g=water, lactose_g=milk_sugar, sucrose_g=sucrose, glucose_g=glucose)
    found = lactose_of(made, syrup_of(made, t_c))
    for value, low, high, _ in found:
        assert 0 <= low <= value + 1e-9 <= high + 2e-9
    assert found.crystals_g.high <= 1.0527 * milk_sugar
    for name in ("water_g", "lactose_g", "sucrose_g", "glucose_g"):
        grown = replace(made, **{name: getattr(made, name) + more})
        other = lactose_of(grown, syrup_of(grown, t_c))
        for before, after in zip(found.crystals_g[:3], other.crystals_g[:3], strict=True):
            assert abs(after - before) < 1.5 * more, name


def test_a_mixture_at_its_ends_covers_the_lactose_of_both():
    from crumbcoat_calc.foods.table import food_with
    from crumbcoat_calc.science.between import state_at_ends

    gum = food_with(None, name="gum", stated={"fibre_g": 80.0})
    parts = [(food("milk_powder_skim"), 50), (food("milk_whole"), 100), (gum, 2)]
    found = state_at_ends(parts, 20).lactose
    plain = mixture_state(parts[:2], 20).lactose
    assert found.crystals_g.low <= plain.crystals_g.value <= found.crystals_g.high
