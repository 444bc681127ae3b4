"""foods/stated_composition.py: mass balances worked by hand, and contents that contradict each other."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import COMPONENTS, PROXIMATES
from crumbcoat_calc.foods.stated_composition import FOLLOWS, PARTS, contents_with
from crumbcoat_calc.foods.table import food


def stated(key, **contents):
    base = food(key).per_100g if key else None
    return dict(zip(COMPONENTS, contents_with(base, contents), strict=True))


def test_every_component_is_fixed_by_one_rule():
    parts = [part for each in PARTS.values() for part in each]
    ruled = [*PROXIMATES, *parts, *FOLLOWS, "milk_solids_not_fat_g"]
    assert sorted(ruled) == sorted(COMPONENTS)


def test_stating_nothing_changes_nothing():
    for key in ("butter_unsalted", "coconut_milk_canned", "milk_condensed_sweetened", "butter_oil_anhydrous"):
        before = dict(zip(COMPONENTS, food(key).per_100g, strict=True))
        assert stated(key, iron_mg=1.0) == {**before, "iron_mg": 1.0}, key


def test_what_is_stated_is_kept_and_the_rest_is_scaled():
    """35 % cream from heavy cream: the rest is 65 instead of the printed 63.92, so each part grows by 65/63.92."""
    cream = stated("cream_heavy_whipping", fat_g=35.0)
    assert cream["water_g"] == pytest.approx(57.81 * 65 / 63.92)
    assert cream["protein_g"] == pytest.approx(2.84 * 65 / 63.92)
    assert cream["milk_protein_g"] == pytest.approx(cream["protein_g"])
    assert cream["lactose_g"] == pytest.approx(2.92 * 65 / 63.92)
    assert cream["saturated_fat_g"] == pytest.approx(23.032 * 35 / 36.08)
    assert cream["cholesterol_mg"] == pytest.approx(113 * 35 / 36.08)
    assert cream["calcium_mg"] == pytest.approx(66 * 65 / 63.92)
    assert cream["milk_solids_not_fat_g"] == pytest.approx(6.11 * 65 / 63.92)
    assert sum(cream[component] for component in PROXIMATES) == pytest.approx(100)


def test_milk_solids_follow_protein_and_lactose_of_a_pure_dairy_food():
    """Milk of 4 % protein: milk solids not fat are still protein, carbohydrate and ash."""
    milk = stated("milk_whole", protein_g=4.0)
    assert milk["milk_protein_g"] == 4.0
    assert milk["milk_solids_not_fat_g"] == pytest.approx(milk["protein_g"] + milk["carbohydrate_g"] + milk["ash_g"])


def test_milk_solids_next_to_added_sugar_are_scaled_or_unknown():
    """Condensed milk: less fat keeps the ratio of milk to sugar; a different sugar content does not."""
    factor = 92 / (100 - 8.70)
    assert stated("milk_condensed_sweetened", fat_g=8.0)["milk_solids_not_fat_g"] == pytest.approx(21.40 * factor)
    assert stated("milk_condensed_sweetened", sucrose_g=40.0)["milk_solids_not_fat_g"] is None


def test_the_parts_that_are_not_stated_share_what_is_left():
    """Powdered sugar with 3 % starch, as is usual in the trade: of 99.77 carbohydrate, 96.77 is left for the sugars."""
    sugar = stated("sugar_powdered", starch_g=3.0)
    assert sugar["sugars_g"] == pytest.approx(97.81 * 96.77 / (99.77 - 1.26))
    assert sugar["sucrose_g"] == pytest.approx(sugar["sugars_g"])
    assert sugar["added_sugars_g"] == pytest.approx(sugar["sugars_g"])
    assert sugar["water_g"] == 0.23


def test_a_content_unknown_for_the_kind_stays_unknown():
    coconut = stated("coconut_milk_canned", fat_g=24.0)
    assert coconut["sugars_g"] is None
    assert coconut["fibre_g"] is None
    assert coconut["milk_fat_g"] == 0.0


def test_a_fully_stated_composition_needs_no_kind():
    """40 and 60 make 100: there is nothing else, so every other content is zero."""
    emulsion = stated(None, fat_g=40.0, water_g=60.0)
    for component in ("protein_g", "carbohydrate_g", "ash_g", "alcohol_g", "sugars_g", "lactose_g", "sodium_mg"):
        assert emulsion[component] == 0.0, component
    assert emulsion["milk_solids_not_fat_g"] == 0.0
    assert emulsion["milk_fat_g"] is None
    assert emulsion["saturated_fat_g"] is None


def test_a_partly_stated_composition_leaves_the_rest_unknown():
    syrup = stated(None, sugars_g=67.0, sucrose_g=66.0)
    assert {component for component, content in syrup.items() if content is not None} == {"sugars_g", "sucrose_g"}


def test_a_part_that_fills_its_total_leaves_nothing_for_the_others():
    syrup = stated(None, sugars_g=67.0, sucrose_g=67.0)
    assert (syrup["glucose_g"], syrup["lactose_g"], syrup["starch_g"]) == (0.0, 0.0, None)


def test_fat_alone_may_fill_a_kind_whose_printed_parts_fall_short():
    """Coconut oil prints 99.12 in total; a refined oil with 100 % fat is still possible."""
    oil = stated("coconut_oil", fat_g=100.0)
    assert oil["fat_g"] == 100.0
    assert oil["water_g"] == 0.0


@pytest.mark.parametrize(
    ("key", "contents", "path", "problem", "remedy"),
    [
        pytest.param(
            "butter_unsalted", {"fat_g": 90.0, "water_g": 20.0}, "fat",
            "water and fat add up to 110 g per 100 g", "lower them to 100 g or less in total", id="above 100",
        ),
        pytest.param(
            None, {"fat_g": 60.0, "protein_g": 50.0}, "fat",
            "protein and fat add up to 110 g per 100 g", "100 g or less", id="above 100 without a kind",
        ),
        pytest.param(
            "glucose_anhydrous", {"carbohydrate_g": 60.0}, "carbohydrate",
            "the stated contents add up to only 60 g, and nothing fills the rest of 100 g", "state the rest too",
            id="no rest",
        ),
        pytest.param(
            "butter_unsalted", {"milk_fat_g": 84.0}, "milk_fat",
            "milk_fat: 84 g is more than the 81.11 g of fat", "reduce `milk_fat`, or state `fat` too",
            id="milk fat above fat",
        ),
        pytest.param(
            "milk_whole", {"sugars_g": 30.0}, "sugars",
            "sugars: 30 g is more than the 4.8 g of carbohydrate", "state `carbohydrate` too", id="sugars",
        ),
        pytest.param(
            "sugar_granulated", {"sucrose_g": 60.0, "fructose_g": 50.0}, "fructose",
            "sucrose and fructose: 110 g is more than the 99.8 g of sugars", "state `sugars` too", id="two sugars",
        ),
        pytest.param(
            "butter_unsalted", {"sodium_mg": 600.0}, "sodium",
            "sodium: 0.6 g is more than the 0.09 g of ash", "state `ash` too", id="salt without ash",
        ),
        pytest.param(
            "butter_unsalted", {"milk_solids_not_fat_g": 5.0}, "milk_solids_not_fat",
            "milk_solids_not_fat is 5 g, but water and fat leave only 0.95 g",
            "reduce `milk_solids_not_fat`, or state `water` and `fat` too", id="solids",
        ),
        pytest.param(
            None, {"saturated_fat_g": 30.0, "fat_g": 20.0}, "saturated_fat",
            "saturated_fat: 30 g is more than the 20 g of fat", "state `fat` too", id="a part without a kind",
        ),
    ],
)  # fmt: skip
def test_contradicting_contents_are_refused_at_their_field(key, contents, path, problem, remedy):
    with pytest.raises(InputError) as caught:
        stated(key, **contents)
    assert caught.value.path == (path,)
    assert problem in caught.value.problem
    assert remedy in caught.value.remedy


def test_sugars_of_milk_may_exceed_its_carbohydrate_by_as_much_as_printed():
    """usda-sr28 prints 5.05 of sugars and 4.80 of carbohydrate; stating the printed figure is not an error."""
    assert stated("milk_whole", sugars_g=5.05)["sugars_g"] == 5.05
