"""Checks of the whole: a worked example done by hand, handbook values, mass balance, what a kitchen knows."""

import pytest
from crumbcoat_calc.foods.components import INDEX
from crumbcoat_calc.foods.table import Food, food
from crumbcoat_calc.science.emulsion import InnerPhase, Packing
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.state import MixtureState, mixture_state
from hypothesis import given
from hypothesis import strategies as st

FIGURES = [name for name in {**MixtureState.__annotations__, **vars(MixtureState)} if not name.startswith("_")]
"""Fields, and the properties that are computed when they are read."""

NO_SUGAR = dict.fromkeys(("sugars_g", "sucrose_g", "glucose_g", "fructose_g", "lactose_g", "maltose_g"), 0.0)

PLAIN = dict(NO_SUGAR, protein_g=0.0, carbohydrate_g=0.0, ash_g=0.0, alcohol_g=0.0, sodium_mg=0.0, milk_protein_g=0.0)

KEYS = (
    "butter_unsalted", "butter_salted", "sugar_powdered", "sugar_granulated", "milk_whole", "cream_heavy_whipping",
    "buttermilk_powder", "cream_cheese", "egg_yolk_raw", "egg_white_raw", "vanilla_extract", "honey", "cornstarch",
    "cocoa_powder_natural", "salt_table", "water_tap", "oil_canola", "chocolate_dark_60_69", "corn_syrup_light",
)  # fmt: skip

PARTS = st.lists(st.tuples(st.sampled_from(KEYS), st.floats(0.1, 1000)), min_size=1, max_size=9)


def stage(*parts, t_c=20.0, **more):
    return mixture_state([(food(key), mass) for key, mass in parts], t_c, **more)


def own(name="cream", **stated):
    contents = [None] * len(INDEX)
    for component, value in stated.items():
        contents[INDEX[component]] = value
    return Food(key="", name=name, group="dairy", per_100g=tuple(contents), source="usda-sr28")


def test_butter_sugar_and_cream_by_hand():
    """227 g butter (81.11 % fat, 15.87 % water), 340 g powdered sugar (97 % sucrose), 30 g cream (36 %, 57.8 % water).

    By hand, from the saturation table at 20 °C: fat 32.65 %; 107.0 of 329.8 g of sucrose dissolved; aw 0.8528.
    """
    powdered = own("powdered sugar", **dict(PLAIN, water_g=0.0, fat_g=0.0, milk_fat_g=0.0, carbohydrate_g=100.0))
    contents = list(powdered.per_100g)
    contents[INDEX["sucrose_g"]] = contents[INDEX["sugars_g"]] = 97.0
    powdered = Food(key="", name="powdered sugar", group="sugar", per_100g=tuple(contents), source="usda-sr28")
    butter = own("butter", **dict(PLAIN, water_g=15.87, fat_g=81.11, milk_fat_g=81.11))
    cream = own("cream", **dict(PLAIN, water_g=57.8, fat_g=36.0, milk_fat_g=36.0))
    state = mixture_state([(butter, 227), (powdered, 340), (cream, 30)], 20)
    assert 100 * state.fat_g.value / state.mass_g == pytest.approx(32.65, rel=0.005)
    assert state.water_g.value == pytest.approx(53.36, rel=0.005)
    assert state.dissolved_sugar_g.value == pytest.approx(107.0, rel=0.005)
    assert state.undissolved_sugar_g.value == pytest.approx(329.8 - 107.0, rel=0.005)
    assert state.water_activity_norrish.value == pytest.approx(0.8528, abs=0.0005)
    assert state.saturated is True


def test_butter_is_water_in_fat_and_denser_than_the_quoted_911():
    """Composition gives about 0.944 for salted butter at 20 °C; a US cup of 227 g gives 0.959."""
    state = stage(("butter_salted", 100))
    assert state.inner_phase is InnerPhase.WATER
    assert state.packing is Packing.SQUEEZED
    assert state.density_g_per_ml.value == pytest.approx(0.944, abs=0.006)
    assert state.fat_volume_percent.value == pytest.approx(82.4, abs=1.5)


@pytest.mark.parametrize(
    ("parts", "density"),
    [
        pytest.param([("milk_whole", 100)], 1.030, id="whole milk"),
        pytest.param([("sugar_granulated", 50), ("water_bottled", 50)], 1.2295, id="CRC: 50 % sucrose"),
        pytest.param([("water_bottled", 100)], 0.9982, id="IAPWS water"),
    ],
)
def test_density_without_air(parts, density):
    answer = stage(*parts).density_g_per_ml
    assert answer.low <= density <= answer.high


def test_an_ice_cream_mix_has_the_density_of_the_published_formula():
    """University of Guelph: 1 / (0.12 x 1.075 + (0.383 - 0.12) x 0.63 + 0.617) = 1.0969 (printed 1.096, truncated)."""
    published = 1 / (0.12 * 1.075 + (0.383 - 0.12) * 0.63 + 0.617)
    assert published == pytest.approx(1.09686, abs=0.00001)
    cream, powder, sugar = (
        food(key).content for key in ("cream_heavy_whipping", "milk_powder_skim", "sugar_granulated")
    )
    cream_g = 12 / cream("fat_g") * 100
    powder_g = 10
    sugar_g = 100 * (38.3 - cream_g * (1 - cream("water_g") / 100) - powder_g * (1 - powder("water_g") / 100))
    sugar_g /= 100 - sugar("water_g")
    water_g = 100 - cream_g - powder_g - sugar_g
    state = stage(
        ("cream_heavy_whipping", cream_g),
        ("milk_powder_skim", powder_g),
        ("sugar_granulated", sugar_g),
        ("water_tap", water_g),
    )
    assert state.density_g_per_ml.low <= published <= state.density_g_per_ml.high


@pytest.mark.parametrize("t_c", [-10.0, 130.0, float("nan")])
def test_outside_every_range_only_masses_remain(t_c):
    state = stage(("butter_unsalted", 250), ("sugar_powdered", 100), t_c=t_c)
    assert isinstance(state.fat_g, Estimate)
    for answer in (state.syrup_strength_percent, state.water_activity, state.headroom_g, state.fat_volume_percent):
        assert isinstance(answer, Withheld)


def test_a_food_of_unknown_content_is_named_wherever_it_matters():
    state = mixture_state([(own("mystery", fat_g=10.0), 50.0), (food("milk_whole"), 50.0)], 20)
    for answer in (state.water_g, state.syrup_strength_percent, state.other_solids_g, state.water_activity):
        assert "mystery" in answer.reason
    assert isinstance(state.fat_g, Estimate)


def test_nothing_at_all():
    state = mixture_state([], 20)
    assert state.mass_g == 0
    assert isinstance(state.density_g_per_ml, Withheld)


def test_fat_without_water():
    sugar = own("sugar", **dict(PLAIN, water_g=0.0, fat_g=0.0, milk_fat_g=0.0, carbohydrate_g=100.0))
    contents = list(sugar.per_100g)
    contents[INDEX["sucrose_g"]] = contents[INDEX["sugars_g"]] = 100.0
    sugar = Food(key="", name="sugar", group="sugar", per_100g=tuple(contents), source="usda-sr28")
    state = mixture_state([(food("oil_canola"), 100), (sugar, 50)], 20)
    assert state.density_g_per_ml.value == pytest.approx(150 / (100 / 0.9172 + 50 / 1.5929), rel=0.002)
    assert state.undissolved_sugar_g.value == pytest.approx(50, abs=0.1)
    assert isinstance(state.fat_volume_percent, Withheld)
    assert state.solid_fat_percent.high == 0  # A vegetable oil is liquid.


@given(PARTS, st.floats(0, 100))
def test_mass_is_conserved(parts, t_c):
    state = stage(*parts, t_c=t_c)
    phases = (state.fat_g, state.water_g, state.dissolved_sugar_g, state.undissolved_sugar_g, state.other_solids_g)
    if all(isinstance(phase, Estimate) for phase in phases):
        total = sum(phase.value for phase in phases) + state.ethanol_g
        # Sugars that were assayed may exceed the carbohydrate by difference: 0.9 per 100 g at most in these foods.
        assert total == pytest.approx(state.mass_g, rel=0.009)


@given(PARTS, st.floats(0, 100), st.floats(0.1, 30))
def test_scaling_leaves_shares_alone(parts, t_c, factor):
    one, other = stage(*parts, t_c=t_c), stage(*[(key, factor * mass) for key, mass in parts], t_c=t_c)
    for name in ("syrup_strength_percent", "fat_volume_percent", "density_g_per_ml", "water_activity"):
        before, after = getattr(one, name), getattr(other, name)
        assert type(before) is type(after)
        if isinstance(before, Estimate):
            assert (after.value, after.low, after.high) == pytest.approx((before.value, before.low, before.high))
    assert one.saturated == other.saturated


@given(PARTS, st.floats(-20, 120))
def test_every_band_contains_its_value_and_every_reason_is_given(parts, t_c):
    state = stage(*parts, t_c=t_c)
    for name in FIGURES:
        answer = getattr(state, name)
        if isinstance(answer, Estimate):
            assert answer.low - 1e-9 <= answer.value <= answer.high + 1e-9, name
            assert answer.model.name
            assert answer.model.validity
        elif isinstance(answer, Withheld):
            assert answer.reason, name


@given(st.floats(50, 400), st.floats(10, 300), st.floats(0, 900), st.floats(1, 200))
def test_more_sugar_never_lowers_the_strength_or_adds_headroom(butter, milk, sugar, more):
    one = stage(("butter_unsalted", butter), ("milk_whole", milk), ("sugar_granulated", sugar))
    other = stage(("butter_unsalted", butter), ("milk_whole", milk), ("sugar_granulated", sugar + more))
    if isinstance(one.headroom_g, Estimate) and isinstance(other.headroom_g, Estimate):
        assert other.headroom_g.value <= one.headroom_g.value + 1e-9
        assert other.water_activity.value <= one.water_activity.value + 1e-4


def test_every_source_of_a_model_is_a_known_work():
    from crumbcoat_calc.tables import sources

    state = stage(("butter_unsalted", 300), ("milk_whole", 200), ("sugar_powdered", 250))
    models = [getattr(state, name).model for name in FIGURES if hasattr(getattr(state, name), "model")]
    assert len(models) >= 15
    assert {model.source for model in models} <= sources()


@pytest.mark.parametrize("share", [0.05, 0.15, 0.30])
def test_alcohol_in_water_takes_less_room_than_both_apart(share):
    """Density of ethanol and water at 20 °C from a general-purpose library's data (Melinder); 30 % is the strongest."""
    from CoolProp.CoolProp import PropsSI

    measured = PropsSI("D", "T", 293.15, "P", 101325, f"INCOMP::MEA[{share}]") / 1000
    pure = food("alcohol_pure").content("alcohol_g") / 100
    answer = stage(("alcohol_pure", 100 * share / pure), ("water_bottled", 100 - 100 * share / pure))
    assert answer.density_g_per_ml.low <= measured <= answer.density_g_per_ml.high


def test_a_syrup_stronger_than_the_density_model_still_has_a_volume():
    """By hand: fat at 0.90 to 0.95 g/mL, and the rest between a saturated syrup, 1.33, and crystals, 1.60."""
    answer = stage(("chocolate_dark_60_69", 300), ("honey", 100), ("glucose_anhydrous", 300))
    assert answer.syrup_strength_percent.high > 84
    assert isinstance(answer.fat_volume_percent, Estimate)
    fat, rest = answer.fat_g.value, 700 - answer.fat_g.value
    assert 700 / (fat / 0.90 + rest / 1.33) < answer.density_g_per_ml.value < 700 / (fat / 0.95 + rest / 1.60)
