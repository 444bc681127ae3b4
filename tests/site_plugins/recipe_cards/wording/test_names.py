"""Names of foods judged by the laws of composition that are named beside each case."""

import pytest
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_site.recipe_cards.wording.names import unlawful_names
from crumbcoat_site.recipe_cards.wording.tables import name_rules, traditional_names


def recipe(title="Plain icing", **ingredients):
    ingredients = ingredients or {"sugar": {"kind": "sugar_granulated"}}
    return recipe_from(
        {
            "title": title, "summary": "An icing.", "author": "the tests", "family": "other",
            "yield": {"portions": "10", "of": "cupcakes"},
            "ingredients": {key: {"amount": "100 g", **fields} for key, fields in ingredients.items()},
            "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": [*ingredients]}]}],
        }
    )  # fmt: skip


def own(name, **contents):
    return {"name": name, "composition": {key: f"{value:g} %" for key, value in contents.items()}}


def found(fields, region=None):
    """What is said of an ingredient."""
    return [text for _, text, _ in unlawful_names(recipe(food=fields), region)]


def test_a_butter_of_60_percent_fat_is_not_butter_in_any_market():
    """21 U.S.C. 321a and CXS 279-1971: 80 % milk fat; Regulation (EU) No 1308/2013, Annex VII Part VII: 80 to 90 %."""
    ((path, text, hint),) = unlawful_names(recipe(food=own("farm butter", fat=60, milk_fat=60, water=38)))
    assert path == ("ingredients", "food")
    assert text == (
        "“farm butter” is a protected name: in the EU and UK at least 80 % and at most 90 % milk fat "
        "(Regulation (EU) No 1308/2013, Annex VII Part VII), and this has 60 %; in the US at least 80 % milk fat (21 "
        "U.S.C. 321a), and this has 60 %"
    )
    assert hint.startswith("call it what its pack does, such as “three-quarter-fat butter”")


BUTTER = {"fat": 82, "milk_fat": 82, "milk_solids_not_fat": 1.5, "water": 16}


@pytest.mark.parametrize(
    ("name", "contents", "region", "is_lawful"),
    [
        # CXS 279-1971, as the EU: at most 16 % water and 2 % milk solids not fat; the US has no such limit.
        ("butter", BUTTER, "EU", True),
        ("butter", {"fat": 80, "milk_fat": 80, "milk_solids_not_fat": 2, "water": 18}, "EU", False),
        ("butter", {"fat": 80, "milk_fat": 80, "milk_solids_not_fat": 2, "water": 18}, "US", True),
        ("butter", {"fat": 80, "milk_fat": 80, "milk_solids_not_fat": 2, "water": 18}, None, True),
        # Regulation (EU) No 1308/2013, Annex VII Part VII, Appendix II: 60 to 62 % and 39 to 41 %.
        ("three-quarter-fat butter", {"fat": 61, "milk_fat": 61}, "EU", True),
        ("half-fat butter", {"fat": 45, "milk_fat": 45}, "EU", False),
        # 21 CFR 131.157: whipping cream from 30 %; the code of the British trade: from 35 %.
        ("whipping cream", {"fat": 31, "milk_fat": 31}, "US", True),
        ("whipping cream", {"fat": 31, "milk_fat": 31}, "UK", False),
        ("whipping cream", {"fat": 31, "milk_fat": 31}, None, True),
        ("heavy cream", {"fat": 33, "milk_fat": 33}, "US", False),
        ("cream", {"fat": 12, "milk_fat": 12}, "EU", True),
        ("cream", {"fat": 12, "milk_fat": 12}, "US", False),
        ("thick double cream", {"fat": 40, "milk_fat": 40}, "UK", False),
        ("half-and-half", {"fat": 12, "milk_fat": 12}, "US", True),
        # 21 CFR 131.120, Directive 2001/114/EC: 8 % milk fat and 28 % milk solids.
        ("sweetened condensed milk", {"fat": 8, "milk_fat": 8, "milk_solids_not_fat": 20}, None, True),
        ("sweetened condensed milk", {"fat": 1, "milk_fat": 1, "milk_solids_not_fat": 27}, None, False),
        # 21 CFR 163.130: 3.39 % milk fat, 12 % milk solids; Directive 2000/36/EC: 3.5 and 14 %, and 25 % fat.
        ("milk chocolate", {"fat": 28, "milk_fat": 3.4, "milk_solids_not_fat": 9}, "US", True),
        ("milk chocolate", {"fat": 28, "milk_fat": 3.4, "milk_solids_not_fat": 9}, "EU", False),
        # 21 CFR 163.124: at most 55 % sweetener, 20 % cocoa fat, 3.5 % milk fat and 14 % milk solids.
        ("white chocolate", {"fat": 30, "milk_fat": 4, "milk_solids_not_fat": 12, "sugars": 60}, "US", False),
        # Regulation (EU) No 1308/2013, Annex VII Part III and case C-422/16: the words are for milk.
        ("plant butter", {"fat": 79, "milk_fat": 0}, "EU", False),
        ("oat milk", {"fat": 3, "milk_fat": 0, "milk_solids_not_fat": 0}, "UK", False),
        ("oat milk", {"fat": 3, "milk_fat": 0, "milk_solids_not_fat": 0}, "US", True),
        # Decision 2010/791/EU: names with a tradition of their own.
        ("peanut butter", {"fat": 50, "milk_fat": 0}, "EU", True),
        ("coconut milk", {"fat": 20, "milk_fat": 0, "milk_solids_not_fat": 0}, "EU", True),
        ("cocoa butter", {"fat": 100, "milk_fat": 0}, "UK", True),
        # No law protects the word; nothing is known; the trade's own word.
        ("spread", {"fat": 40, "milk_fat": 0}, None, True),
        ("butter", {"protein": 1}, None, True),
        ("buttercream", {"fat": 40, "milk_fat": 0}, "EU", True),
    ],
)
def test_a_name_is_warned_of_where_its_figures_cannot_meet_the_law(name, contents, region, is_lawful):
    assert (found(own(name, **contents), region) == []) is is_lawful


def test_a_kind_under_a_name_of_its_own_is_not_looked_at_and_under_another_it_is():
    """USDA's heavy whipping cream has 36 % of fat: a double cream has 48 % (British code), a whipping cream 35 %."""
    assert found({"name": "whipping cream", "kind": "cream_heavy_whipping"}, "UK") == []
    ((_, text, _),) = unlawful_names(recipe(food={"kind": "cream_heavy_whipping", "name": "double cream"}), "UK")
    assert "in the UK at least 48 % milk fat" in text
    assert text.endswith("and this has 36.1 %")


@pytest.mark.parametrize("region", [None, "EU", "UK", "US"])
def test_no_kind_of_the_table_is_warned_of_under_its_own_name(region):
    for key, food in foods().items():
        assert found({"name": food.name, "kind": key}, region) == [], key


def test_a_replacement_is_looked_at_too():
    other = {"other": own("butter", fat=40, milk_fat=40)}
    data = recipe(butter={"kind": "butter_unsalted", "replacements": other})
    assert [path for path, _, _ in unlawful_names(data)] == [("ingredients", "butter", "replacements", "other")]


PLANT = {"plant": own("plant block", fat=75, milk_fat=0, milk_solids_not_fat=0)}
WHOLE = {"milk": {"kind": "milk_whole"}, "starch": {"kind": "cornstarch"}}


@pytest.mark.parametrize(
    ("title", "ingredients", "is_lawful"),
    [
        # Regulation (EU) No 1308/2013, Annex VII Part III; composite products may have the name of an essential part.
        ("Butter frosting", {"butter": {"kind": "butter_unsalted"}}, True),
        ("Butter frosting", {**PLANT, **WHOLE}, False),
        ("Whipped cream", {"cream": {"kind": "cream_double"}}, True),
        ("Whipped cream", WHOLE, False),
        ("Vanilla cream", WHOLE, True),
        ("Vanilla cream", PLANT, False),
        ("Cream-cheese frosting", PLANT, False),
        # Words of the trade and of tradition.
        ("Plant buttercream", PLANT, True),
        ("Coconut milk icing", PLANT, True),
        ("Peanut butter icing", PLANT, True),
        ("Pastry cream", PLANT, True),
        ("Cocoa frosting", PLANT, True),
    ],
)
def test_a_title_names_what_is_in_the_recipe(title, ingredients, is_lawful):
    assert (list(unlawful_names(recipe(title, **ingredients), "UK")) == []) is is_lawful
    assert list(unlawful_names(recipe(title, **ingredients), "US")) == []


def test_the_tables_are_read_and_each_traditional_name_frees_a_word_that_a_rule_protects():
    assert len(name_rules()) > 20
    assert len(traditional_names()) > 8


PLANT_BLOCK = own("plant butter", fat=75, water=23)


def test_a_plant_butter_is_offered_no_name_that_is_kept_for_milk_fat():
    """Regulation (EU) No 1308/2013, Annex VII Part VII, Appendix II: half-fat butter is of milk fat only."""
    ((_, _, hint),) = unlawful_names(recipe(food=own("plant butter", fat=75, milk_fat=0, water=23)), "EU")
    assert "half-fat" not in hint
    assert "“plant-based spread, 75 % fat”" in hint
    hints = [hint for _, _, hint in unlawful_names(recipe(food=PLANT_BLOCK), "EU")]
    assert hints
    assert all("half-fat" not in hint for hint in hints)


@pytest.mark.parametrize(
    ("title", "food", "region", "said"),
    [
        # Case C-422/16: a word for milk with a word for plants beside it is still kept for milk.
        ("Plant butter frosting", PLANT_BLOCK, "EU", "“Plant butter”"),
        ("Vegan cream", {"kind": "cream_double"}, "UK", "“Vegan cream”"),
        ("Oat milk cream", {"kind": "oat_milk_unsweetened"}, "EU", "“milk” and “cream” are in the title"),
        # Decision 2010/791/EU (from memory) has creamed coconut and coconut milk, and no cream of coconut or almonds.
        ("Coconut cream", {"kind": "coconut_cream_raw"}, "EU", "“cream” is in the title"),
        ("Coconut and almond cream", {"kind": "coconut_cream_raw"}, "EU", "“cream” is in the title"),
        # The British code of the trade: 55 %.
        ("Clotted cream", {"kind": "cream_heavy_whipping"}, "UK", "no ingredient has 55 % milk fat or more"),
        # Directive 2000/36/EC, Annex I; 21 CFR 163.130.
        ("Milk chocolate ganache", {"kind": "chocolate_dark_60_69"}, None, "“milk chocolate” is in the title"),
        # Directive 2001/110/EC, Annex I.
        ("Plain icing", {"kind": "golden_syrup", "name": "honey"}, None, "“honey” is golden syrup"),
    ],
)
def test_a_name_of_something_else_is_warned_of(title, food, region, said):
    assert any(said in text for _, text, _ in unlawful_names(recipe(title, food=food), region))


@pytest.mark.parametrize(
    ("title", "food", "region"),
    [
        ("Coconut milk icing", {"kind": "coconut_milk_canned"}, "EU"),
        ("Plain icing", {"kind": "coconut_cream_raw"}, "EU"),
        ("Plain icing", own("coconut cream", fat=25, milk_fat=0, milk_solids_not_fat=0), "EU"),
        ("Clotted cream", {"kind": "cream_clotted"}, "UK"), ("Clotted cream", {"kind": "cream_heavy_whipping"}, "US"),
        ("Milk chocolate ganache", {"kind": "chocolate_milk"}, None), ("Plain icing", {"kind": "honey"}, None),
        ("Plain icing", {"kind": "honey", "name": "mild honey"}, None),
        ("Plant-based frosting", {"kind": "oat_milk_unsweetened"}, "EU"),
    ],
)  # fmt: skip
def test_names_that_are_true_are_silent(title, food, region):
    assert list(unlawful_names(recipe(title, food=food), region)) == []
