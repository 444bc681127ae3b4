"""Protein and energy as EU law counts them, by hand from the tables and the Annexes."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.label.batch_label import label_of
from crumbcoat_calc.label.eu import eu_label
from crumbcoat_calc.label.eu_conversions import eu_conversions, nitrogen_factor
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from


def _batch(**kinds):
    ingredients = {
        key: {"kind": key, "amount": f"{of} g"} if isinstance(of, int | float) else of for key, of in kinds.items()
    }
    fields = {
        "title": "Test", "summary": "For a test.", "author": "the tests", "family": "other",
        "yield": {"portions": "1", "of": "bowl"}, "ingredients": ingredients,
        "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": [*ingredients]}]}],
    }  # fmt: skip
    return batch_of(recipe_from(fields))


def _amounts(batch):
    return {line.nutrient.key: line.amount for line in label_of(batch, None).eu.per_100g}


@pytest.mark.parametrize(
    ("kind", "factor"),
    [
        # Merrill & Watt 1973 (Jones), as restated by FAO.
        ("milk_powder_skim", 6.38), ("butter_unsalted", 6.38), ("gelatin_powder", 5.55), ("flour_uk_plain", 5.70),
        ("almond_whole", 5.18), ("hazelnut", 5.30), ("peanut_roasted", 5.46), ("soy_milk_unsweetened", 5.71),
        ("egg_whole_raw", 6.25), ("cornstarch", 6.25),
    ],
)  # fmt: skip
def test_the_factor_that_a_table_of_foods_used(kind, factor):
    assert nitrogen_factor(food(kind)) == factor


@pytest.mark.parametrize(
    ("kind", "factor"), [("milk_powder_skim", 6.38), ("gelatin_powder", 5.55), ("flour_t55", 5.70)]
)
def test_protein_is_nitrogen_times_six_and_a_quarter(kind, factor):
    """Regulation (EU) No 1169/2011, Annex I(10), for every food, milk and gelatine included."""
    nitrogen_g = food(kind).content("protein_g") / factor
    assert _amounts(_batch(**{kind: 100}))["protein"] == pytest.approx(6.25 * nitrogen_g)


def test_citric_acid_has_three_kilocalories_and_thirteen_kilojoules():
    """Annex XIV: organic acids 13 kJ and 3 kcal in 1 g, other carbohydrate 17 and 4."""
    amounts = _amounts(_batch(citric_acid=50, sugar_granulated=50))
    sugar_g = food("sugar_granulated").content("carbohydrate_g") / 2
    assert amounts["energy"] == pytest.approx(3 * 50 + 4 * sugar_g)
    assert amounts["energy_kj"] == pytest.approx(13 * 50 + 17 * sugar_g)


def test_the_acetic_acid_of_vinegar_is_no_longer_left_out():
    """5.2 g of it are in none of the contents of the table: 100 - 94.78 water - 0.04 - 0.02 (usda-sr28 02053)."""
    vinegar = food("vinegar_distilled")
    batch = _batch(vinegar_distilled=100)
    assert _amounts(batch)["energy"] - eu_label(batch.total).per_100g[1].amount == pytest.approx(3 * 5.2)
    assert 100 - sum(vinegar.content(part) for part in ("water_g", "carbohydrate_g", "ash_g")) == pytest.approx(
        5.2, abs=0.05
    )


def test_lemon_juice_loses_a_kilocalorie_for_each_gram_of_its_acid():
    """Penniston et al. 2008: 48.0 g of citric acid in 1 L of fresh lemon juice, which weighs 1.03 kg."""
    assert eu_conversions(_batch(lemon_juice=100))["energy_kcal"] == pytest.approx(-48.0 / 10.3, abs=0.1)


def test_what_a_pack_says_is_taken_as_it_is():
    pack = {"per": "100 g", "rules": "EU", "fat": "3.6 g", "carbohydrate": "4.8 g", "protein": "3.4 g"}
    milk = {"kind": "milk_whole", "name": "milk", "amount": "100 g", "pack": pack}
    assert eu_conversions(_batch(milk=milk))["protein_g"] == 0


def test_carbohydrate_is_never_below_its_sugars():
    """Whole milk of usda-sr28 (01077): 4.80 g of carbohydrate by difference, 5.05 g of sugars as assayed."""
    milk = food("milk_whole")
    assert milk.content("carbohydrate_g") < milk.content("sugars_g")
    amounts = _amounts(_batch(milk_whole=100))
    assert amounts["carbohydrate"] == amounts["sugars"] == milk.content("sugars_g")
    us = {line.nutrient.key: line.amount for line in label_of(_batch(milk_whole=100), None).us.per_100g}
    assert us["carbohydrate"] == us["sugars"]


@pytest.mark.parametrize(
    ("energy", "kcal", "kj"),
    [
        # 30 g fat, 5 g protein, 60 g carbohydrate, of which 45 maltitol: 9 x 30 + 4 x 5 + 4 x 15 + 2.4 x 45 = 458 kcal;
        # 37 x 30 + 17 x 5 + 17 x 15 + 10 x 45 = 1900 kJ. With erythritol, which has none: 350 kcal and 1450 kJ.
        ("458 kcal", 458, 1900),
        ("350 kcal", 350, 1450),
        (None, 458, 1900),
    ],
)
def test_the_polyols_of_a_pack_count_by_annex_xiv(energy, kcal, kj):
    """Regulation (EU) No 1169/2011, Annex XIV: polyols 2.4 kcal and 10 kJ per g, erythritol 0."""
    pack = {
        "per": "100 g", "rules": "EU", "fat": "30 g", "carbohydrate": "60 g", "sugars": "0 g", "polyols": "45 g",
        "fibre": "0 g", "protein": "5 g", **({"energy": energy} if energy else {}),
    }  # fmt: skip
    batch = _batch(chocolate={"name": "chocolate without sugar", "amount": "100 g", "pack": pack})
    more = eu_conversions(batch)
    assert more["energy_kcal"] == pytest.approx(kcal - (9 * 30 + 4 * 65))
    assert more["energy_kj"] == pytest.approx(kj - (37 * 30 + 17 * 65))
    if energy:  # Without it, alcohol could be in what the pack does not name.
        spans = [line.text.split()[:-1] for line in label_of(batch, None).eu.per_100g[:2]]
        assert all(int(span[0]) <= truth <= int(span[-1]) for span, truth in zip(spans, (kj, kcal), strict=True))
        assert all(int(span[-1]) < 1.1 * int(span[0]) for span in spans)


def test_a_pack_with_polyols_and_an_energy_without_them_is_asked_for_them():
    pack = {
        "per": "100 g",
        "rules": "EU",
        "fat": "30 g",
        "carbohydrate": "60 g",
        "protein": "5 g",
        "energy": "420 kcal",
    }
    with pytest.raises(InputError, match=r"add `polyols: …`"):
        _batch(chocolate={"name": "chocolate", "amount": "100 g", "pack": pack})
