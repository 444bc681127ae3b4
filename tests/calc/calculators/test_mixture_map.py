"""The map: its points are the batch calculator's own figures, and the point stays where it is put."""

import xml.etree.ElementTree as ElementTree

import pytest
from crumbcoat_calc.calculators import mixture_map, run
from crumbcoat_calc.calculators.mixture_map import form_state, read
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.science.mixture_map import map_point

from tests.calc.calculators.test_formulate import CONTEXT, RECIPE


def texts(edit: dict[str, str]) -> dict[str, object]:
    return dict(run("map", CONTEXT, {}, edit)[1])


def test_the_recipe_s_own_point_is_what_its_card_says() -> None:
    card = run("batch", CONTEXT, {}, {})[1]
    shown = texts({})
    assert (shown["x"], shown["y"]) == ("0", "2"), "the wettest and the sweetest ingredient"
    assert (shown["x_g"], shown["y_g"]) == ("300", "200")
    assert shown["fat"] == card["fat.percent"]
    assert shown["fat_volume"] == str(card["science.fat_volume"]).partition(" (")[0]
    assert shown["undissolved"] == card["science.undissolved_sugar"]


def test_a_moved_point_is_the_batch_with_those_amounts() -> None:
    shown = texts({"x_percent": "50", "y_g": "390"})
    card = run("batch", CONTEXT, {}, {"amount.milk": "150", "amount.sugar": "390"})[1]
    assert shown["x_g"] == "150"
    assert shown["fat"] == card["fat.percent"]
    assert shown["undissolved"] == str(card["science.undissolved_sugar"]).partition(" (")[0]


def test_the_table_has_the_same_figures() -> None:
    rows = {(row[0], row[1]): row for row in texts({})["rows.map"]}  # type: ignore[attr-defined]
    assert len(rows) == 25
    fat_g = 250 * 0.8111 + 600 * 0.0325
    assert rows["600 g", "400 g"][2] == f"{100 * fat_g / (600 + 400 + 250 + 1 - 25):.1f} %"


def test_the_picture_describes_the_point_in_words() -> None:
    shown = texts({"y_g": "100"})
    picture = ElementTree.fromstring(str(shown["picture.map_point"]))
    description = picture.findtext("{http://www.w3.org/2000/svg}desc") or ""
    for word in ("100 g of", str(shown["fat"]), str(shown["region"])):
        assert word in description


def test_moving_the_point_leaves_everything_else_as_it_is() -> None:
    one, other = texts({}), texts({"x_percent": "20"})
    assert one["picture.map_point"] != other["picture.map_point"]
    for name in ("picture.map", "picture.map_key", "rows.map"):
        assert one[name] is other[name], "drawn once"


def test_the_ground_is_worked_out_once_for_a_question(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only the mixture at the point is worked out for an edit that moves it."""
    asked: list[object] = []
    monkeypatch.setattr(mixture_map, "map_point", lambda *given: asked.append(given) or map_point(*given))
    run("map", CONTEXT, {}, {"bowl_temperature": "21"})
    first = len(asked)
    run("map", CONTEXT, {"bowl_temperature": "21"}, {"x_g": "123"})
    assert 10 < first < 800, "a few hundred points along the borders"
    assert len(asked) - first == 1


def test_the_point_s_picture_says_how_an_amount_is_read_off_it() -> None:
    picture = ElementTree.fromstring(str(texts({"x_g": "150", "y_g": "100"})["picture.map_point"]))
    assert {name: picture.get(f"data-{name}") for name in ("x-end", "x-step", "y-end", "y-step")} == {
        "x-end": "600", "x-step": "1", "y-end": "400", "y-step": "1"}  # fmt: skip
    point = picture.find("{http://www.w3.org/2000/svg}circle")
    assert point is not None
    assert (point.get("cx"), point.get("cy")) == ("25%", "75%")


@pytest.mark.parametrize(
    ("edit", "state"),
    [
        ({"x": "0"}, {}),
        ({"x": "1"}, {"x": "1"}),
        ({"x": "2"}, {"x": "2", "y": "0"}),
        ({"x_percent": "100"}, {}),
        ({"x_percent": "10"}, {"x_g": "30"}),
        ({"y_g": "0"}, {"y_g": "0"}),
        ({"bowl_temperature": "5"}, {"bowl_temperature": "5"}),
    ],
)
def test_what_is_kept(edit: dict[str, str], state: dict[str, str]) -> None:
    assert run("map", CONTEXT, {}, edit)[0] == state
    assert form_state(read(CONTEXT, state)) == state


@pytest.mark.parametrize("edit", [{"x_g": "601"}, {"x": "9"}, {"y_percent": "201"}, {"z": "1"}, {"x_g": "much"}])
def test_what_cannot_be_used_is_refused_at_its_field(edit: dict[str, str]) -> None:
    with pytest.raises(InputError) as error:
        run("map", CONTEXT, {}, edit)[0]
    assert ".".join(map(str, error.value.path)) in edit


def test_a_recipe_of_one_ingredient_has_no_map() -> None:
    alone = {**RECIPE, "ingredients": {"butter": {"kind": "butter_unsalted", "amount": "1 g"}}, "stages": [
        {"title": "Beat", "steps": [{"do": "Beat.", "add": ["butter"]}]}]}  # fmt: skip
    with pytest.raises(InputError, match="two ingredients"):
        run("map", context_from({"recipe": alone}), {}, {})
