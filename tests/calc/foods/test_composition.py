"""foods/composition.py against printed mixing problems and the conservation of mass."""

import csv
import itertools
import re
from pathlib import Path

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.bounds import range_of
from crumbcoat_calc.foods.components import COMPONENTS, PROXIMATES
from crumbcoat_calc.foods.composition import NOTHING, energy, mixed, mixture_of, salt_g
from crumbcoat_calc.foods.table import food, food_with, foods
from hypothesis import given
from hypothesis import strategies as st

REFERENCE = Path(__file__).parents[2] / "reference"


def answer(problem):
    """The exact answers and the tolerance of a row of worked_examples.csv, whose book is named in the row."""
    with (REFERENCE / "worked_examples.csv").open(encoding="utf-8", newline="") as file:
        (row,) = [row for row in csv.DictReader(file) if row["id"] == problem]
    return [float(found) for found in re.findall(r"\d+(?:\.\d+)?", row["exact_answer"])], float(row["tolerance"])


def milk(fat, solids_not_fat=None):
    """A milk or cream with this fat content, all of it milk fat."""
    stated = {"fat_g": float(fat), "milk_fat_g": float(fat)}
    if solids_not_fat is not None:
        stated["milk_solids_not_fat_g"] = solids_not_fat
    return food_with(None, name=f"{fat} % milk", stated=stated)


def test_cream_thinned_with_skimmed_milk():
    """WE1: how much skimmed milk of 0 % must be added to 160 kg of 40 % cream for 32 %?"""
    (skim,), tolerance = answer("WE1")
    mixture = mixed([mixture_of(milk(40), 160.0), mixture_of(milk(0), skim)])
    assert mixture.percent("milk_fat_g") == pytest.approx(32, abs=tolerance)
    assert mixture.mass_g == 200


def test_cream_of_two_strengths():
    """WE2: 170 lb of 30 % from cream of 39 % and milk of 6 %."""
    (cream, plain), tolerance = answer("WE2")
    mixture = mixed([mixture_of(milk(39), cream), mixture_of(milk(6), plain)])
    assert mixture.mass_g == 170
    assert mixture.percent("fat_g") == pytest.approx(30, abs=30 * tolerance)
    assert 39 * cream + 6 * plain == pytest.approx(100 * mixture.amount("fat_g"))


def test_milk_enriched_with_cream():
    """WE3: 30 % cream added to 500 lb of 3 % milk gives 5 % in the ratio of 2 to 25: 40 lb."""
    mixture = mixed([mixture_of(milk(30), 500 * 2 / 25), mixture_of(milk(3), 500)])
    assert mixture.percent("fat_g") == pytest.approx(5, abs=0.01)


def test_cream_thinned_with_milk():
    """WE4: 3 1/3 parts of 4 % milk thin one part of 30 % cream to 10 %."""
    (parts,), tolerance = answer("WE4")
    mixture = mixed([mixture_of(milk(30), 100), mixture_of(milk(4), 100 * parts)])
    assert mixture.percent("fat_g") == pytest.approx(10, abs=10 * tolerance)


def test_a_mix_with_condensed_milk_balances_fat_solids_and_sugar():
    """WE6: 100 kg with 14 % fat, 10 % milk solids not fat, 15 % sucrose; the serum of milk contains 9 % solids."""
    (condensed, sugar, cream, plain), tolerance = answer("WE6")
    sweetened = food_with(
        None,
        name="condensed skimmed milk",
        stated={"fat_g": 0.0, "milk_fat_g": 0.0, "milk_solids_not_fat_g": 28.0, "sucrose_g": 40.0},
    )
    mixture = mixed(
        [
            mixture_of(milk(32, 0.09 * 68), cream),
            mixture_of(milk(3.5, 0.09 * 96.5), plain),
            mixture_of(sweetened, condensed),
            mixture_of(food("sugar_granulated"), sugar),
        ]
    )
    assert mixture.at_least("milk_fat_g") == pytest.approx(14, abs=tolerance)
    assert mixture.at_least("milk_solids_not_fat_g") == pytest.approx(10, abs=tolerance)
    # The table prints 99.80 of sucrose for granulated sugar; the book counts 100.
    assert mixture.at_least("sucrose_g") == pytest.approx(15 - 0.002 * sugar, abs=tolerance)
    assert mixture.amount("sucrose_g") is None
    assert mixture.missing["sucrose_g"] == ("32 % milk", "3.5 % milk")


def test_energy_of_butter_and_of_sugar():
    """The factors 4, 9, 4 on the printed contents give 734 kcal for butter, 400 for sugar; 17, 37, 17 give kJ."""
    butter = energy(mixture_of(food("butter_unsalted"), 100))
    assert butter == pytest.approx((4 * 0.85 + 9 * 81.11 + 4 * 0.06, 17 * 0.85 + 37 * 81.11 + 17 * 0.06))
    assert round(butter[0]) == 734
    assert round(energy(mixture_of(food("sugar_granulated"), 100))[0]) == 400


def test_fibre_and_alcohol_have_factors_of_their_own():
    """eu-1169-2011, Annex XIV: fibre 2 and 8, alcohol 7 and 29."""
    # 33.4 g of alcohol; USDA's own factor for alcohol is 6.93 and its energy 231.
    assert energy(mixture_of(food("rum_80_proof"), 100)) == pytest.approx((7 * 33.4, 29 * 33.4))
    cocoa = food("cocoa_powder_natural")
    assert energy(mixture_of(cocoa, 100))[0] == pytest.approx(4 * 19.6 + 9 * 13.7 + 4 * (57.9 - 37.0) + 2 * 37.0)


def test_energy_is_unknown_if_a_component_is():
    """USDA prints no fibre for canned coconut milk."""
    assert energy(mixture_of(food("coconut_milk_canned"), 100)) is None


def test_salt_is_two_and_a_half_times_the_sodium():
    """eu-1169-2011, Annex I. Table salt with 38.758 % sodium counts as 96.9 % salt; by formula it has 39.34 %."""
    assert salt_g(mixture_of(food("salt_table"), 100)) == pytest.approx((96.895, 96.895))
    assert salt_g(mixture_of(milk(4), 100))[0] < salt_g(mixture_of(milk(4), 100))[1]


def test_only_water_boils_off():
    boiled = mixture_of(food("milk_whole"), 1000).without_water(400)
    assert boiled.mass_g == 600
    assert boiled.percent("fat_g") == pytest.approx(3.25 / 0.6)
    assert boiled.amount("water_g") == pytest.approx(481.3)


def test_more_water_than_there_is_cannot_boil_off():
    with pytest.raises(InputError) as caught:
        mixture_of(food("butter_unsalted"), 100).without_water(18)
    assert caught.value.problem == "18 g of water cannot boil off: there is only 17.94 g"
    assert caught.value.remedy == "reduce the loss, or add the liquid in an earlier step"


def test_nothing_has_no_percentages():
    assert mixed([]) == NOTHING
    assert NOTHING.percent("fat_g") is None
    assert mixed([NOTHING, mixture_of(food("chocolate_milk"), 0)]).missing == {}


def test_a_missing_content_stays_missing_and_is_listed_once():
    """USDA prints no milk fat for milk chocolate, so it stays unknown in any mixture."""
    parts = [mixture_of(food(key), 50) for key in ("chocolate_milk", "cream_heavy_whipping", "chocolate_milk")]
    mixture = mixed(parts).times(3).without_water(5) + mixture_of(food("butter_salted"), 10)
    assert mixture.amount("milk_fat_g") is None
    assert mixture.percent("milk_fat_g") is None
    assert mixture.missing["milk_fat_g"] == ("milk chocolate",)
    assert mixture.at_least("milk_fat_g") == pytest.approx(3 * 0.5 * 36.08 + 0.1 * 81.11)


def test_a_mixture_scaled_to_zero_leaves_no_gap():
    nothing = mixture_of(food("chocolate_milk"), 50).times(0)
    assert "milk_fat_g" not in mixed([nothing, mixture_of(food("cream_heavy_whipping"), 50)]).missing


def test_an_ingredient_is_listed_by_its_name_in_the_recipe():
    assert mixture_of(food("chocolate_milk"), 1, "the good bar").missing["milk_fat_g"] == ("the good bar",)


ANY_FOOD = st.sampled_from(sorted(foods()))
ANY_MASS = st.floats(0.01, 10_000)
ANY_PARTS = st.lists(st.tuples(ANY_FOOD, ANY_MASS), min_size=1, max_size=12)


@given(ANY_PARTS)
def test_mass_is_conserved_component_by_component(parts):
    mixture = mixed([mixture_of(food(key), mass) for key, mass in parts])
    assert mixture.mass_g == pytest.approx(sum(mass for _, mass in parts))
    for component in COMPONENTS:
        contents = [food(key).content(component) for key, _ in parts]
        known = sum((content or 0.0) * mass / 100 for content, (_, mass) in zip(contents, parts, strict=True))
        ranges = [(range_of(food(key), component), mass / 100) for key, mass in parts]
        for content, ((low, high), _) in zip(contents, ranges, strict=True):
            assert low == high == content or (content is None and low <= high)
        least = sum(low * per_g for (low, _), per_g in ranges)
        assert mixture.at_least(component) == pytest.approx(least, rel=1e-12, abs=1e-9)
        assert mixture.at_least(component) >= known - 1e-9
        most = sum(high * per_g for (_, high), per_g in ranges)
        assert mixture.at_most(component) == pytest.approx(most, rel=1e-12, abs=1e-9)
        assert (component in mixture.missing) is any(low < high for (low, high), _ in ranges)


@given(ANY_PARTS, st.randoms(use_true_random=False))
def test_the_order_and_the_grouping_do_not_matter(parts, order):
    mixtures = [mixture_of(food(key), mass) for key, mass in parts]
    shuffled = order.sample(mixtures, len(mixtures))
    half = len(shuffled) // 2
    straight, shuffled_mixture = mixed(mixtures), mixed(shuffled[:half]) + mixed(shuffled[half:])
    assert shuffled_mixture.known == pytest.approx(straight.known)
    assert {component: set(names) for component, names in shuffled_mixture.missing.items()} == {
        component: set(names) for component, names in straight.missing.items()
    }


@given(ANY_PARTS, st.floats(0.01, 100))
def test_scaling_leaves_the_percentages_alone(parts, factor):
    mixture = mixed([mixture_of(food(key), mass) for key, mass in parts])
    for component in COMPONENTS:
        percent = mixture.percent(component)
        scaled = mixture.times(factor).percent(component)
        assert (percent is None and scaled is None) or scaled == pytest.approx(percent)


WHOLLY_KNOWN = sorted(
    key for key, kind in foods().items() if None not in [kind.content(component) for component in PROXIMATES]
)


def test_a_stated_composition_of_a_kind_with_unknown_ash_is_not_guessed():
    """Half-fat crème fraîche: the British table does not print all of its minerals."""
    own = food_with(food("creme_fraiche_half"), name="own", stated={"fat_g": 20.0})
    assert own.content("fat_g") == 20.0
    assert [own.content(component) for component in ("water_g", "carbohydrate_g", "ash_g")] == [None, None, None]
    assert len(WHOLLY_KNOWN) > 400


@given(
    st.sampled_from(WHOLLY_KNOWN),
    st.dictionaries(st.sampled_from(PROXIMATES), st.floats(0, 40), min_size=1, max_size=2),
)
def test_a_stated_composition_keeps_its_total(key, stated):
    """Mass balance: stated contents are kept; the rest keeps its ratios and fills the kind's total."""
    base = food(key)
    before = {component: base.content(component) for component in PROXIMATES}
    if sum(before[component] for component in PROXIMATES if component not in stated) < 1e-6:
        return  # nothing is left to fill the total; refused in test_stated_composition.py
    own = food_with(base, name="own", stated=stated)
    after = {component: own.content(component) for component in PROXIMATES}
    assert {component: after[component] for component in stated} == stated
    assert sum(after.values()) == pytest.approx(max(sum(before.values()), sum(stated.values())), abs=0.051)
    others = [component for component in PROXIMATES if component not in stated]
    for first, second in itertools.pairwise(others):
        assert after[first] * before[second] == pytest.approx(after[second] * before[first], abs=1e-6)
