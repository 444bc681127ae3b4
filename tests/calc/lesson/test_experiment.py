"""A class experiment: amounts, figures and groups, recomputed here by hand from the recipe files."""

import copy
from collections import Counter
from fractions import Fraction

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.forms.levels import levels_from, levels_text
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given
from hypothesis import strategies as st

from tests.calc.calculators.test_handout import (
    CLASS,
    EVERYDAY,
    ICING,
    MERINGUE,
    NAMES,
    data,
    grams,
    half_a_digit,
    texts,
)

YOLK, CUSTARD = "buttercreams/egg-yolk-buttercream", "buttercreams/custard-buttercream"


def fronts(shown):
    """The sheets of the groups, one after the other, without their backs."""
    return [sheet for sheet in shown["group_sheets"] if sheet["steps"]]


def laid_out(shown):
    """The mass of each ingredient on the sheet of each group, by group and name."""
    found = {}
    for sheet in fronts(shown):
        found |= {(int(sheet["group"].split()[1]), row[0]): row[1] for row in sheet["weigh"]}
    return found


def test_each_group_weighs_its_own_amount_and_the_control_is_made_twice():
    """410 g of butter, by hand: 328 g are 20 % less and 492 g are 20 % more; six groups make each of three twice."""
    shown = texts(MERINGUE, students="18", groups="6", vary="butter", levels="-20 %, 0, +20 %")
    amounts = laid_out(shown)
    assert [amounts[group, "unsalted butter"] for group in range(1, 7)] == ["410 g", "328 g", "492 g"] * 2
    assert {amounts[group, "caster sugar"] for group in range(1, 7)} == {"265 g"}
    assert "Groups 1 and 4 make the control" in shown["experiment.control"]
    assert [row[0] for row in shown["experiment"]] == [f"group {group}" for group in range(1, 7)]
    assert all(row[4:] == [""] * 4 for row in shown["experiment"])
    assert shown["who"][1][2] == "Swiss meringue buttercream (20 % less unsalted butter)"
    assert shown["who"][3][2] == "Swiss meringue buttercream (the control)"
    changes = [sheet["change"] for sheet in fronts(shown)]
    assert changes[0].startswith("Your group makes the control")
    assert changes[1] == ("Your change: 20 % less unsalted butter, 328 g (published: 410 g). All else stays the same.")


def test_shopping_follows():
    """Six groups of 410 g as published; with +50 % for three of them (every second), 3 × 205 g more."""
    usual = {row[0]: row[1] for row in texts(MERINGUE, groups="6", margin="0")["shopping"]}
    varied = {
        row[0]: row[1] for row in texts(MERINGUE, groups="6", vary="butter", levels="50 %", margin="0")["shopping"]
    }
    assert grams(usual["unsalted butter"]) == 6 * 410
    assert grams(varied["unsalted butter"]) == 6 * 410 + 3 * 205
    assert {name for name in usual if usual[name] != varied[name]} == {"unsalted butter"}


def test_the_figures_of_each_group_by_hand():
    """Fat and water of 100 g, from the table's contents of each ingredient; 5 g of water boil off in this recipe."""
    shown = texts(MERINGUE, groups="4", vary="butter", levels="-20, 20")
    weighed = batch_of(recipe_from(data(MERINGUE))).weighed
    for row, factor in zip(shown["experiment"], (1, 0.8, 1.2, 1), strict=True):
        masses = [one.mass_g * (factor if one.name == "unsalted butter" else 1) for one in weighed]
        total = sum(masses) - 5
        fat = sum(mass * one.food.content("fat_g") / 100 for mass, one in zip(masses, weighed, strict=True))
        water = sum(mass * one.food.content("water_g") / 100 for mass, one in zip(masses, weighed, strict=True)) - 5
        said = dict(part.rsplit(" ", 2)[:2] for part in row[3].split(", "))
        assert abs(float(said["fat"]) - 100 * fat / total) < 0.06
        assert abs(float(said["water"]) - 100 * water / total) < 0.06


def test_a_temperature_is_varied_with_the_share_of_its_fat_that_is_solid():
    """Colder butter has more solid fat (versteeg-2016: 19.5 % at 20 °C, about 50 % at 5 °C)."""
    shown = texts(MERINGUE, groups="4", vary="unsalted butter", levels="16, 19, 22 °C")
    makes = [row[2] for row in shown["experiment"]]
    assert makes == [
        "control: unsalted butter as published", "unsalted butter at 16 °C (61 °F)",
        "unsalted butter at 22 °C (72 °F)", "control: unsalted butter as published",
    ]  # fmt: skip
    solid = [int(row[3].split()[2]) for row in shown["experiment"]]
    assert solid[1] > solid[0] > solid[2]
    notes = [{row[0]: row[2] for row in sheet["weigh"]} for sheet in fronts(shown)]
    assert "at 16 °C" in notes[1]["unsalted butter"]
    assert "at 19 °C" in notes[0]["unsalted butter"]
    assert "at 19 °C" in notes[3]["unsalted butter"]


def test_additions_are_varied():
    shown = texts(MERINGUE, groups="4", vary="butter", levels="4, 30 additions")
    how = [next(row[3] for row in sheet["steps"] if row[0] == "3.1") for sheet in fronts(shown)]
    assert "16 additions" in how[0]
    assert "; 4 additions" in how[1]
    assert "16 additions" in how[3]
    assert "30 additions" in how[2]


def test_with_groups_that_make_one_recipe_only_its_own_take_part():
    shown = texts(MERINGUE, EVERYDAY, **{**CLASS, "makes": "one recipe"}, vary="B butter", levels="-20 %")
    assert [row[0] for row in shown["experiment"]] == ["group 2", "group 4", "group 6"]
    assert "B Everyday milk frosting" in shown["experiment.what"]
    assert "groups 2 and 6 make" in shown["experiment.control"].lower()
    amounts = laid_out(shown)
    assert amounts[1, "unsalted butter"] == "410 g"
    assert amounts[4, "unsalted butter"] == "192 g"
    row = next(row for row in fronts(shown)[3]["weigh"] if row[0] == "unsalted butter")
    assert "48 g base and 144 g creaming" in row[2]


def test_one_control_alone_is_said_and_nothing_is_called_tried():
    shown = texts(MERINGUE, groups="3", vary="butter")
    assert shown["experiment.control"].startswith("Only group 1 makes the control")
    assert "untried" in shown["experiment.untried"]
    assert "Nor is the recipe itself made yet" in shown["experiment.untried"]
    assert "Heat to the temperatures of the method" in shown["experiment.untried"]
    assert texts(MERINGUE)["experiment"] == []


@pytest.mark.parametrize(
    ("names", "state", "path", "said"),
    [
        ((MERINGUE,), {"vary": "vanilla"}, "vary", "alcohol"),
        ((MERINGUE,), {"vary": "margarine"}, "vary", "no recipe of this lesson"),
        ((MERINGUE, EVERYDAY), {"vary": "butter"}, "vary", "can be several"),
        ((MERINGUE,), {"vary": "caster sugar", "levels": "20 °C"}, "levels", "states no temperature"),
        ((MERINGUE,), {"vary": "butter", "levels": "35 °C"}, "levels", "too far"),
        ((MERINGUE,), {"vary": "butter", "levels": "5 °C"}, "levels", "too far"),
        ((MERINGUE,), {"vary": "butter", "levels": "0 %"}, "levels", "all groups would make the same"),
        ((MERINGUE,), {"vary": "butter", "levels": "-30, -20, -10, 10 %"}, "levels", "need 5 groups"),
        ((EVERYDAY,), {"vary": "icing sugar", "levels": "2 additions"}, "levels", "goes in at 2 steps"),
        ((MERINGUE,), {"vary": "caster sugar", "beforehand": "1"}, "vary", "beforehand"),
        (
            ("buttercreams/plant-based-cocoa-frosting",),
            {"vary": "unsweetened soya drink", "allergies": "soya", "without": "all groups"},
            "vary",
            "because of an allergy",
        ),
    ],
)
def test_what_is_unsafe_or_senseless_is_refused_with_a_remedy(names, state, path, said):
    with pytest.raises(InputError) as caught:
        texts(*names, **state)
    assert caught.value.path == (path,)
    assert said in caught.value.problem
    assert caught.value.remedy


@pytest.mark.parametrize("heat", [None, "65 °C"])
def test_where_hot_syrup_alone_heats_the_egg_nothing_of_both_is_varied(heat):
    """usda-egg-mixtures: 160 °F, 71 °C. Less syrup, or more yolk, would leave the yolks cooler than published."""
    fields = copy.deepcopy(data(YOLK))
    step = fields["stages"][1]["steps"][2]
    del step["heat_to"]
    if heat:
        step["heat_to"] = heat
    context = context_from({"recipe": fields})
    for name in ("egg yolks", "caster sugar", "water"):
        with pytest.raises(InputError, match="not heated to 71 °C") as caught:
            run("handout", context, {}, {"vary": name})
        assert caught.value.path == ("vary",)
    assert run("handout", context, {}, {"vary": "unsalted butter"})[1]["experiment"]
    assert texts(YOLK, vary="caster sugar")["experiment"]


def test_egg_that_is_heated_by_the_thermometer_can_be_varied_and_its_heat_stays():
    """71 °C is the limit for egg mixtures (usda-egg-mixtures); no sheet of any group heats to less than published."""
    for name, what in ((MERINGUE, "egg whites"), (CUSTARD, "egg yolks")):
        shown = texts(name, vary=what, levels="20 %")
        published = [row[2:] for row in fronts(texts(name))[0]["steps"]]
        assert all([row[2:] for row in sheet["steps"]] == published for sheet in fronts(shown))


@pytest.mark.parametrize("name", NAMES)
def test_every_ingredient_is_varied_or_refused(name):
    recipe = recipe_from(data(name))
    for ingredient in recipe.ingredients:
        try:
            shown = texts(name, vary=ingredient.name, levels="-10 %", cooks="adults only")
        except InputError as error:
            if error.path != ("vary",):
                raise
            continue
        for group, share in (("Group 1", Fraction(1)), ("Group 2", Fraction(9, 10))):
            mine = [
                row[1]
                for sheet in fronts(shown)
                if sheet["group"] == group
                for row in sheet["weigh"]
                if row[0] == ingredient.name
            ]
            most = sum(map(half_a_digit, mine)) + Fraction(1, 10**6)
            assert abs(sum(map(grams, mine)) - share * Fraction(ingredient.mass_g)) <= most


def test_the_group_kept_apart_takes_no_part():
    shown = texts(
        "buttercreams/plant-based-cocoa-frosting",
        allergies="soya", without="one group", apart="2", vary="icing sugar", levels="-20 %",
    )  # fmt: skip
    assert [row[0] for row in shown["experiment"]] == ["group 1", "group 3", "group 4"]
    first, second, third, fourth = [sheet["change"] for sheet in fronts(shown)]
    assert first == fourth
    assert len({first, second, third}) == 3


def test_codes_of_bowls_are_different_and_come_back_with_the_seed():
    codes = [row[1] for row in texts(MERINGUE, students="80", groups="40", vary="butter")["experiment"]]
    assert max(Counter(codes).values()) == 1
    assert codes == [row[1] for row in texts(MERINGUE, students="80", groups="40", vary="butter")["experiment"]]


@given(st.sampled_from(["%", "°C"]), st.lists(st.integers(-29, 99), min_size=1, max_size=8, unique=True))
def test_levels_are_read_as_they_are_written(unit, levels):
    assert levels_from(levels_text(unit, tuple(map(float, levels)))) == (unit, tuple(map(float, levels)))


def test_recipes_are_compared_as_published_where_one_is_varied():
    shown = texts(MERINGUE, ICING, groups="6", vary="B unsalted butter", levels="20 %")
    assert shown["compare"] == [
        ["Swiss meringue buttercream", "all groups", *texts(MERINGUE, ICING)["compare"][0][2:]],
        ["Plain icing-sugar buttercream", "groups 1, 3 and 5", *texts(MERINGUE, ICING)["compare"][1][2:]],
    ]
