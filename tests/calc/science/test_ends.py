"""The ends of what is not known: hide contents of a food, and the figures of the true food lie within the bands."""

import math
from dataclasses import replace

import pytest
from crumbcoat_calc.foods.components import COMPONENTS
from crumbcoat_calc.foods.table import Food, food, food_with, foods
from crumbcoat_calc.science.between import StateBetween, covering, state_at_ends
from crumbcoat_calc.science.emulsifier import phospholipid_g
from crumbcoat_calc.science.ends import ends_of, is_open
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.mixture_map import Region, map_point
from crumbcoat_calc.science.state import mixture_state
from hypothesis import given
from hypothesis import strategies as st

FIGURES = (
    "fat_g", "water_g", "dissolved_sugar_g", "undissolved_sugar_g", "syrup_strength_percent", "fat_volume_percent",
    "water_activity", "density_g_per_ml",
)  # fmt: skip
HIDDEN = ("water_g", "fat_g", "protein_g", "carbohydrate_g", "ash_g", "milk_fat_g", "milk_protein_g")
KNOWN = sorted(
    key
    for key, kind in foods().items()
    if not is_open(kind)
    and None not in (kind.content("sugars_g"), *kind.per_100g[:6])
    and abs(100 - math.fsum(kind.per_100g[:6])) < 1  # Baking soda adds up to 37.
)
BASE = (("butter_unsalted", 300.0), ("sugar_granulated", 250.0), ("milk_whole", 200.0))


def hidden(kind: Food, components: frozenset[str]) -> Food:
    contents = [
        None if component in components else content
        for component, content in zip(COMPONENTS, kind.per_100g, strict=True)
    ]
    return replace(kind, per_100g=tuple(contents))


@given(st.sampled_from(KNOWN), st.frozensets(st.sampled_from(HIDDEN), min_size=1), st.floats(1, 60), st.floats(5, 30))
def test_the_bands_hold_what_was_hidden(key: str, components: frozenset[str], mass_g: float, t_c: float) -> None:
    """Outside check: usda-sr28's own figures of the food, which the bands have not seen."""
    others = [(food(one), g) for one, g in BASE]
    truth = mixture_state([*others, (food(key), mass_g)], t_c)
    state = state_at_ends([*others, (hidden(food(key), components), mass_g)], t_c)
    for figure in FIGURES:
        true, found = getattr(truth, figure), getattr(state, figure)
        if isinstance(found, Withheld) or isinstance(true, Withheld):
            continue
        slack = 0.012 * mass_g if figure.endswith("_g") else 0.003 * max(1.0, abs(true.value))
        assert found.low - slack <= true.value <= found.high + slack, figure


def test_a_food_whose_contents_are_known_has_one_end() -> None:
    """Nothing is computed twice where nothing is unknown."""
    parts = [food(key) for key, _ in BASE]
    assert ends_of(parts) == (tuple(parts),)
    assert not isinstance(state_at_ends([(one, 100.0) for one in parts], 20), StateBetween)


def test_the_ends_are_distinct_and_complete() -> None:
    """By hand: 90 g of 100 are known, so 10 g are water, fat, sugars, other solids or alcohol."""
    gum = food_with(None, name="gum", stated={"fibre_g": 85.0, "carbohydrate_g": 90.0})
    ends = [end[0] for end in ends_of([gum])]
    assert {end.content("water_g") for end in ends} == {0.0, 10.0}
    assert {end.content("fat_g") for end in ends} == {0.0, 10.0}
    assert {end.content("sugars_g") for end in ends} == {0.0, 5.0}
    assert {end.content("alcohol_g") for end in ends} == {0.0, 10.0}
    assert all(sum(end.per_100g[:6]) == pytest.approx(100) for end in ends)  # type: ignore[arg-type]


def test_a_gram_of_a_gum_leaves_every_estimate_there() -> None:
    gum = food_with(None, name="xanthan", stated={"calcium_mg": 100.0})
    parts = [(food(key), mass_g) for key, mass_g in (*BASE, ("cream_heavy_whipping", 249.0))]
    without, state = state_at_ends(parts, 20), state_at_ends([*parts, (gum, 1.0)], 20)
    assert isinstance(state, StateBetween)
    assert state.unknown == "xanthan"
    for figure in (*FIGURES, "headroom_g", "syrup_density_g_per_ml", "syrup_viscosity_mpa_s", "solid_fat_percent"):
        before, after = getattr(without, figure), getattr(state, figure)
        assert isinstance(before, Estimate) == isinstance(after, Estimate), figure
        if isinstance(before, Estimate) and isinstance(after, Estimate):
            assert after.value == pytest.approx(before.value, rel=0.02, abs=1.0)
    assert (state.packing, state.inner_phase) == (without.packing, without.inner_phase)
    assert isinstance(state.emulsifiers((1.0, 1.0), (0.0, 0.0)).finest_droplet_um, Estimate)
    assert state.sugar_effect(True) is without.sugar_effect(True)


def test_ends_that_do_not_agree_give_no_figure() -> None:
    """70 g of 100 may be water or not: without any there is no syrup, so nothing is said of one."""
    paste = food_with(None, name="paste", stated={"sugars_g": 10.0, "fat_g": 20.0})
    state = state_at_ends([(paste, 100.0)], 20)
    assert isinstance(state.syrup_strength_percent, Withheld)
    assert state.syrup_strength_percent.reason == "what is not known of paste leaves it open"
    assert state.inner_phase is None
    assert map_point([(paste, 100.0)], 20).region is Region.UNKNOWN
    assert covering([Withheld("there is no fat")] * 2, "paste") == Withheld("there is no fat")


def test_an_end_with_less_water_than_boiled_off_does_not_count() -> None:
    """Of 70 g that may be water at least 30 were, since they boiled off."""
    paste = food_with(None, name="paste", stated={"fat_g": 30.0})
    water = state_at_ends([(paste, 100.0)], 20, boiled_off_g=30).water_g
    assert isinstance(water, Estimate)
    assert water.low >= 0
    assert water.high == pytest.approx(40)


def test_hardly_any_fat_of_unknown_kind_widens_the_phospholipid_by_all_of_it() -> None:
    """1 g of pistachios has 0.45 g of fat (usda-sr28), which is less than a hundredth of that of 300 g of butter."""
    butter, nuts = food("butter_unsalted"), food("pistachio_raw")
    alone, both = phospholipid_g([(butter, 300)]), phospholipid_g([(butter, 300), (nuts, 1)])
    assert isinstance(alone, Estimate)
    assert isinstance(both, Estimate)
    assert both.low == alone.low
    assert both.high - alone.high == pytest.approx((nuts.content("fat_g") or 0) / 100)
    assert isinstance(phospholipid_g([(butter, 300), (nuts, 30)]), Withheld)
