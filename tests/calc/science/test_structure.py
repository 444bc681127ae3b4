"""What holds a batch: the carriers by what is in it and how it is made, checked against published temperatures."""

from typing import Any

import pytest
from crumbcoat_calc.foods.table import food, foods
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.science.carriers import Carries, bands, brings, setting
from crumbcoat_calc.science.structure import Outside, Structure, structure_of
from crumbcoat_calc.tables import load_rows
from crumbcoat_calc.texts.science import treated_parts, vessel_state
from hypothesis import given, settings
from hypothesis import strategies as st

WITHOUT_A_TEMPERATURE = {"arrowroot", "barley_malt_flour", "buckwheat_flour", "chestnut_flour", "chickpea_flour",
                         "oat_flour", "pudding_mix_vanilla", "soy_flour"}  # fmt: skip
"""Starches of which no source was found that says where they swell: nothing is said of them."""

WHISK = {"tool": "stand mixer, whisk", "speed": "medium"}


def made(family: str, ingredients: dict[str, str], *steps: dict[str, Any], t_c: float = 20.0) -> Structure:
    """The structure of a recipe of one stage; ingredients are `kind amount`, with a temperature if it has one."""
    data = {
        "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": family,
        "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {key: dict(zip(("kind", "amount", "temperature"), written.split(", "), strict=False))
                        for key, written in ingredients.items()},
        "stages": [{"title": "Make", "steps": [{"do": "Do.", **step} for step in steps]}],
    }  # fmt: skip
    batch = batch_of(recipe_from(data))
    vessel = batch.vessels[-1]
    return structure_of(treated_parts(vessel), family, vessel_state(vessel, t_c))


def names(structure: Structure) -> list[Carries]:
    return [carrier.carries for carrier in structure.carriers]


def custard(grams: float, hot: str, sugar: float = 0.0, kind: str = "cornstarch") -> Structure:
    ingredients = {"milk": "milk_skim, 300 g", "starch": f"{kind}, {grams} g"}
    if sugar:
        ingredients["sugar"] = f"sugar_granulated, {sugar} g"
    return made("other", ingredients, {"add": list(ingredients), "heat_to": hot})


@pytest.mark.parametrize(
    ("kind", "hot", "cold"),
    [
        ("cornstarch", "70 °C", "69 °C"),
        ("flour_t55", "65 °C", "64 °C"),
        ("potato_starch", "66 °C", "65 °C"),
        ("flour_rice", "78 °C", "77 °C"),
        ("tapioca", "64 °C", "63 °C"),
    ],
)
def test_starch_swells_where_belitz_says_it_has(kind: str, hot: str, cold: str) -> None:
    """Belitz, Grosch and Schieberle, Food Chemistry, table 4.24: the upper end of the gelatinisation temperature."""
    assert names(custard(20, hot, kind=kind)) == [Carries.STARCH_GEL]
    assert names(custard(20, cold, kind=kind)) == []


def test_in_much_sugar_starch_has_to_be_boiled() -> None:
    """Allan, Chamberlain and Mauer 2020: sugars raise the temperature; from memory, wheat in 50 to 60 % at 80 to 92."""
    assert names(custard(20, "80 °C", sugar=200)) == []
    assert names(custard(20, "96 °C", sugar=200)) == [Carries.STARCH_GEL]


def test_starch_heated_without_water_or_not_at_all_holds_nothing() -> None:
    dry = made("other", {"flour": "flour_t55, 60 g", "milk": "milk_skim, 300 g"},
               {"add": ["flour"], "heat_to": "120 °C"}, {"add": ["milk"]})  # fmt: skip
    assert names(dry) == []
    cold = made("other", {"flour": "flour_t55, 60 g", "milk": "milk_skim, 300 g"}, {"add": ["flour", "milk"]})
    assert names(cold) == []


@pytest.mark.parametrize(("hot", "set_"), [("82 °C", True), ("71 °C", False), (None, False)])
def test_egg_is_a_gel_only_where_it_was_heated_until_it_sets(hot: str | None, set_: bool) -> None:
    """Ovalbumin has its peak at 80 °C (Biosci Biotechnol Biochem 66: 1635); at 71 °C whites in sugar are liquid."""
    step = {"add": ["egg", "juice"], **({"heat_to": hot} if hot else {})}
    curd = made("curd or custard filling", {"egg": "egg_whole_raw, 100 g", "juice": "lemon_juice, 100 g"}, step)
    assert curd.has(Carries.EGG_GEL) is set_
    assert (curd.egg_protein_g[0] == 0) is set_
    assert curd.egg_protein_g[1] == pytest.approx(12.56)  # usda-sr28
    assert "80" in f"{setting('egg sets').low_c}"


def test_a_swiss_meringue_is_an_egg_foam_with_a_frame_of_butter() -> None:
    swiss = made(
        "meringue buttercream",
        {
            "white": "egg_white_raw, 155 g",
            "sugar": "sugar_granulated, 265 g",
            "butter": "butter_unsalted, 410 g, 19 °C",
        },
        {"add": ["white", "sugar"], "heat_to": "71 °C"},
        {**WHISK, "cool_to": "28 °C"},
        {**WHISK, "add": ["butter"]},
    )
    assert names(swiss) == [Carries.WHITE_FOAM, Carries.FAT_FRAME]
    assert swiss.outside is Outside.UNKNOWN
    assert swiss.droplets == (pytest.approx(0, abs=0.001), 1.0)
    warm = made(
        "other",
        {
            "white": "egg_white_raw, 155 g",
            "sugar": "sugar_granulated, 265 g",
            "butter": "butter_unsalted, 410 g, 19 °C",
        },
        {"add": ["white", "sugar", "butter"], "heat_to": "45 °C"},
        {**WHISK},
    )
    assert names(warm) == [], "neither whipped without fat nor a fat that was not melted"


def test_butter_that_goes_into_something_hot_is_melted() -> None:
    hot = ({"add": ["juice"], "heat_to": "82 °C"}, {"add": ["butter"]})
    parts = {"juice": "lemon_juice, 300 g", "butter": "butter_unsalted, 150 g, 5 °C"}
    assert not made("other", parts, *hot).has(Carries.FAT_FRAME)
    cooled = (hot[0] | {"cool_to": "20 °C"}, hot[1])
    assert made("other", parts, *cooled).has(Carries.FAT_FRAME)


def test_whipped_cream_is_clumped_fat_with_gelatine() -> None:
    """Hoffmann 2011: cream of not less than 30 % whips without trouble. Here 600 g with 36.08 % are in 649 g."""
    parts = {
        "cream": "cream_heavy_whipping, 600 g, 4 °C",
        "gelatine": "gelatin_powder, 9 g",
        "water": "water_tap, 40 g",
    }
    whip = {**WHISK, "add": ["cream"]}
    cream = made("whipped cream", parts, {"add": ["gelatine", "water"], "heat_to": "45 °C", "cool_to": "20 °C"}, whip)
    assert set(names(cream)) == {Carries.CLUMPED_FAT, Carries.GELATINE}
    assert next(one for one in cream.carriers if one.carries is Carries.CLUMPED_FAT).figure == pytest.approx(
        33.36, abs=0.01
    )
    assert (cream.outside, cream.emulsified, cream.droplets) == (Outside.WATER, True, (1.0, 1.0))
    assert cream.held_by_droplets is None, "a foam and a gel hold it, so sugar does not make it runnier"
    light = made("whipped cream", {"cream": "cream_single, 600 g, 4 °C"}, whip)
    assert names(light) == [], "19 % of fat does not whip"
    warm = made("whipped cream", {"cream": "cream_heavy_whipping, 600 g, 19 °C"}, whip)
    assert names(warm) == [], "warm cream does not whip"
    unsaid = made("whipped cream", {"cream": "cream_heavy_whipping, 600 g"}, whip)
    assert names(unsaid) == [Carries.CLUMPED_FAT], "by the family, where no temperature is stated"
    poured = made("other", {"cream": "cream_heavy_whipping, 600 g"}, {"add": ["cream"]})
    assert names(poured) == [], "cream that nobody whips"


@pytest.mark.parametrize(
    ("grams", "chilled", "clumps"), [(180, "5 °C", True), (180, "20 °C", False), (60, "5 °C", False)]
)
def test_butter_melted_into_milk_and_whipped_cold_is_a_cream(grams: int, chilled: str, clumps: bool) -> None:
    """Fat of 30 g in 100 g as in cream (Hoffmann 2011), and as cold; 180 g of butter in 430 g have 34 %."""
    parts = {"milk": "milk_whole, 250 g", "butter": f"butter_unsalted, {grams} g"}
    made_cream = made("other", parts, {"add": list(parts), "heat_to": "65 °C", "cool_to": chilled}, WHISK)
    assert made_cream.has(Carries.CLUMPED_FAT) is clumps
    assert not made_cream.has(Carries.FAT_FRAME)


def test_gelatine_that_was_never_warm_has_not_dissolved() -> None:
    """Makers of gelatine: it melts at 25 to 35 °C; a bowl at 40 °C has no gel."""
    parts = {"milk": "milk_skim, 200 g", "gelatine": "gelatin_powder, 3 g"}
    cold, warm = {"add": list(parts)}, {"add": list(parts), "heat_to": "50 °C"}
    assert names(made("other", parts, cold)) == []
    assert names(made("other", parts, warm)) == [Carries.GELATINE]
    assert names(made("other", parts, warm, t_c=40)) == []


def test_cocoa_butter_and_coconut_fat_hold_until_they_melt() -> None:
    """Belitz, tables 14.8 and 14.9: cocoa butter 28 to 36 °C, coconut oil 20 to 28 °C."""
    ganache = {"cream": "cream_heavy_whipping, 200 g", "chocolate": "chocolate_dark_60_69, 200 g"}
    steps = ({"add": ["cream"], "heat_to": "85 °C"}, {"add": ["chocolate"]})
    assert names(made("ganache", ganache, *steps)) == [Carries.COCOA_BUTTER]
    assert names(made("ganache", ganache, *steps, t_c=37)) == []
    coconut = {"oil": "coconut_oil, 100 g", "sugar": "sugar_powdered, 150 g", "water": "water_tap, 20 g"}
    assert Carries.COCONUT_FAT in names(made("other", coconut, {"add": list(coconut)}))
    assert Carries.COCONUT_FAT not in names(made("other", coconut, {"add": list(coconut)}, t_c=29))


def test_only_family_amounts_and_making_together_say_what_is_outside() -> None:
    plain = {"butter": "butter_unsalted, 250 g", "sugar": "sugar_powdered, 400 g", "milk": "milk_whole, 30 g"}
    add = {"add": ["butter", "sugar", "milk"]}
    assert made("sugar-and-butter frosting", plain, add).outside is Outside.FAT
    assert made("other", plain, add).outside is Outside.UNKNOWN
    lean = plain | {"milk": "milk_whole, 900 g"}
    assert made("sugar-and-butter frosting", lean, add).outside is Outside.WATER, "by amount"
    half = {"butter": "butter_unsalted, 240 g", "milk": "milk_whole, 250 g"}
    melted = made("emulsified milk frosting", half, {"add": ["butter", "milk"], "heat_to": "65 °C"})
    creamed = made("emulsified milk frosting", half, {"add": ["butter", "milk"]})
    assert (melted.outside, melted.emulsified) == (Outside.WATER, True)
    assert (creamed.outside, creamed.emulsified) == (Outside.UNKNOWN, None)


def test_no_fat_and_no_sugar_is_nothing_that_holds() -> None:
    assert names(made("other", {"milk": "milk_skim, 200 g"}, {"add": ["milk"]})) == []


def test_a_gum_that_a_recipe_states_is_known_by_its_name() -> None:
    data = {
        "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": "other",
        "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {"milk": {"kind": "milk_skim", "amount": "300 g"},
                        "gum": {"name": "xanthan gum", "amount": "1 g",
                                "composition": {"fibre": "80 %", "water": "10 %"}}},
        "stages": [{"title": "Make", "steps": [{"do": "Do.", "add": ["milk", "gum"]}]}],
    }  # fmt: skip
    vessel = batch_of(recipe_from(data)).vessels[-1]
    found = structure_of(treated_parts(vessel), "other", vessel_state(vessel, 20))
    assert names(found) == [Carries.GUM]
    assert found.carriers[0].figure == pytest.approx(
        100 / (300 * 0.9084 + 0.1), rel=0.01
    )  # usda-sr28: skim milk, water


def test_every_carrier_has_its_band_and_every_kind_is_one_of_the_table() -> None:
    assert set(bands()) == {one.value for one in Carries}
    assert brings(food("gelatin_sheet_fr")) == "gelatine"
    rows = dict(load_rows("carrier_foods", lambda row: (row["food"], row["brings"]), ("food",)))
    assert rows.keys() - foods().keys() == {"xanthan", "guar", "locust bean"}
    starches = {key for key, one in foods().items() if one.group == "starch"}
    assert starches - rows.keys() == WITHOUT_A_TEMPERATURE


@settings(max_examples=30, deadline=None)
@given(gelatine=st.floats(0.5, 20), more=st.floats(1.01, 5), starch=st.floats(1, 40), butter=st.floats(1, 300))
def test_more_gelatine_never_ranks_lower(gelatine: float, more: float, starch: float, butter: float) -> None:
    def rank(grams: float) -> int:
        parts = {
            "milk": "milk_whole, 300 g", "starch": f"cornstarch, {starch} g", "gelatine": f"gelatin_powder, {grams} g",
            "butter": f"butter_unsalted, {butter} g",
        }  # fmt: skip
        steps = {"add": ["milk", "starch", "gelatine"], "heat_to": "96 °C", "cool_to": "20 °C"}, {"add": ["butter"]}
        found = names(made("other", parts, *steps))
        return found.index(Carries.GELATINE) if Carries.GELATINE in found else 99

    assert rank(gelatine * more) <= rank(gelatine)
