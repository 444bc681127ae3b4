"""The bridge answers everything: JSON is RFC 8259, and whatever comes in, a JSON text goes out."""

import json
import subprocess
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import pytest
from crumbcoat_calc.bridge import MOST_CONTEXTS, Session, answer, warm
from crumbcoat_calc.calculators import run
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.forms.context import context_from
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
CONTENT = {"recipe": RECIPE}


def ask(session: Session | None = None, **fields: object) -> dict[str, Any]:
    """The reply to a request that carries its context, unless a session that has it is given."""
    request: dict[str, object] = {"calculator": "batch", "context": "cream", "state": {}, "edit": {}}
    if session is None:
        session, request = Session(), request | {"content": CONTENT}
    reply = json.loads(session.answer(json.dumps(request | fields)))
    assert isinstance(reply, dict)
    return reply


def test_the_answer_is_that_of_run() -> None:
    state, texts = run("batch", context_from(CONTENT), {}, {"factor": "2"})
    assert ask(edit={"factor": "2"}) == {"state": state, "number": 1, "texts": texts}
    assert texts["amount.cream"] == "800 g"


def test_an_error_names_the_field_the_problem_and_the_remedy() -> None:
    assert ask(edit={"amount.cream": "-3 g"}) == {
        "error": {
            "path": ["amount", "cream"],
            "problem": "'-3' is negative",
            "remedy": "remove the minus sign",
        }
    }


def test_a_reader_finds_a_problem_and_a_remedy_without_the_marks_of_a_recipe_file() -> None:
    fields = (
        "factor finished_mass finished_volume amount.cream have.cream bowl cup_weighs bowl_temperature chilled_minutes"
    )
    entries = ["lots", "1e9 g", "1 cup", "-3 g", "5 parsec", "1/0", "1,234", "1.2,3", "9" * 50]
    replies = [ask(edit={field: written}) for field in fields.split() for written in entries]
    errors = [reply["error"] for reply in replies if "error" in reply]
    assert len(errors) > 70
    assert [error for error in errors if not error["problem"] or not error["remedy"]] == []
    assert [error for error in errors if "`" in error["problem"] + error["remedy"] or "'e9" in error["problem"]] == []


def test_what_is_to_be_typed_is_in_quotes() -> None:
    assert ask(edit={"amount.cream": "lots"})["error"]["remedy"] == "write a number and a unit, such as “250 g”"


@pytest.mark.parametrize(
    ("field", "written", "state"),
    [
        ("factor", "1,5", {"factor": "1.5"}),
        ("factor", "١٫٥", {"factor": "1.5"}),
        ("amount.cream", "1.234,5 g", {"amount.cream": "1234.5"}),
        ("amount.cream", "½ kg", {"amount.cream": "500"}),
        ("bowl_temperature", "4,5", {"bowl_temperature": "4.5"}),
        ("chilled_minutes", "2:30", {"chilled_minutes": "2.5"}),
        ("chilled_minutes", "1 h 30 min", {"chilled_minutes": "90"}),
    ],
)
def test_numbers_are_read_as_people_write_them(field: str, written: str, state: dict[str, str]) -> None:
    assert ask(edit={field: written})["state"] == state


def test_a_long_recipe_arrives_whole() -> None:
    assert "texts" in ask(content={"recipe": RECIPE | {"notes": ["a" * LONGEST_TEXT] * 50}})


def test_a_context_is_sent_once() -> None:
    session = Session()
    assert ask(session) == {"unknown": "cream"}
    first = ask(session, content=CONTENT)
    assert ask(session) == {**first, "number": 2}
    assert ask(session, context="another") == {"unknown": "another"}


def test_a_context_that_is_refused_is_not_remembered() -> None:
    session = Session()
    assert "error" in ask(session, content={"recipe": RECIPE | {"family": "soup"}})
    assert ask(session) == {"unknown": "cream"}


def test_the_oldest_context_is_forgotten_and_asked_for_again() -> None:
    session = Session()
    for number in range(MOST_CONTEXTS + 1):
        assert "texts" in ask(session, context=f"{number}", content=CONTENT)
    assert ask(session, context="0") == {"unknown": "0"}
    assert "texts" in ask(session, context="1")


EDITS = [{"factor": "2"}, {"amount.cream": "500"}, {"units": "us"}, {"without.sugar": "yes"}, {"factor": "0.5"}]


@pytest.mark.parametrize("waits", [True, False], ids=["waits for all texts", "is quicker than Python"])
def test_the_texts_that_changed_make_the_page_that_all_texts_make(waits: bool) -> None:
    """A page that shows reply n and puts in what reply n + 1 brings, and what comes later, shows what the whole would.

    The same if some edits come before the rest of the texts was asked for.
    """
    session, state, shown = Session(), {}, {}
    reply = ask(session, content=CONTENT, shown=0)
    shown |= reply["texts"]
    for edit in EDITS:
        reply = ask(session, state=state, edit=edit, shown=reply["number"])
        state, whole = run("batch", context_from(CONTENT), state, edit)
        assert 0 < len(reply["texts"]) < len(whole)
        assert reply["later"]
        shown |= reply["texts"]
        if waits or edit is EDITS[-1]:
            later = later_texts(session, reply["number"])["texts"]
            assert not later.keys() & reply["texts"].keys()
            assert reply["texts"].keys() <= whole.keys()
            assert {*named(later, reply["later"])} == later.keys()
            shown |= later
            assert (reply["state"], shown) == (state, json.loads(json.dumps(whole)))


def named(texts: Iterable[str], names: Iterable[str]) -> Iterator[str]:
    """Those with one of these names, or with one that begins so up to a point."""
    for name in texts:
        if any(f"{name}.".startswith(f"{one}.") for one in names):
            yield name


def test_what_comes_later_is_known_by_its_names_before_it_is_worked_out() -> None:
    session = Session()
    for request in ({"content": CONTENT, "shown": 0}, {"edit": {"amount.cream": "500"}, "shown": 1}):
        reply = ask(session, **request)
        assert [*named(reply["texts"], reply["later"])] == []
        later = later_texts(session, reply["number"])["texts"]
        assert {*named(later, reply["later"])} == later.keys() > set()
    whole = ask(session, content=CONTENT)["texts"]
    assert [name for name in reply["later"] if not [*named(whole, [name])]] == []


def test_the_first_answer_to_a_page_comes_without_what_takes_longest() -> None:
    session = Session()
    first = ask(session, content=CONTENT, shown=0)
    assert first["texts"] | later_texts(session, first["number"])["texts"] == ask(content=CONTENT)["texts"]


def later_texts(session: Session, number: int, **fields: object) -> dict[str, Any]:
    reply = json.loads(
        session.answer(json.dumps({"calculator": "batch", "context": "cream", "later": number} | fields))
    )
    assert isinstance(reply, dict)
    return reply


def test_what_was_left_for_later_is_given_once_and_only_for_the_latest_reply() -> None:
    session = Session()
    first = ask(session, content=CONTENT)
    assert "later" not in first
    second = ask(session, edit={"factor": "2"}, shown=first["number"])
    third = ask(session, edit={"factor": "3"}, shown=second["number"])
    assert later_texts(session, second["number"]) == {}
    assert later_texts(session, third["number"], context="another") == {}
    assert later_texts(session, third["number"], calculator="label") == {}
    assert later_texts(session, third["number"])["texts"]["science.fat"]
    assert later_texts(session, third["number"]) == {}
    assert later_texts(Session(), third["number"]) == {}, "Python was started again meanwhile"


def test_a_number_that_is_none_is_refused() -> None:
    for number in ("two", True, None):
        assert later_texts(Session(), number)["error"]["problem"]  # type: ignore[arg-type]


def test_a_page_that_shows_another_reply_gets_all_texts() -> None:
    """As after a start from the beginning, or on another page with the same recipe."""
    session = Session()
    whole = ask(session, content=CONTENT)["texts"]
    ask(session, edit={"factor": "2"}, shown=1)
    for shown in (0, 1, 3, -1):
        reply = ask(session, shown=shown)
        assert reply["texts"] | later_texts(session, reply["number"])["texts"] == whole


def test_calculators_do_not_disturb_what_others_show() -> None:
    session = Session()
    batch = ask(session, content=CONTENT)
    ask(session, calculator="label", edit={}, shown=0)
    assert ask(session, shown=batch["number"])["texts"] == {}


WELL_FORMED: dict[str, object] = {
    "calculator": "batch", "context": "a", "content": CONTENT, "state": {}, "edit": {},
}  # fmt: skip


def test_a_well_formed_request_has_an_answer() -> None:
    assert "texts" in json.loads(answer(json.dumps(WELL_FORMED)))


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
        *[
            pytest.param(json.dumps(WELL_FORMED | wrong), id=name)
            for name, wrong in {
                "a text shown": {"shown": "1"},
                "a digest that is not text": {"context": {}},
                "a name that is not text": {"calculator": 3},
                "half a pair": {"calculator": "\ud800"},
                "a context that is a text": {"content": "{"},
                "a context that is a list": {"content": []},
                "no recipe": {"content": {}},
                "a recipe and more": {"content": CONTENT | {"wine": "1"}},
                "a number in state": {"state": {"a": 1}},
                "state that is a list": {"state": []},
                "a field more": {"more": 1},
            }.items()
        ],
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
    ["factor", "size_by.cream", "portions", "finished_mass", "amount.cream", "amount.sugar", "without.sugar",
     "without.cream", "instead.cream", "amount.", "amount.milk", "amount", ".", "", "recipe", "context"]
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


def test_after_warming_every_kind_is_there_but_its_text_takes_room_once() -> None:
    """What is made of a row is made when a recipe asks for it, also where no file can be read any more."""
    script = """
import pathlib
import crumbcoat_calc.bridge, crumbcoat_calc.tables
from crumbcoat_calc.foods.allergens import allergen_assessment
from crumbcoat_calc.foods.diets import UNKNOWN_ORIGIN, origin_of
from crumbcoat_calc.foods.table import foods
crumbcoat_calc.bridge.warm()
crumbcoat_calc.tables._DATA = pathlib.Path("nowhere")
for kind in foods().values():
    assert allergen_assessment(kind, "US") and origin_of(kind) is not UNKNOWN_ORIGIN
for name in ("foods", "measures", "allergens", "diets"):
    try:
        crumbcoat_calc.tables.content_of(f"{name}.csv")
    except FileNotFoundError:
        continue
    raise AssertionError(name)
"""
    subprocess.run([sys.executable, "-c", script], check=True)


def test_after_warming_no_file_is_read() -> None:
    """A memory snapshot holds no files; every demo recipe is answered with the tables' folder out of reach."""
    script = """
import json, pathlib, sys
import crumbcoat_calc.bridge, crumbcoat_calc.tables, crumbcoat_calc.values.units
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
crumbcoat_calc.bridge.warm()
recipes = [load_recipe(path, path.name)[1] for path in pathlib.Path("recipes").glob("*/*.yaml")]
crumbcoat_calc.tables._DATA = crumbcoat_calc.values.units._DATA = pathlib.Path("nowhere")
for recipe in recipes:
    key = next(iter(recipe["ingredients"]))
    request = {"calculator": "batch", "context": recipe["title"], "content": {"recipe": recipe}, "state": {}}
    edits = [{}, {"factor": "1.37"}, {"units": "us"}, {"scale": "fine"}, {f"amount.{key}": "1 lb"}, {"bowl": "5 L"}]
    for edit in edits:
        assert "texts" in crumbcoat_calc.bridge.answer(json.dumps({**request, "edit": edit}))
"""
    subprocess.run([sys.executable, "-c", script], check=True, cwd=Path(__file__).parents[2])
