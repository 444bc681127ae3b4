"""foods/diets.py: certain or not known, and in step with the other tables."""

import pytest
from crumbcoat_calc.foods.allergens import allergen_assessment
from crumbcoat_calc.foods.diets import UNKNOWN_ORIGIN, origin_of
from crumbcoat_calc.foods.table import food, food_with, foods


def test_every_food_has_its_facts():
    for one in foods().values():
        assert origin_of(one) is not UNKNOWN_ORIGIN, one.key


@pytest.mark.parametrize(
    ("key", "of_animal_origin", "meat_or_fish", "gluten"),
    [
        ("milk_whole", True, False, False),
        ("honey", True, False, False),
        ("gelatin_powder", True, True, False),
        ("lard", True, True, False),
        ("flour_all_purpose_unbleached", False, False, True),
        ("malt_syrup", False, False, True),
        ("sugar_granulated", False, False, False),
        ("sugar_powdered", False, False, None),
        ("cream_cheese", True, None, None),
        ("margarine_stick_salted", None, None, False),
    ],
)
def test_certain_or_not_known(key, of_animal_origin, meat_or_fish, gluten):
    """Definition of the foods, as the notes in diets.csv say."""
    found = origin_of(food(key))
    assert (found.of_animal_origin, found.meat_or_fish, found.gluten) == (of_animal_origin, meat_or_fish, gluten)


def test_meat_is_of_animal_origin():
    for one in foods().values():
        assert not (origin_of(one).meat_or_fish and origin_of(one).of_animal_origin is not True), one.key


def test_the_tables_do_not_contradict_each_other():
    for one in foods().values():
        found, known = origin_of(one), allergen_assessment(one, "EU").known
        if {"milk (including lactose)", "eggs"} & known.keys() or one.content("cholesterol_mg") > 10:
            assert found.of_animal_origin is True, one.key
        if "cereals containing gluten" in known:
            assert found.gluten is not False, one.key
        if found.gluten:
            assert "cereals containing gluten" in known, one.key
        if found.of_animal_origin is False:
            assert one.content("cholesterol_mg") < 5, one.key  # plant fats are printed with up to 2 mg
            assert one.content("milk_protein_g") == 0, one.key


def test_nothing_is_certain_of_a_composition_of_ones_own():
    assert origin_of(food_with(None, name="own", stated={"fat_g": 100.0})) == UNKNOWN_ORIGIN
