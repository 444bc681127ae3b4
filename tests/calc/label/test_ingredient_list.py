"""Ingredient lists and marks of diet, case by case from the laws' wording, and by property tests."""

import re

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.allergens import allergen_words, regimes
from crumbcoat_calc.foods.table import food, food_with, foods
from crumbcoat_calc.label.ingredient_list import ListedIngredient, ingredient_list, listed_ingredients_of
from crumbcoat_calc.label.suitable import DIETS, claimed_diets, listed_origins
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.claims import CLAIMS, Claim
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given
from hypothesis import strategies as st


def _entry(key, mass_g, name=None, **more):
    return ListedIngredient(name=name or key.replace("_", " "), mass_g=mass_g, food=food(key), **more)


# eu-1169-2011: Art. 18 descending weight, Art. 21 and Annex II allergens set off, Annex VII part E compound
# ingredients; cfr-101-4 (a), (b)(2): the same in the US; falcpa-2004 and faster-2021 for the nine.
@pytest.mark.parametrize(
    ("entries", "regime", "shown", "contains"),
    [
        pytest.param(
            [_entry("sugar_granulated", 50, "sugar"), _entry("egg_white_raw", 120, "egg white")],
            "US", "EGG white, sugar", ("egg",), id="heaviest first, the word in the name set off",
        ),
        pytest.param(
            [_entry("cream_heavy_whipping", 100, "cream"), _entry("flour_all_purpose_bleached", 20, "flour")],
            "EU", "cream (MILK), flour (WHEAT)", ("wheat", "milk"), id="the allergen after a name that hides it",
        ),
        pytest.param(
            [_entry("cream_heavy_whipping", 100, "cream"), _entry("flour_all_purpose_bleached", 20, "flour")],
            "US", "cream (MILK), flour (WHEAT)", ("milk", "wheat"), id="the order of the US law",
        ),
        pytest.param(
            [_entry("malt_syrup", 100, "malt syrup")], "EU", "malt syrup (BARLEY)", ("barley",), id="barley in the EU",
        ),
        pytest.param([_entry("malt_syrup", 100, "malt syrup")], "US", "malt syrup", (), id="barley is not of the nine"),
        pytest.param(
            [_entry("coconut_oil", 100, "coconut oil")], "US", "coconut oil", (), id="coconut is not a tree nut",
        ),
        pytest.param(
            [_entry("hazelnut", 30, "toasted hazelnuts")],
            "US", "toasted HAZELNUTS", ("hazelnut",), id="the nut is named",
        ),
        pytest.param(
            [_entry("butter_unsalted", 10, "butter"), _entry("salt_table", 30, "salt"),
             _entry("butter_unsalted", 25, "Butter")],
            "EU", "butter (MILK), salt", ("milk",), id="the same ingredient once, with both masses",
        ),
        pytest.param([_entry("salt_table", 0, "salt")], "EU", "", (), id="what weighs nothing is not listed"),
        pytest.param(
            [
                _entry(
                    "chocolate_white", 80, "white chocolate",
                    inside=(ListedIngredient(name="sugar"), ListedIngredient(name="cocoa butter"),
                            ListedIngredient(name="whole milk powder"),
                            ListedIngredient(name="emulsifier", inside=(ListedIngredient(name="soya lecithin"),))),
                ),
                _entry("cream_heavy_whipping", 90, "cream"),
            ],
            "EU", "cream (MILK), white chocolate (sugar, cocoa butter, whole MILK powder, emulsifier (SOYA lecithin))",
            ("soya", "milk"), id="a compound ingredient opened, and one inside it",
        ),
        pytest.param(
            [_entry("chocolate_dark_60_69", 80, "dark chocolate", allergens=("soya",))],
            "US", "dark chocolate (SOY)", ("soya",), id="the author's word over the table",
        ),
        pytest.param(
            [ListedIngredient(name="nut paste", mass_g=50, inside=(ListedIngredient(name="almonds", mass_g=10),
                                                        ListedIngredient(name="hazelnuts", mass_g=40)))],
            "EU", "nut paste (HAZELNUTS, ALMONDS)", ("almond", "hazelnut"), id="inside by mass where masses are known",
        ),
    ],
)  # fmt: skip
def test_list(entries, regime, shown, contains):
    found = ingredient_list(entries, regime)
    assert found.text == shown
    assert found.contains == contains


def test_what_is_not_known_is_said():
    own = food_with(None, name="caramel sauce", stated={"fat_g": 20.0})
    found = ingredient_list(
        [ListedIngredient(name="caramel sauce", mass_g=10, food=own), _entry("chocolate_milk", 5)], "EU"
    )
    assert [name for name, _ in found.doubts] == ["caramel sauce", "chocolate milk"]
    settled = ingredient_list([ListedIngredient(name="caramel sauce", mass_g=10, food=own, allergens=("milk",))], "EU")
    assert (settled.text, settled.doubts) == ("caramel sauce (MILK)", ())


def test_another_butter_of_ones_own_composition_is_still_of_milk():
    own = food_with(food("butter_unsalted"), name="rich butter", stated={"fat_g": 84.0})
    assert ingredient_list([ListedIngredient(name="rich butter", mass_g=1, food=own)], "EU").contains == ("milk",)


def test_may_contain_is_the_authors():
    found = ingredient_list([_entry("sugar_granulated", 1)], "EU", may_contain=("hazelnut",))
    assert (found.may_contain, found.contains) == (("hazelnut",), ())


@pytest.mark.parametrize(
    ("call", "path", "remedy"),
    [
        pytest.param(
            lambda: ingredient_list([_entry("sugar_granulated", 1)], "EU", may_contain=("hazelnutt",)),
            ("may_contain", 0), "did you mean 'hazelnut'?", id="may contain",
        ),
        pytest.param(
            lambda: ingredient_list([_entry("sugar_granulated", 1, allergens=("milk", "eg"))], "EU"),
            ("allergens", 1), "did you mean 'egg'?", id="author's word",
        ),
    ],
)  # fmt: skip
def test_error(call, path, remedy):
    with pytest.raises(InputError) as caught:
        call()
    assert (caught.value.path, caught.value.remedy.partition(" The others: ")[0]) == (path, remedy)


amounts = st.dictionaries(st.sampled_from(sorted(foods())), st.floats(0.001, 1e4), min_size=1, max_size=8)


@given(amounts, st.sampled_from(["US", "EU"]))
def test_masses_never_rise_along_the_list_and_every_known_allergen_is_set_off(masses, regime):
    entries = [
        ListedIngredient(name=f"n{n}n {key.replace('_', ' ')}", mass_g=mass_g, food=food(key))
        for n, (key, mass_g) in enumerate(masses.items())
    ]
    found = ingredient_list(entries, regime)
    places = sorted((found.text.index(f"n{n}n "), -one.mass_g) for n, one in enumerate(entries))
    assert [mass for _, mass in places] == sorted(mass for _, mass in places)
    set_off = " ".join(span.text.lower() for span in found.spans if span.allergen)
    for word in found.contains:
        assert re.search(allergen_words()[word].stem, set_off)


def test_sulphites_are_declared_in_the_us_too_in_the_spelling_there():
    """21 CFR 101.100(a)(4) and 130.9: sulfiting agents from 10 ppm in the finished food; eu-1169-2011, Annex II(12)."""
    stated = [_entry("glucose_syrup_liquid", 5, "glucose syrup", allergens=("sulphites",))]
    assert [ingredient_list(stated, market).text for market in ("EU", "UK", "US")] == [
        "glucose syrup (SULPHITES)", "glucose syrup (SULPHITES)", "glucose syrup (SULFITES)",
    ]  # fmt: skip
    assert ingredient_list(stated, "US").contains == ("sulphites",)
    assert ingredient_list([_entry("apricot_dried", 5)], "US").contains == ("sulphites",)
    assert ingredient_list([_entry("raisins", 5)], "US").doubts
    salts = ListedIngredient(name="paste", mass_g=1, inside=(ListedIngredient(name="calcium sulfate"),))
    assert ingredient_list([salts], "US").contains == ingredient_list([salts], "EU").contains == ()
    named = ListedIngredient(name="paste", mass_g=1, inside=(ListedIngredient(name="sulfured apricots"),))
    assert ingredient_list([named], "US").text == "paste (SULFURED apricots)"


def test_every_law_s_allergen_has_a_word():
    for regime, allergens in regimes().items():
        assert {word.by_regime[regime] for word in allergen_words().values()} - {None} == set(allergens)


def test_every_note_of_the_allergen_table_is_a_word():
    for one in foods().values():
        for regime in regimes():
            ingredient_list([ListedIngredient(name="x", mass_g=1, food=one)], regime)


def _batch(options=None, **chocolate):
    fields = {"kind": "chocolate_dark_60_69", "name": "dark chocolate", "amount": "100 g", **chocolate}
    return batch_of(
        recipe_from(
            {
                "title": "Test", "summary": "For a test.", "author": "the tests", "family": "ganache",
                "yield": {"portions": "1", "of": "bowl"},
                "ingredients": {
                    "chocolate": fields,
                    "cream": {"kind": "cream_heavy_whipping", "name": "cream", "amount": "80 g"},
                },
                "stages": [{"title": "Melt", "steps": [{"do": "Melt.", "add": ["cream", "chocolate"]}]}],
            }
        ),
        options,
    )  # fmt: skip


def test_what_the_author_says_a_compound_is_made_of_opens_it():
    found = ingredient_list(listed_ingredients_of(_batch(made_of=["cocoa mass", "sugar"])), "EU")
    assert found.text == "dark chocolate (cocoa mass, sugar), cream (MILK)"
    assert found.doubts == ()


def test_shares_are_printed_after_names_as_on_the_pack():
    made_of = ["cocoa mass 62 %", "sugar (37.5 %)", "emulsifier (soya lecithin)"]
    found = ingredient_list(listed_ingredients_of(_batch(made_of=made_of)), "US")
    assert found.text == "dark chocolate (cocoa mass 62 %, sugar 37.5 %, emulsifier (SOYA lecithin)), cream (MILK)"
    assert found.contains == ("milk", "soya")


def test_what_is_declared_of_an_ingredient_is_not_said_of_what_replaces_it():
    """Else a replacement that holds an allergen would pass under the words for another."""
    fields = {
        "made_of": ["cocoa mass", "sugar"], "allergens": [],
        "replacements": {
            "other": {"kind": "chocolate_milk", "name": "milk chocolate"},
            "own": {
                "kind": "chocolate_milk", "name": "nutty chocolate", "made_of": ["sugar"], "allergens": ["hazelnut"],
            },
        },
    }  # fmt: skip
    published = ingredient_list(listed_ingredients_of(_batch(**fields)), "EU")
    assert (published.contains, published.doubts) == (("milk",), ())
    other = ingredient_list(
        listed_ingredients_of(_batch(BatchOptions(replaced={"chocolate": "other"}), **fields)), "EU"
    )
    assert [name for name, _ in other.doubts] == ["milk chocolate"]
    assert "cocoa mass" not in other.text
    own = ingredient_list(listed_ingredients_of(_batch(BatchOptions(replaced={"chocolate": "own"}), **fields)), "EU")
    assert own.contains == ("milk", "hazelnut")
    assert own.text == "nutty chocolate (sugar, HAZELNUT), cream (MILK)"


FACTS = {"animal": "of_animal_origin", "slaughter": "meat_or_fish", "gluten": "gluten"}


def _origins(entries, may_contain=()):
    found = {origin.fact: origin for origin in listed_origins(entries, may_contain)}
    return {word: found[fact] for word, fact in FACTS.items()}


@pytest.mark.parametrize(
    ("entries", "may_contain", "none_listed"),
    [
        pytest.param([_entry("sugar_granulated", 1)], (), {"animal", "slaughter", "gluten"}, id="sugar"),
        pytest.param([_entry("butter_unsalted", 1)], (), {"slaughter", "gluten"}, id="butter is not vegan"),
        pytest.param([_entry("honey", 1)], (), {"slaughter", "gluten"}, id="honey is not vegan"),
        pytest.param([_entry("gelatin_powder", 1)], (), {"gluten"}, id="gelatine is of slaughter"),
        pytest.param([_entry("flour_cake", 1)], (), {"animal", "slaughter"}, id="flour holds gluten"),
        pytest.param([_entry("sugar_powdered", 1)], (), {"animal", "slaughter"}, id="icing sugar's starch is unsure"),
        pytest.param(
            [_entry("sugar_powdered", 1, allergens=())], (), {"animal", "slaughter", "gluten"},
            id="icing sugar of which the author says that it holds no allergen",
        ),
        pytest.param([_entry("sugar_granulated", 1)], ("wheat",), {"animal", "slaughter"}, id="may contain wheat"),
        pytest.param(
            [_entry("sugar_granulated", 1)], ("milk",), {"animal", "slaughter", "gluten"},
            id="milk that may get in is not an ingredient",
        ),
        pytest.param([ListedIngredient(name="own syrup", mass_g=1)], (), set(), id="nothing known is nothing certain"),
        pytest.param(
            [_entry("sugar_granulated", 1, "fondant",
                    inside=(ListedIngredient(name="sugar", food=food("sugar_granulated")),
                            ListedIngredient(name="egg white")))],
            (), {"slaughter", "gluten"}, id="egg inside a compound ingredient",
        ),
    ],
)  # fmt: skip
def test_what_no_listed_ingredient_holds(entries, may_contain, none_listed):
    assert {word for word, origin in _origins(entries, may_contain).items() if origin.none_listed} == none_listed


def test_the_ingredients_that_hold_it_and_those_that_may_are_named():
    origins = _origins([_entry("butter_unsalted", 1, "butter"), _entry("sour_cream", 1, "sour cream")], ("wheat",))
    assert origins["animal"].inside == ("butter", "sour cream")
    assert origins["gluten"].unsure == ("sour cream", "wheat that may get in")


def test_what_may_get_in_is_not_an_ingredient_from_animals():
    assert _origins([_entry("sugar_granulated", 1, "sugar")], ("milk",))["animal"].unsure == ()


def test_a_diet_is_claimed_by_the_author_and_never_by_a_list():
    """EU 828/2014 and 21 CFR 101.91: "gluten-free" is a limit of the food as sold; schema-org 30.0: RestrictedDiet."""
    flour, sugar = listed_origins([_entry("flour_cake", 1)]), listed_origins([_entry("sugar_granulated", 1)])
    claims = [Claim(claim=claim, ground="tested") for claim in ("gluten-free", "vegan", "low fat")]
    assert claimed_diets([], sugar) == []
    assert claimed_diets(claims, sugar) == ["GlutenFreeDiet", "VeganDiet"]
    assert claimed_diets(claims, flour) == ["VeganDiet"]
    members = {
        "DiabeticDiet", "GlutenFreeDiet", "HalalDiet", "HinduDiet", "KosherDiet", "LowCalorieDiet", "LowFatDiet",
        "LowLactoseDiet", "LowSaltDiet", "VeganDiet", "VegetarianDiet",
    }  # fmt: skip
    assert {diet for diet, _ in DIETS.values()} <= members
    assert DIETS.keys() <= {*CLAIMS}
