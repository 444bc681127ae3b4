"""Labels of composite foods, computed from public data and compared with the public figures of the whole."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.composition import mixed, mixture_of
from crumbcoat_calc.foods.table import food, foods
from crumbcoat_calc.label.eu import eu_label
from crumbcoat_calc.label.information import nutrition_information
from crumbcoat_calc.label.nutrients import label_lines
from crumbcoat_calc.label.us import Serving, serving_of, us_label
from hypothesis import given
from hypothesis import strategies as st

CUP = Serving(words="1 cup", mass_g=244)


def _shown(label_lines):
    return {line.nutrient.key: line.text for line in label_lines}


def _per_100g(regime, *parts):
    mixture = mixed([mixture_of(food(key), mass_g) for key, mass_g in parts])
    return {line.nutrient.key: line.amount for line in label_lines(regime, mixture, 100)}


def _mix(high, low, target, component="fat_g"):
    """Parts of two foods that give the wanted content, by the Pearson square."""
    above, below = food(high).content(component), food(low).content(component)
    return (high, target - below), (low, above - target)


# Source of the figures compared: usda-sr28. Whole milk and skim milk are mixed to the fat of the row named; the row is
# an analysis of its own (reduced-fat milk is fortified and partly skimmed), so nutrients agree within the tolerance
# stated: 5 % of the figure, and 0.1 g, 1 mg of what is small.
MILKS = [("milk_2pct", "milk_whole", "milk_skim"), ("milk_1pct", "milk_whole", "milk_skim")]
TOLERANCE = {
    "energy": 2.0, "fat": 1e-9, "saturated_fat": 0.15, "carbohydrate": 0.2, "sugars": 0.15, "protein": 0.12,
    "sodium": 5, "cholesterol": 1.5, "calcium": 6, "potassium": 12, "iron": 0.02, "vitamin_d": 0.15,
}  # fmt: skip


@pytest.mark.parametrize(("whole", "high", "low"), MILKS)
def test_mixed_milk_is_usdas_own_milk(whole, high, low):
    mixed_milk = _per_100g("us", *_mix(high, low, food(whole).content("fat_g")))
    analysed = _per_100g("us", (whole, 100))
    for key, tolerance in TOLERANCE.items():
        assert mixed_milk[key] == pytest.approx(analysed[key], abs=tolerance), key


def test_boiled_down_sweetened_milk_is_sweetened_condensed_milk():
    """usda-sr28: whole milk and sugar, boiled down to the fat, carbohydrate and water of USDA's own row.

    Those three are set; protein, energy and minerals follow and agree within 10 %. Cholesterol (34 against 27 mg) does
    not, since USDA's two rows differ in mg of it per g of fat, and is not compared.
    """
    condensed = food("milk_condensed_sweetened")
    milk_g = 100 * condensed.content("fat_g") / food("milk_whole").content("fat_g")
    milk = mixture_of(food("milk_whole"), milk_g)
    sugar_g = (condensed.content("carbohydrate_g") - milk.amount("carbohydrate_g")) / 0.9998
    together = mixed([milk, mixture_of(food("sugar_granulated"), sugar_g)])
    boiled = together.without_water(together.amount("water_g") - condensed.content("water_g"))
    assert boiled.mass_g == pytest.approx(100, abs=1)
    computed = {line.nutrient.key: line.amount for line in label_lines("us", boiled, 100)}
    analysed = _per_100g("us", ("milk_condensed_sweetened", 100))
    for key in ("energy", "fat", "saturated_fat", "carbohydrate", "protein", "sodium", "calcium", "potassium"):
        assert computed[key] == pytest.approx(analysed[key], rel=0.10), key


def test_butter_oil_water_and_salt_make_salted_butter():
    """usda-sr28: salted butter from milk fat, milk solids, water and salt; within 2 %."""
    fat = 81.11 / 0.9948
    salt = 643 / 387.58
    computed = _per_100g(
        "us",
        ("butter_oil_anhydrous", fat),
        ("salt_table", salt),
        ("milk_powder_skim", 1.8),
        ("water_tap", 100 - fat - salt - 1.8),
    )
    analysed = _per_100g("us", ("butter_salted", 100))
    for key in ("energy", "fat", "sodium", "saturated_fat"):
        assert computed[key] == pytest.approx(analysed[key], rel=0.02), key


def test_whole_us_label_of_a_composite_food_by_hand():
    """Butter 227 g, powdered sugar 340 g, heavy cream 30 g (the mixture of reference example WE13), worked by hand from
    usda-sr28: per 100 g fat (184.12 + 0 + 10.82 ...)/597; energy 4/4/9; then rounded by 21 CFR 101.9(c)."""
    parts = [("butter_salted", 227), ("sugar_powdered", 340), ("cream_heavy_whipping", 30)]
    mixture = mixed([mixture_of(food(key), mass_g) for key, mass_g in parts])
    label = us_label(mixture, Serving(words="2 tbsp", mass_g=28))
    fat_g = (
        2.27 * 81.11
        + 3.4 * food("sugar_powdered").content("fat_g")
        + 0.3 * food("cream_heavy_whipping").content("fat_g")
    )
    protein_g = 2.27 * 0.85 + 0.3 * food("cream_heavy_whipping").content("protein_g")
    carbohydrate_g = 2.27 * 0.06 + 3.4 * 99.77 + 0.3 * food("cream_heavy_whipping").content("carbohydrate_g")
    kcal = 28 / 597 * (4 * protein_g + 4 * carbohydrate_g + 9 * fat_g)
    by_key = {line.nutrient.key: line for line in label.per_serving}
    assert by_key["energy"].amount == pytest.approx(kcal, rel=1e-9)
    assert round(kcal, 1) == 146.6
    assert by_key["energy"].text == "150 kcal"
    assert round(28 / 597 * fat_g, 2) == 9.14
    assert (by_key["fat"].text, by_key["fat"].percent_text) == ("9 g", "12 %")  # 9.14 / 78 = 11.7 %
    assert (by_key["sodium"].text, by_key["sodium"].percent_text) == ("70 mg", "3 %")  # 69.2 mg of 2300
    assert by_key["protein"].text == "0 g"  # 0.13 g
    assert label.servings == pytest.approx(597 / 28)


def test_a_content_missing_from_an_ingredient_is_not_known_and_lists_it():
    mixture = mixed([mixture_of(food("oil_palm"), 100), mixture_of(food("sugar_granulated"), 100)])
    trans = next(line for line in us_label(mixture, CUP).per_100g if line.nutrient.key == "trans_fat")
    assert trans.text == "not known"
    assert trans.amount is None
    assert food("oil_palm").name in trans.missing
    assert trans.percent_text == ""


def test_energy_that_leans_on_the_unknown_says_so():
    """usda-sr28 gives no fibre for canned coconut milk. The EU energy needs it, the US general factors do not.

    By hand, at most all of its 2.81 g of carbohydrate is fibre: 2.81 x 9 = 25 kJ and 2.81 x 2 =
    6 kcal less than without any.
    """
    mixture = mixture_of(food("coconut_milk_canned"), 100)
    energies = eu_label(mixture).per_100g[:2]
    assert [line.text for line in energies] == ["846 to 871 kJ", "206 to 211 kcal"]
    assert [line.amount for line in energies] == [None, None]
    assert energies[0].missing == (food("coconut_milk_canned").name,)


def test_eu_energy_of_sugar_comes_from_grams_and_not_from_kilocalories():
    """eu-1169-2011 Annex XIV: 17 kJ and 4 kcal a gram; 4 kcal times 4.184 would be 1673 kJ."""
    shown = eu_label(mixture_of(food("sugar_granulated"), 100)).per_100g
    assert [line.text for line in shown[:2]] == ["1700 kJ", "400 kcal"]  # 99.98 g: 1699.7 and 399.9


def test_eu_salt_is_sodium_times_two_and_a_half():
    """eu-1169-2011 Annex I; salted butter has 643 mg sodium: 1.6075 g salt."""
    assert _shown(eu_label(mixture_of(food("butter_salted"), 50)).per_100g)["salt"] == "1.6 g"


def test_eu_carbohydrate_is_without_fibre():
    """usda-sr28 cocoa: carbohydrate by difference 57.90, fibre 37.0."""
    shown = _shown(eu_label(mixture_of(food("cocoa_powder_natural"), 50)).per_100g)
    assert (shown["carbohydrate"], shown["fibre"]) == ("21 g", "37 g")
    us = _shown(us_label(mixture_of(food("cocoa_powder_natural"), 50), CUP).per_100g)
    assert us["carbohydrate"] == "58 g"


def test_portion_of_the_eu_label_is_rounded_from_its_own_amounts():
    label = eu_label(mixture_of(food("butter_salted"), 500), portion_g=10)
    assert _shown(label.per_portion)["salt"] == "0.16 g"  # not a tenth of the rounded 1.6
    assert eu_label(mixture_of(food("butter_salted"), 500)).per_portion == ()


def test_serving_by_reference_amount():
    """21 CFR 101.12(b), from memory: 2 tbsp; 101.9(b)(5)(viii): a tablespoon is 15 mL. 30 mL at 0.9 g/mL are 27 g."""
    serving = serving_of(0.9)
    assert serving.mass_g == pytest.approx(27.0)
    assert serving.text == "2 tbsp (27 g)"


@pytest.mark.parametrize("density", [0.0, 0.01, 5.0])
def test_absurd_density(density):
    with pytest.raises(InputError) as caught:
        serving_of(density)
    assert caught.value.path == ("density",)


@pytest.mark.parametrize("mass_g", [0.0, -3.0])
def test_nothing_to_declare(mass_g):
    with pytest.raises(InputError):
        eu_label(mixture_of(food("milk_whole"), 100), portion_g=mass_g)
    with pytest.raises(InputError):
        us_label(mixed([]), CUP)


@given(st.sampled_from(sorted(foods())), st.floats(1, 10000), st.floats(0.01, 100))
def test_a_larger_batch_has_the_same_label(key, mass_g, factor):
    one = us_label(mixture_of(food(key), mass_g), CUP)
    other = us_label(mixture_of(food(key), mass_g * factor), CUP)
    for line, again in zip(one.per_serving, other.per_serving, strict=True):
        assert again.amount == (None if line.amount is None else pytest.approx(line.amount, rel=1e-9))


def test_every_food_has_labels():
    for one in foods().values():
        assert len(us_label(mixture_of(one, 100), CUP).per_100g) == 15
        assert len(eu_label(mixture_of(one, 100)).per_100g) == 9


def test_nutrition_information_leaves_out_what_is_not_known():
    found = nutrition_information(us_label(mixture_of(food("butter_unsalted"), 500), CUP))
    assert found["@type"] == "NutritionInformation"
    assert "transFatContent" not in found
    assert found["carbohydrateContent"] == "0 g"
    # schema-org release 30.0: the properties of NutritionInformation.
    assert set(found) <= {
        "@type", "servingSize", "calories", "carbohydrateContent", "cholesterolContent", "fatContent", "fiberContent",
        "proteinContent", "saturatedFatContent", "sodiumContent", "sugarContent", "transFatContent",
        "unsaturatedFatContent",
    }  # fmt: skip
