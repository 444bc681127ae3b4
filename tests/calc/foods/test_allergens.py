"""foods/allergens.py against the lists in the laws: not assessed, none, and known are three different things."""

import pytest
from crumbcoat_calc.foods.allergens import allergen_assessment, regimes
from crumbcoat_calc.foods.table import food, food_with, foods


def test_the_nine_in_the_order_of_the_law_and_sulfites():
    """falcpa-2004 with faster-2021; sulfites from 10 ppm: 21 CFR 101.100(a)(4) and 130.9."""
    assert regimes()["US"] == (
        "milk", "eggs", "fish", "Crustacean shellfish", "tree nuts", "wheat", "peanuts", "soybeans", "sesame",
        "sulfites",
    )  # fmt: skip


def test_the_fourteen_in_the_order_of_the_law():
    """eu-1169-2011, Annex II."""
    assert regimes()["EU"] == (
        "cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk (including lactose)",
        "nuts", "celery", "mustard", "sesame seeds", "sulphur dioxide and sulphites", "lupin", "molluscs",
    )  # fmt: skip


@pytest.mark.parametrize("regime", ["US", "EU"])
def test_every_food_is_either_assessed_or_says_what_is_in_doubt(regime):
    for kind in foods().values():
        found = allergen_assessment(kind, regime)
        assert found is not None, kind.key
        assert set(found.known) <= set(regimes()[regime]), kind.key


@pytest.mark.parametrize(
    ("key", "us", "eu"),
    [
        ("milk_whole", ("milk",), ("milk (including lactose)",)),
        ("lactose_monohydrate", ("milk",), ("milk (including lactose)",)),
        ("egg_yolk_frozen_sugared_pasteurized", ("eggs",), ("eggs",)),
        ("flour_cake", ("wheat",), ("cereals containing gluten",)),
        ("malt_syrup", (), ("cereals containing gluten",)),
        ("soy_lecithin", ("soybeans",), ("soybeans",)),
        ("pistachio_raw", ("tree nuts",), ("nuts",)),
        ("peanut_butter_smooth_salted", ("peanuts",), ("peanuts",)),
        ("sugar_granulated", (), ()),
        ("coconut_oil", (), ()),
        ("tahini", ("sesame",), ("sesame seeds",)),
        ("pine_nut", ("tree nuts",), ()),
        ("apricot_dried", ("sulfites",), ("sulphur dioxide and sulphites",)),
        ("flour_uk_plain", ("wheat",), ("cereals containing gluten",)),
        ("barley_malt_flour", (), ("cereals containing gluten",)),
        ("peanut_flour", ("peanuts",), ("peanuts",)),
    ],
)
def test_allergens_that_a_food_naturally_contains(key, us, eu):
    """falcpa-2004; eu-1169-2011, Annex II."""
    for regime, held in (("US", us), ("EU", eu)):
        found = allergen_assessment(food(key), regime)
        assert (tuple(found.known), found.doubt) == (held, "")


@pytest.mark.parametrize("regime", ["US", "EU"])
@pytest.mark.parametrize("key", ["chocolate_milk", "gelatin_powder"])
def test_a_food_that_differs_by_maker_is_in_doubt(key, regime):
    assert allergen_assessment(food(key), regime).doubt


MILK_BESIDE_DAIRY = {
    "butterscotch_topping", "caramels_soft", "chocolate_milk", "chocolate_milk_eu", "chocolate_spread",
    "chocolate_syrup_fudge", "chocolate_white", "chocolate_white_eu", "confectioners_coating_yogurt", "fat_spread_60",
    "lactose_monohydrate", "puff_pastry_butter", "shortcrust_butter", "toffee",
}  # fmt: skip
EGG_BESIDE_EGGS = {"ladyfinger", "lemon_curd", "macaron_shell", "marshmallow_cream", "meringue"}


@pytest.mark.parametrize("regime", ["US", "EU"])
def test_whole_groups_contain_their_allergen(regime):
    milk = {"US": "milk", "EU": "milk (including lactose)"}[regime]
    for kind in foods().values():
        known = allergen_assessment(kind, regime).known
        assert (milk in known) == (kind.group == "dairy" or kind.key in MILK_BESIDE_DAIRY), kind.key
        assert ("eggs" in known) == (kind.group == "egg" or kind.key in EGG_BESIDE_EGGS), kind.key
        # Milk protein in the composition and milk among the allergens must not contradict each other.
        if (kind.content("milk_protein_g") or 0) > 0 or (kind.content("milk_fat_g") or 0) > 0:
            assert milk in known, kind.key


def test_a_nut_is_named_by_its_kind():
    """Both laws require the name of the nut."""
    assert allergen_assessment(food("almond_paste"), "US").known == {"tree nuts": "almond"}
    assert allergen_assessment(food("hazelnut"), "EU").known == {"nuts": "hazelnut"}


def test_a_compound_product_has_known_allergens_and_a_doubt():
    chocolate = allergen_assessment(food("chocolate_milk"), "EU")
    assert chocolate.known == {"milk (including lactose)": "milk"}
    assert chocolate.doubt == "a compound product: its other ingredients differ, read the pack"


def test_a_stated_composition_keeps_the_allergens_of_its_kind():
    butter = food_with(food("butter_unsalted"), name="butter, 84 % fat", stated={"fat_g": 84.0})
    found = allergen_assessment(butter, "US")
    assert (tuple(found.known), found.doubt) == (("milk",), "")


def test_a_stated_composition_without_a_kind_is_not_assessed():
    assert allergen_assessment(food_with(None, name="own", stated={"fat_g": 100.0}), "US") is None
