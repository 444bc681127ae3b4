"""How a frosting warms, as text: its curve, its marks, and its times."""

import re
from xml.etree import ElementTree

import pytest
from crumbcoat_calc.forms.conditions import conditions_from
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.air import Air
from crumbcoat_calc.texts.science import science_texts, vessel_state
from crumbcoat_calc.texts.warming import compared_warming_texts
from hypothesis import given
from hypothesis import strategies as st

from tests.calc.texts.test_science import number_in

FAMILY = "sugar-and-butter frosting"


def batch(family: str = FAMILY, **grams: float) -> Batch:
    kinds = {"butter": "butter_unsalted", "sugar": "sugar_powdered", "chocolate": "chocolate_dark_60_69",
             "cream": "cream_heavy_whipping", "oil": "oil_olive", "margarine": "margarine_stick_unsalted"}  # fmt: skip
    data = {
        "title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen", "family": family,
        "yield": {"portions": "12", "of": "cupcakes"},
        "ingredients": {key: {"kind": kinds[key], "amount": f"{mass} g"} for key, mass in grams.items()},
        "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": list(grams)}]}],
    }  # fmt: skip
    return batch_of(recipe_from(data))


def texts(made: Batch, **state: str) -> Texts:
    return science_texts(made, conditions_from(made.recipe, state), Air(0.9))


PLAIN = batch(butter=100, sugar=150)


def test_solid_fat_of_butter_cream_by_hand() -> None:
    """81.11 g of fat in 250 g (usda-sr28); versteeg-2016: 14.6 to 29.6 % of it solid at 20 °C."""
    rows = {row[0]: row[1:] for row in texts(PLAIN)["rows.warming"]}
    found = re.fullmatch(r"(\d+) g \((\d+) to (\d+)\)", rows["20 °C (68 °F)"][0])
    assert found
    value, low, high = map(float, found.groups())
    assert low <= 81.11 / 250 * 14.6 <= value + 2
    assert high + 0.5 >= 81.11 / 250 * 29.6
    assert low <= value <= high
    assert list(rows) == [f"{t} °C ({t * 9 // 5 + 32} °F)" for t in (5, 10, 15, 20, 25, 30, 35)]


def test_the_marks_are_common_practice_and_only_where_fat_carries_it() -> None:
    """Common practice: butter cream pipes from the low teens to the low twenties and slumps in the high twenties."""
    marked = str(texts(PLAIN)["warming.marks"])
    assert "common practice, without a source" in marked
    firm, soft, slumps = [float(found) for found in re.findall(r"about (\d+) °C", marked)]
    assert 10 <= firm <= 15 < 20 <= soft <= 25 <= slumps <= 30
    ganache = str(texts(batch("ganache", chocolate=300, cream=200))["warming.marks"])
    assert ganache.endswith("This is another kind, so nothing is marked.")
    assert "slumps" not in str(texts(batch("ganache", chocolate=300, cream=200))["picture.warming"])
    assert "slumps" in str(texts(PLAIN)["picture.warming"])


def test_the_picture_says_in_words_what_the_table_says() -> None:
    shown = texts(PLAIN)
    picture = ElementTree.fromstring(str(shown["picture.warming"]))
    description = picture.findtext("{http://www.w3.org/2000/svg}desc") or ""
    for at, grams, _ in shown["rows.warming"]:
        assert f"at {at} {grams}" in description


def test_room_and_hands_of_the_reader_are_marked() -> None:
    marked = str(texts(PLAIN, room_temperature="26", hands_temperature="93.2 F")["picture.warming"])
    assert "your room, 26 °C (79 °F)" in marked
    assert "your hands, 34 °C (93 °F)" in marked
    assert "your hands" not in str(texts(PLAIN, hands_temperature="45")["picture.warming"])


def test_fat_that_is_not_known_has_no_curve_but_its_times() -> None:
    shown = texts(batch(margarine=200, sugar=300))
    assert str(shown["warming.marks"]).startswith("Solid fat is not given: it is not known which fat is in margarine")
    assert shown["picture.warming"] == ""
    assert shown["rows.warming"] == []
    assert len(shown["rows.warming_times"]) == 3
    assert "a coat is at 16 °C" in str(shown["warming.short"])


@pytest.mark.parametrize(
    ("state", "room", "sun"),
    [
        ({"warm_to": "25"}, "never", " or more, or never"),
        ({"warm_to": "3"}, "at once", "at once"),
        ({"room_temperature": "40", "warm_to": "12"}, "less than ", "less than "),
    ],
)
def test_times_without_a_range(state: dict[str, str], room: str, sun: str) -> None:
    coat = texts(PLAIN, **state)["rows.warming_times"][1]
    assert room in coat[1]
    assert sun in coat[2]


def test_a_dark_coat_warms_faster_in_the_sun() -> None:
    white = texts(PLAIN)["rows.warming_times"][2]
    dark = texts(batch("ganache", chocolate=300, cream=200))["rows.warming_times"][2]
    assert white[1] == dark[1]
    assert number_in(dark[2]) < number_in(white[2])


def test_two_recipes_side_by_side() -> None:
    others = [PLAIN, batch("ganache", chocolate=300, cream=200), batch(margarine=200, sugar=300)]
    states = [vessel_state(one.vessels[-1], 20) for one in others]
    shown = compared_warming_texts(["Plain", "Dark"], states[:2], 20)
    assert shown["warming.missing"] == ""
    assert [row[1] for row in shown["rows.warming"]] == [row[1] for row in texts(PLAIN)["rows.warming"]]
    assert "Plain" in str(shown["picture.warming"])
    one = compared_warming_texts(["Plain", "Stick"], [states[0], states[2]], 20)
    assert str(one["warming.missing"]).startswith("Solid fat of “Stick” is not given: ")
    assert {row[2] for row in one["rows.warming"]} == {"not given"}
    assert compared_warming_texts(["Stick", "Stick"], [states[2], states[2]], 20)["picture.warming"] == ""


@given(st.floats(30, 500), st.floats(30, 500), st.floats(0.1, 20))
def test_scaling_leaves_the_curve_alone(butter: float, sugar: float, factor: float) -> None:
    one, many = texts(batch(butter=butter, sugar=sugar)), texts(batch(butter=factor * butter, sugar=factor * sugar))
    for before, after in zip(one["rows.warming"], many["rows.warming"], strict=True):
        assert number_in(before[1]) == pytest.approx(number_in(after[1]), abs=1.01)
