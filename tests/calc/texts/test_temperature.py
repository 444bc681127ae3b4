"""Temperatures as text: as mixed, how cold the milk must be, how long to chill."""

import pytest
from crumbcoat_calc.forms.conditions import conditions_from
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.texts.temperature import chilling_text, condition_texts, temperature_texts

from tests.calc.texts.test_science import number_in


def batch(family: str = "emulsified milk frosting", **changed: str) -> Batch:
    data = {
        "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": family,
        "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {
            "milk": {"kind": "milk_skim", "amount": "300 g", "temperature": "10 °C"},
            "water": {"kind": "water_tap", "amount": "300 g"},
            "cooked": {"kind": "water_tap", "amount": "100 g"},
        },
        "stages": [
            {"title": "Cook", "makes": "base", "steps": [{"do": "Heat.", "add": ["cooked"], "heat_to": "80 °C"}]},
            {"title": "Mix", "steps": [{"do": "Mix.", "add": ["milk", "water", "base"]}]},
        ],
    }  # fmt: skip
    recipe = recipe_from(data)
    conditions = conditions_from(recipe, changed)
    return batch_of(recipe, BatchOptions(temperatures_c=conditions.temperatures_c))


def shown(**changed: str) -> dict[str, object]:
    made = batch(**changed)
    conditions = conditions_from(made.recipe, changed)
    return dict(condition_texts(made, conditions) | temperature_texts(made, conditions, 1))


def test_like_waters_mix_by_mass() -> None:
    """By hand, water on water, skimmed milk nearly so: (300·10 + 300·20 + 100·80) / 700 = 24.3 °C."""
    text = str(shown()["science.mixing_temperature"])
    assert number_in(text) == pytest.approx((300 * 10 + 300 * 20 + 100 * 80) / 700, abs=0.4)
    assert "water" in text
    assert "room temperature, 20 °C (68 °F)" in text


def test_what_a_step_heats_goes_on_at_that_temperature() -> None:
    parts = {part.key: part for part in batch().vessels[-1].parts}
    assert parts["cooked"].temperature_c == 80
    assert parts["cooked"].brought
    assert not parts["milk"].brought


def test_the_reader_enters_a_temperature() -> None:
    text = shown(**{"temperature.milk": "30", "temperature.water": "68 °F"})
    assert text["temperature.milk"] == "30"
    assert text["temperature.water"] == "20"
    assert number_in(text["science.mixing_temperature"]) == pytest.approx(33, abs=0.4)


def test_mixer_work_warms() -> None:
    """By hand: 60 W for 10 min are 36 kJ, on 700 g of about 4.1 J/(g K): 12.5 °C."""
    before = number_in(shown()["science.mixing_temperature"])
    after = number_in(shown(mixer_watts="60", mixer_minutes="10")["science.mixing_temperature"])
    assert after - before == pytest.approx(12.5, abs=0.5)


def test_how_cold_the_liquid_must_be_comes_back_as_the_mixture() -> None:
    needed = str(shown(target_temperature="25", tempered="milk")["tempering"])
    assert needed.startswith("300 g of milk")
    cold = number_in(needed.partition(" at ")[2])
    again = shown(**{"temperature.milk": f"{cold}"})["science.mixing_temperature"]
    assert number_in(again) == pytest.approx(25, abs=0.15)


def test_what_is_cooked_with_others_cannot_be_tempered() -> None:
    assert "is heated or cooled" in str(shown(tempered="cooked")["tempering"])


def test_chilling_by_the_reader_s_own_pair() -> None:
    """Newton's law by hand: 28 to 24 °C in 10 min at 4 °C is tau = 10 / ln(24 / 20) = 54.8 min; 26 to 20 °C: 17.5."""
    made = batch()
    recipe = made.recipe
    told = {"bowl_temperature": "26", "target_temperature": "20", "cold_temperature": "4"}
    pair = {"chilled_from": "28", "chilled_to": "24", "chilled_minutes": "10"}
    assert chilling_text(made, conditions_from(recipe, told | pair)).startswith("17 min from 26 °C")
    assert "common practice: about 10 min in the refrigerator" in chilling_text(made, conditions_from(recipe, told))
    assert "no need" in chilling_text(made, conditions_from(recipe, {"bowl_temperature": "18"}))
    wrong = pair | {"chilled_to": "29"}
    assert chilling_text(made, conditions_from(recipe, told | wrong)).startswith(
        "not given: the second reading must be"
    )


def test_a_whipped_cream_is_advised_no_temperature_of_butter() -> None:
    """Common practice: what is beaten with butter is beaten near 20 °C, and again if it was chilled."""
    for family in ("whipped cream", "ganache", "curd or custard filling"):
        made = batch(family)
        conditions = conditions_from(made.recipe, {})
        assert conditions.target_c is None
        texts = temperature_texts(made, conditions, 1)
        assert texts["tempering"] == ""
        assert str(texts["science.chilling"]).startswith("not given: enter what it should be at")
        told = {"bowl_temperature": "26", "target_temperature": "20", "cold_temperature": "4"}
        pair = {"chilled_from": "28", "chilled_to": "24", "chilled_minutes": "10"}
        assert chilling_text(made, conditions_from(made.recipe, told | pair)) == (
            "17 min from 26 °C (79 °F) to 20 °C (68 °F)"
        )
        assert "common practice" not in chilling_text(made, conditions_from(made.recipe, told))


def test_what_the_recipe_heats_has_no_temperature_of_its_own() -> None:
    texts = shown()
    assert [texts[f"heats.{key}"] for key in ("cooked", "milk", "water")] == ["yes", "", ""]
    assert str(texts["heated"]).startswith("The recipe itself heats or cools water: how cold or warm")


def test_butter_that_would_have_to_melt_is_not_advised() -> None:
    """Common practice: butter above 25 °C takes in no more air."""
    data = {
        "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen",
        "family": "sugar-and-butter frosting", "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {
            "butter": {"kind": "butter_unsalted", "amount": "300 g"},
            "sugar": {"kind": "sugar_powdered", "amount": "300 g", "temperature": "15 °C"},
        },
        "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": ["butter", "sugar"]}]}],
    }  # fmt: skip
    made = batch_of(recipe_from(data))
    conditions = conditions_from(made.recipe, {"target_temperature": "30"})
    texts = condition_texts(made, conditions) | temperature_texts(made, conditions, 0)
    assert texts["tempered"] == "butter"
    assert "butter, unsalted would be too soft to beat" in str(texts["tempering"])


def creamed(butter_c: str, sugar_c: str, milk_g: str = "100 g", **changed: str) -> str:
    """The ingredient to make colder or warmer for butter that is creamed with sugar and milk."""
    data = {
        "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen",
        "family": "sugar-and-butter frosting", "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {
            "butter": {"kind": "butter_unsalted", "amount": "300 g", "temperature": butter_c},
            "sugar": {"kind": "sugar_powdered", "amount": "300 g", "temperature": sugar_c},
            "milk": {"kind": "milk_whole", "amount": milk_g, "temperature": "10 °C"},
            "vanilla": {"kind": "vanilla_extract", "amount": "8 g"},
        },
        "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": ["butter", "sugar", "milk", "vanilla"]}]}],
    }  # fmt: skip
    made = batch_of(recipe_from(data))
    conditions = conditions_from(made.recipe, changed)
    return str(temperature_texts(made, conditions, 0)["tempering"])


def test_butter_is_never_advised_too_warm_to_cream() -> None:
    """Common practice: butter is creamed at 18 to 20 °C. The milk is cold, so the butter would have to be warmer."""
    shown_text = creamed("19 °C", "19 °C", tempered="butter")
    assert shown_text.startswith("not given: at 2")
    assert "butter, unsalted would be too soft to beat. As it is, the mixture comes out at " in shown_text
    assert shown_text.endswith(", and beating warms it")
    assert creamed("19 °C", "19 °C", tempered="butter", target_temperature="15").startswith(
        "300 g of butter, unsalted at "
    )


def test_nothing_hot_goes_onto_unmelted_butter() -> None:
    """Milk fat is soft from 30 °C on: a tenth of milk at 40 °C and more would make the butter greasy where it falls."""
    shown_text = creamed("17 °C", "17 °C", tempered="milk")
    assert "milk, whole, 3.25 % fat would melt the butter. As it is, the mixture comes out at 1" in shown_text


def test_what_is_too_little_is_not_advised() -> None:
    for key, milk_g in (("vanilla", "100 g"), ("milk", "60 g")):
        assert "is too little to change the mixture's temperature. As it is" in creamed(
            "19 °C", "19 °C", milk_g, tempered=key
        )


@pytest.mark.parametrize("cream_c", ["5", "9", "20"])
def test_the_temperature_of_cream_that_is_whipped_matters(cream_c: str) -> None:
    """Common practice: cream whips at 4 to 8 °C, though the recipe chills it itself in the end.

    Where the reader's is too warm for that, the card says so all the more.
    """
    data = {
        "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": "whipped cream",
        "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {
            "cream": {"kind": "cream_heavy_whipping", "amount": "300 g", "temperature": "5 °C"},
            "sugar": {"kind": "sugar_powdered", "amount": "30 g"},
        },
        "stages": [
            {"title": "Whip", "steps": [
                {"do": "Whip.", "add": ["cream", "sugar"], "tool": "whisk", "speed": "high"},
                {"do": "Chill.", "cool_to": "5 °C"}]}],
    }  # fmt: skip
    conditions = conditions_from(recipe_from(data), {"temperature.cream": cream_c})
    made = batch_of(recipe_from(data), BatchOptions(temperatures_c=conditions.temperatures_c))
    heated = str(condition_texts(made, conditions)["heated"])
    before, _, after = heated.partition("changes no figure.")
    assert "cream" not in before
    assert after == " Common practice: whip cream at 4 to 8 °C; above about 10 °C it does not whip."
