"""The bridge answers everything: JSON is RFC 8259, and whatever comes in, a JSON text goes out."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from crumbcoat_calc.bridge import answer, warm
from crumbcoat_calc.calculators import run
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.values.fields import LONGEST_TEXT
from crumbcoat_calc.values.units import registry
from hypothesis import given
from hypothesis import strategies as st

RECIPE = {
    "title": "Whipped cream", "summary": "Cream and sugar.", "author": "Lantern Street teaching kitchen",
    "family": "whipped cream", "yield": {"portions": "8", "of": "servings"},
    "ingredients": {
        "cream": {"kind": "cream_heavy_whipping", "amount": "400 g"},
        "sugar": {"kind": "sugar_granulated", "amount": "40 g", "optional": "yes"},
    },
    "stages": [{"title": "Whip", "steps": [{"do": "Whip.", "add": ["cream", "sugar"]}]}],
}  # fmt: skip
GIVEN = json.dumps({"recipe": RECIPE})


def ask(**fields: object) -> dict[str, dict[str, object]]:
    request = {"calculator": "batch", "given": GIVEN, "state": {}, "edit": {}} | fields
    reply = json.loads(answer(json.dumps(request)))
    assert isinstance(reply, dict)
    return reply


def test_the_answer_is_that_of_run() -> None:
    state, texts = run("batch", GIVEN, {}, {"factor": "2"})
    assert ask(edit={"factor": "2"}) == {"state": state, "texts": texts}
    assert texts["amount.cream"] == "800 g"


def test_an_error_names_the_field_the_problem_and_the_remedy() -> None:
    assert ask(edit={"amount.cream": "-3 g"}) == {
        "error": {
            "path": ["amount", "cream"],
            "problem": "'-3' is negative",
            "remedy": "remove the minus sign",
        }
    }


def test_a_long_recipe_is_given_whole() -> None:
    long = json.dumps({"recipe": RECIPE | {"notes": ["a" * LONGEST_TEXT] * 50}})
    assert "texts" in ask(given=long)


@pytest.mark.parametrize(
    "request_text",
    [
        pytest.param("", id="nothing"),
        pytest.param("{", id="half a brace"),
        pytest.param("null", id="null"),
        pytest.param("NaN", id="not a number"),
        pytest.param("[]", id="a list"),
        pytest.param('"batch"', id="a text"),
        pytest.param("{}", id="no fields"),
        pytest.param("[" * 100_000, id="a very deep list"),
        pytest.param('{"a":' * 50_000, id="a very deep object"),
        pytest.param("1" * 10_000, id="a very long number"),
        pytest.param('{"calculator": "batch"}', id="fields missing"),
        pytest.param('{"calculator": "batch", "given": {}, "state": {}, "edit": {}}', id="given that is no text"),
        pytest.param('{"calculator": 3, "given": "{}", "state": {}, "edit": {}}', id="a name that is no text"),
        pytest.param('{"calculator": "batch", "given": "{", "state": {}, "edit": {}}', id="given that is no JSON"),
        pytest.param('{"calculator": "batch", "given": "[[", "state": {}, "edit": {}}', id="given that is a list"),
        pytest.param('{"calculator": "batch", "given": "{}", "state": {}, "edit": {}}', id="no recipe"),
        pytest.param('{"calculator": "batch", "given": "{}", "state": {"a": 1}, "edit": {}}', id="a number in state"),
        pytest.param('{"calculator": "batch", "given": "{}", "state": [], "edit": {}}', id="state that is a list"),
        pytest.param('{"calculator": "\\ud800", "given": "{}", "state": {}, "edit": {}}', id="half a pair"),
        pytest.param('{"calculator": "batch", "given": "{}", "state": {}, "edit": {}, "more": 1}', id="a field more"),
    ],
)
def test_what_is_malformed_is_refused(request_text: str) -> None:
    reply = answer(request_text)
    reply.encode("utf-8")
    error = json.loads(reply)["error"]
    assert set(error) == {"path", "problem", "remedy"}
    assert error["problem"]
    assert error["remedy"]


_JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=10,
)


@given(st.text() | _JSON.map(json.dumps))
def test_any_text_has_an_answer(request_text: str) -> None:
    answer(request_text).encode("utf-8")
    assert "error" in json.loads(answer(request_text))


NAMES = st.sampled_from(
    ["factor", "mode", "portions", "finished_mass", "amount.cream", "amount.sugar", "without.sugar", "without.cream",
     "instead.cream", "amount.", "amount.milk", "amount", ".", "", "recipe", "given"]
)  # fmt: skip
VALUES = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["0", "1", "-1", "2", "1/2", "½", "1e9", "1000000000", "0.0000001", "nan", "inf", "-inf", "yes", "no", "all",
         "this", "", " ", "250 g", "1 US cup", "1 cup", "0 g", "0 kg", "5 min", "🧈", "1,5", "1/0", "٣", "²", "9" * 400,
         "x" * 5000, "\0", "\ud800", "10 t", "1 US cup, whipped", "0, whipped", "--", "1 2 3", "1/2/3", "% g"]
    ),
    st.floats().map(str),
    st.integers().map(str),
)  # fmt: skip
CHANGES = st.dictionaries(NAMES, VALUES, max_size=3)


@given(state=CHANGES, edit=CHANGES)
def test_any_change_has_an_answer_or_a_reason(state: dict[str, str], edit: dict[str, str]) -> None:
    reply = ask(state=state, edit=edit)
    if "error" in reply:
        assert reply["error"]["problem"]
        assert reply["error"]["remedy"]
    else:
        shown = json.dumps(reply["texts"])
        assert "nan" not in shown
        assert "inf" not in shown.replace("information", "")


def test_warming_loads_the_ingredient_table_and_the_units() -> None:
    foods.cache_clear()
    registry.cache_clear()
    warm()
    assert foods.cache_info().currsize == 1
    assert registry.cache_info().currsize == 1


def test_after_warming_no_file_is_read() -> None:
    """A memory snapshot holds no files; every demo recipe is answered with the tables' folder out of reach."""
    script = """
import json, pathlib, sys
import crumbcoat_calc.bridge, crumbcoat_calc.tables, crumbcoat_calc.values.units
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
crumbcoat_calc.bridge.warm()
given = [json.dumps({"recipe": load_recipe(path, path.name)[1]}) for path in pathlib.Path("recipes").rglob("*.yaml")]
crumbcoat_calc.tables._DATA = crumbcoat_calc.values.units._DATA = pathlib.Path("nowhere")
for one in given:
    key = next(iter(json.loads(one)["recipe"]["ingredients"]))
    for edit in ({}, {"factor": "1.37"}, {"units": "us"}, {"scale": "1"}, {f"amount.{key}": "1 lb"}, {"bowl": "5 L"}):
        crumbcoat_calc.bridge.answer(json.dumps({"calculator": "batch", "given": one, "state": {}, "edit": edit}))
"""
    subprocess.run([sys.executable, "-c", script], check=True, cwd=Path(__file__).parents[2])
