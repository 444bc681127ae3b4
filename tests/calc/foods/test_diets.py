"""foods/diets.py: certain or unknown, and consistent with the other tables."""

import pytest
from crumbcoat_calc.foods.allergens import allergen_assessment
from crumbcoat_calc.foods.diets import UNKNOWN_ORIGIN, origin_of
from crumbcoat_calc.foods.table import food, food_with, foods


def test_every_food_has_an_origin():
    for kind in foods().values():
        assert origin_of(kind) is not UNKNOWN_ORIGIN, kind.key


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
def test_certain_or_unknown(key, of_animal_origin, meat_or_fish, gluten):
    """Definition of the foods, as the notes in diets.csv say."""
    found = origin_of(food(key))
    assert (found.of_animal_origin, found.meat_or_fish, found.gluten) == (of_animal_origin, meat_or_fish, gluten)


def test_meat_is_of_animal_origin():
    for kind in foods().values():
        assert not (origin_of(kind).meat_or_fish and origin_of(kind).of_animal_origin is not True), kind.key


def test_the_tables_do_not_contradict_each_other():
    for kind in foods().values():
        found, known = origin_of(kind), allergen_assessment(kind, "EU").known
        if {"milk (including lactose)", "eggs"} & known.keys() or (kind.content("cholesterol_mg") or 0) > 10:
            assert found.of_animal_origin is True, kind.key
        if "cereals containing gluten" in known:
            assert found.gluten is not False, kind.key
        if found.gluten:
            assert "cereals containing gluten" in known, kind.key
        if found.of_animal_origin is False:
            assert (kind.content("cholesterol_mg") or 0) < 5, kind.key  # plant fats are printed with up to 2 mg
            assert kind.content("milk_protein_g") == 0, kind.key


def test_nothing_is_certain_for_a_stated_composition():
    assert origin_of(food_with(None, name="own", stated={"fat_g": 100.0})) == UNKNOWN_ORIGIN
