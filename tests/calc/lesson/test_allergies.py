"""Allergies in the room, against Annex II of Regulation (EU) No 1169/2011 and section 203 of FALCPA with FASTER."""

import csv
import itertools
from importlib.resources import files

import pytest
from crumbcoat_calc.foods.allergens import words_meant
from crumbcoat_calc.label.market_list import lists_of
from crumbcoat_calc.lesson.allergies import in_room
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from

from tests.calc.calculators.test_handout import EVERYDAY, ICING, MERINGUE, NAMES, SILK, data, grams, texts

COCOA, GANACHE = "buttercreams/plant-based-cocoa-frosting", "creams-and-ganache/coating-ganache"
CHEESE, YOLK = "creams-and-ganache/cream-cheese-frosting", "buttercreams/egg-yolk-buttercream"


def law(region):
    """The terms of the law, as the table of the repository has them with their source."""
    rows = csv.DictReader((files("crumbcoat_calc") / "data/allergen_regimes.csv").read_text("utf-8").splitlines())
    return [row["allergen"] for row in rows if row["regime"] == region]


def test_every_term_of_the_laws_can_be_typed_and_the_page_lists_those_of_its_region():
    """Annex II has 14; FALCPA has 8, FASTER a ninth, and 21 CFR 101.100(a)(4) sulphites."""
    assert (len(law("EU")), len(law("US"))) == (14, 10)
    for region in ("EU", "US"):
        for term in law(region):
            assert words_meant(term), term
    assert all(term in texts(ICING)["allergens.law"] for term in law("EU"))


def test_nuts_are_all_tree_nuts_and_gluten_the_cereals_of_annex_ii():
    assert {"almond", "hazelnut", "walnut", "cashew", "pecan", "Brazil nut", "pistachio", "macadamia"} <= set(
        words_meant("nuts")
    )
    assert "pine nut" in words_meant("nuts")
    assert set(words_meant("gluten")) == {"wheat", "rye", "barley", "oats"}


def test_by_hand_what_brings_it_and_what_can_go_in_instead():
    """Butter is of milk and has no replacement without it here; oat drink is of oats, a cereal with gluten."""
    cocoa = recipe_from(data(COCOA))
    soya = in_room(cocoa, ["soya"])
    assert [(one.name, one.instead[1]) for one in soya.bringers] == [
        ("unsweetened soya drink", "unsweetened oat drink")
    ]
    both = in_room(cocoa, ["soya", "gluten"])
    assert both.bringers[0].instead is None
    assert not both.is_avoidable
    assert in_room(cocoa, ["milk"]).by_accident == ("milk",)
    icing = in_room(recipe_from(data(ICING)), ["milk"])
    assert [one.name for one in icing.bringers] == ["unsalted butter", "whole milk"]
    assert not icing.replaced
    assert "sugar pearls" in in_room(recipe_from(data(MERINGUE)), ["milk"]).unknown


def test_a_replacement_of_which_not_all_is_known_does_not_count():
    """Almond drink is a compound product: what else is in it is on its pack."""
    fields = {**data(CHEESE)}
    fields["ingredients"] = {
        **fields["ingredients"],
        "cream_cheese": {
            **fields["ingredients"]["cream_cheese"],
            "replacements": {"almond": {"kind": "almond_milk_unsweetened", "name": "almond drink"}},
        },
    }
    found = in_room(recipe_from(fields), ["milk"])
    cheese = next(one for one in found.bringers if one.key == "cream_cheese")
    assert cheese.instead is None
    assert cheese.doubtful == ("almond drink",)


@pytest.mark.parametrize("name", NAMES)
def test_what_is_made_without_holds_none_of_it_by_the_label(name):
    """The label's own list, which knows nothing of lessons, has none of the allergens that were to be avoided."""
    recipe = recipe_from(data(name))
    for allergies in [*[(word,) for word in ("milk", "egg", "gluten", "soya", "nuts")], ("milk", "soya")]:
        found = in_room(recipe, allergies)
        asked = set(itertools.chain(*map(words_meant, allergies)))
        batch = batch_of(recipe, BatchOptions(replaced=found.replaced, left_out=found.left_out))
        held = {word for one in lists_of(batch) for word in one.contains}
        assert bool(held & asked) == bool(found.bringers and not found.is_avoidable)


def test_the_amounts_follow_for_one_group_or_for_all():
    shown = texts(COCOA, allergies="soya", without="one group", apart="2")
    fronts = [sheet for sheet in shown["group_sheets"] if sheet["steps"]]
    names = [[row[0] for row in front["weigh"]] for front in fronts]
    assert ["unsweetened soya drink" in one for one in names] == [True, False, True, True]
    assert "unsweetened oat drink" in names[1]
    assert "unsweetened oat drink instead of unsweetened soya drink" in fronts[1]["change"]
    assert [front["change"] for front in (fronts[0], *fronts[2:])] == [""] * 3
    bought = {row[0].partition(" (")[0]: grams(row[1]) for row in shown["shopping"]}
    of_all = {row[0].partition(" (")[0]: grams(row[1]) for row in texts(COCOA)["shopping"]}
    soya, oat = (next(name for name in bought if word in name) for word in ("soy", "oat"))
    assert abs(bought[soya] * 4 - of_all[soya] * 3) <= 4
    assert oat not in of_all
    assert any("group 2" in row[1] and "oats" in row[1] for row in shown["cautions"])
    every = texts(COCOA, allergies="soya", without="all groups")
    assert len({front["change"] for front in every["group_sheets"] if front["steps"]}) == 1
    assert "for all groups" in every["allergens.made"]


def test_what_cannot_be_made_without_says_so_and_stays_as_published():
    shown = texts(ICING, SILK, allergies="milk", without="all groups")
    assert shown["group_sheets"] == texts(ICING, SILK)["group_sheets"]
    assert shown["allergens.made"].count("choose another recipe") == 2
    assert shown["allergens.room"][0][2].startswith("for unsalted butter the recipe has no replacement")
    assert "without milk by its own" in texts(ICING, allergies="gluten, milk", without="all groups")["allergens.made"]


def test_nothing_is_ever_said_to_be_safe_and_others_decide():
    for allergies in ("milk", "celery", "egg, wheat"):
        shown = texts(EVERYDAY, GANACHE, allergies=allergies)
        said = " ".join(part for row in shown["allergens.room"] for part in row)
        assert "safe" not in said
        assert "free from" not in said
        for word in ("parents or guardians", "school's rules", "pack decides"):
            assert word in shown["allergens.decides"]
        assert "washed first" in shown["allergens.apart"]
    assert texts(YOLK)["allergens.room"] == []
    assert texts(YOLK)["allergens.decides"] == ""
