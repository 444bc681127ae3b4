"""The batch calculator: every change that a reader can make, and all that cannot be one."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.calculators import run
from calc.calculators.batch import keep, read
from calc.errors import InputError

RECIPE = {
    "title": "Milk buttercream", "summary": "Milk and butter.", "author": "Lantern Street teaching kitchen",
    "family": "other", "yield": {"portions": "12", "of": "cupcakes"}, "tried": {"from": "1/2", "to": "2"},
    "ingredients": {
        "milk": {
            "kind": "milk_whole", "name": "whole milk", "amount": "300 g",
            "portions": {"cooked": "200 g", "cold": "100 g"},
            "replacements": {"cream": {"kind": "cream_light", "name": "light cream", "grams_per_gram": "0.5"}},
        },
        "butter": {"kind": "butter_unsalted", "amount": "1/2 lb"},
        "sugar": {"kind": "sugar_granulated", "amount": "1 US cup"},
        "salt": {"kind": "salt_table", "amount": "1 g", "optional": "yes"},
    },
    "stages": [
        {
            "title": "Base", "makes": "base",
            "steps": [{"do": "Boil.", "add": ["milk/cooked", "sugar"], "water_lost": "26 g"}],
        },
        {
            "title": "Beat",
            "steps": [
                {"do": "Beat.", "add": ["butter"]},
                {"do": "Bring together.", "add": ["base", "milk/cold"], "additions": "4"},
                {"do": "Season.", "add": ["salt"], "optional": "yes"},
            ],
        },
    ],
}  # fmt: skip
GIVEN = json.dumps({"recipe": RECIPE})
FINISHED_G = 300 + 226.796185 + 200 + 1 - 26


def after(*edits: dict[str, str], state: dict[str, str] | None = None) -> tuple[dict[str, str], dict[str, object]]:
    kept, texts = state or {}, run("batch", GIVEN, state or {}, {})[1]
    for edit in edits:
        kept, texts = run("batch", GIVEN, kept, edit)
    return kept, dict(texts)


def test_as_published() -> None:
    state, texts = after()
    assert state == {}
    assert texts["factor"] == "1"
    assert texts["amount.butter"] == "227 g"
    assert texts["portion.milk.cooked"] == "200 g"
    assert texts["finished_mass"] == "702 g"
    assert texts["portions_of"] == "12 cupcakes"
    assert texts["each_mass"] == "58 g"
    assert texts["water_lost"] == "26 g"
    assert texts["caution.tried"] == ""
    assert texts["use.1.1.0"] == "374 g"
    assert texts["each.1.1"] == "4 additions of 94 g and 25 g"
    assert texts["lost.0.0"] == "26 g"
    assert texts["stage.0.mass"] == "374 g"


def test_the_fat_percentage_by_hand() -> None:
    """By hand, usda-sr28: whole milk 3.25 % and butter 81.11 % of fat."""
    fat = 100 * (300 * 0.0325 + 226.796185 * 0.8111) / FINISHED_G
    assert after()[1]["fat.percent"] == f"{fat:.1f} %"
    assert str(after()[1]["status"]).startswith(f"702 g with {fat:.1f} % fat, for 12 cupcakes")


@pytest.mark.parametrize(
    ("edit", "state", "shown"),
    [
        pytest.param({"factor": "2"}, {"factor": "2"}, {"amount.milk": "600 g", "portions": "24"}, id="two batches"),
        pytest.param({"factor": "1/2"}, {"factor": "0.5"}, {"amount.milk": "150 g"}, id="half a batch"),
        pytest.param({"factor": " 2.50 "}, {"factor": "2.5"}, {"amount.milk": "750 g"}, id="spaces and zeros go"),
        pytest.param({"factor": "1.0"}, {}, {"amount.milk": "300 g"}, id="one batch is not kept"),
        pytest.param({"portions": "36"}, {"factor": "3"}, {"portions_of": "36 cupcakes"}, id="by portions"),
        pytest.param(
            {"finished_mass": "1403.59237 g"}, {"factor": "2"}, {"amount.sugar": "400 g"}, id="by finished mass"
        ),
        pytest.param({"finished_mass": "1 kg"}, None, {"finished_mass": "1000 g"}, id="by finished mass in kg"),
        pytest.param({"finished_mass": "350"}, None, {"finished_mass": "350 g"}, id="a bare number is grams"),
        pytest.param(
            {"mode": "all", "amount.butter": "1 lb"}, {"factor": "2", "mode": "all"}, {"amount.milk": "600 g"},
            id="by the butter one has",
        ),
        pytest.param(
            {"mode": "all", "amount.sugar": "3 US cups"}, {"factor": "3", "mode": "all"}, {"amount.sugar": "600 g"},
            id="by a household measure of the sugar one has",
        ),
        pytest.param(
            {"amount.butter": "250 g"}, {"amount.butter": "250"},
            {"amount.butter": "250 g", "amount.milk": "300 g", "changed.butter": "published: 227 g"},
            id="this amount alone",
        ),
        pytest.param({"amount.sugar": "1 US cup"}, {}, {"changed.sugar": ""}, id="the published amount is not kept"),
        pytest.param({"amount.sugar": "0"}, {"amount.sugar": "0"}, {"amount.sugar": "0 g"}, id="none of it"),
        pytest.param({"amount.sugar": "0 kg"}, {"amount.sugar": "0"}, {"amount.sugar": "0 g"}, id="none, in kg"),
        pytest.param({"amount.salt": "½"}, {"amount.salt": "0.5"}, {"amount.salt": "0.5 g"}, id="a bare half"),
        pytest.param({"without.salt": "yes"}, {"without.salt": "yes"}, {"without.salt": "yes"}, id="left out"),
        pytest.param({"without.salt": "no"}, {}, {"without.salt": ""}, id="left in"),
        pytest.param(
            {"instead.milk": "cream"}, {"instead.milk": "cream"},
            {"amount.milk": "150 g", "name.milk": "light cream", "portion.milk.cold": "50 g"}, id="cream instead",
        ),
        pytest.param({"instead.milk": ""}, {}, {"amount.milk": "300 g"}, id="nothing instead"),
        pytest.param(
            {"instead.milk": "cream", "amount.milk": "300 g"}, {"amount.milk": "600", "instead.milk": "cream"},
            {"amount.milk": "300 g"}, id="an amount is that of the replacement",
        ),
    ],
)  # fmt: skip
def test_a_change(edit: dict[str, str], state: dict[str, str] | None, shown: dict[str, str]) -> None:
    kept, texts = after(edit)
    if state is not None:
        assert kept == state
    assert {name: texts[name] for name in shown} == shown


def test_an_amount_in_a_doubled_batch_is_kept_for_one_batch() -> None:
    state, texts = after({"factor": "2"}, {"amount.milk": "500 g"})
    assert state == {"factor": "2", "amount.milk": "250"}
    assert texts["amount.milk"] == "500 g"
    assert after({"factor": "1"}, state=state)[1]["amount.milk"] == "250 g"


def test_outside_what_was_tried_the_page_says_so() -> None:
    assert after({"factor": "2"})[1]["caution.tried"] == ""
    for factor in ("2.001", "0.499"):
        assert "from 0.5 to 2 batches" in str(after({"factor": factor})[1]["caution.tried"])


def test_going_back_to_the_published_recipe_empties_the_state() -> None:
    edits = (
        {"factor": "3"},
        {"amount.milk": "1 kg"},
        {"instead.milk": "cream"},
        {"without.salt": "yes"},
        {"mode": "all"},
    )
    back = ({"mode": "this"}, {"without.salt": "no"}, {"instead.milk": ""}, {"factor": "1"}, {"amount.milk": "300 g"})
    assert set(after(*edits)[0]) == {"factor", "amount.milk", "instead.milk", "without.salt", "mode"}
    assert after(*edits, *back)[0] == {}


@pytest.mark.parametrize(
    ("edit", "path", "problem"),
    [
        ({"factor": "0"}, ("factor",), "0 batches cannot be made"),
        ({"factor": "-2"}, ("factor",), "'-2' is negative"),
        ({"factor": "1001"}, ("factor",), "1001 batches cannot be made"),
        ({"factor": "0.0000001"}, ("factor",), "1e-07 batches cannot be made"),
        ({"factor": "two"}, ("factor",), "'two' is not a number"),
        ({"factor": "nan"}, ("factor",), "'nan' is not a number"),
        ({"factor": "inf"}, ("factor",), "'inf' is not a number"),
        ({"factor": "1e3"}, ("factor",), "'1e3' is not a number"),
        ({"factor": "🧈"}, ("factor",), "'🧈' is not a number"),
        ({"factor": ""}, ("factor",), "the field is empty"),
        ({"factor": "9" * 39}, ("factor",), f"'{'9' * 39}' is too large a number"),
        ({"factor": "9" * 5000}, ("factor",), "a number of 5000 signs is too long"),
        ({"portions": "0"}, ("portions",), "that would be 0 batches"),
        ({"portions": "1000000"}, ("portions",), "that would be 8.33e+04 batches"),
        ({"finished_mass": "0 g"}, ("finished_mass",), "that would be 0 batches"),
        ({"finished_mass": "5 min"}, ("finished_mass",), "'min' is not a unit of mass"),
        ({"finished_mass": "1000000000 kg"}, ("finished_mass",), "'1000000000 kg' lies outside 0 to 10000000 g"),
        ({"mode": "some"}, ("mode",), "there is no mode 'some'"),
        ({"amount.milk": "1 cup"}, ("amount", "milk"), "there is more than one 'cup'"),
        ({"amount.butter": "1 handful"}, ("amount", "butter"), "there is no weight for 'handful' of butter, unsalted"),
        ({"amount.oil": "3 g"}, ("amount.oil",), "the recipe has no 'oil'"),
        ({"mode": "all", "amount.milk": "0 g"}, ("amount", "milk"), "a batch with none of it cannot be made"),
        (
            {"without.salt": "yes", "mode": "all", "amount.salt": "2 g"}, ("amount", "salt"),
            "an ingredient that is left out cannot set the size",
        ),
        ({"without.milk": "yes"}, ("without", "milk"), "whole milk is not optional"),
        ({"without.salt": "perhaps"}, ("without", "salt"), "'perhaps' is neither yes nor no"),
        ({"instead.milk": "water"}, ("instead", "milk"), "nothing called 'water' replaces it"),
        ({"instead.butter": "cream"}, ("instead", "butter"), "nothing called 'cream' replaces it"),
        ({"factr": "2"}, ("factr",), "there is no field 'factr' here"),
        (
            {"amount.milk": "1 g"}, ("stages", 0, "steps", 0, "water_lost"),
            "26 g of water cannot boil off where there are 0.6275 g",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_used_is_refused(edit: dict[str, str], path: tuple[str | int, ...], problem: str) -> None:
    with pytest.raises(InputError) as caught:
        after(edit)
    assert caught.value.path == path
    assert caught.value.problem == problem
    assert caught.value.remedy


@pytest.mark.parametrize("given_text", ["", "{", "[]", "{}", "null", '{"recipe": []}', '{"recipe": {}, "more": 1}'])
def test_a_recipe_that_cannot_be_read_is_refused(given_text: str) -> None:
    with pytest.raises(InputError):
        run("batch", given_text, {}, {})


FACTORS = st.sampled_from(["1", "1/2", "2", "0.001", "1000", "1.0", "3.3333333333", "0.1234567891"])
AMOUNTS = st.sampled_from(["300", "300 g", "1 kg", "250.5 g", "9 oz", "300.00000000001 g", "1000 kg"])
EDITS = st.one_of(
    FACTORS.map(lambda value: {"factor": value}),
    AMOUNTS.map(lambda value: {"amount.milk": value}),
    AMOUNTS.map(lambda value: {"mode": "all", "amount.butter": value}),
    st.sampled_from(["yes", "no", "YES"]).map(lambda value: {"without.salt": value}),
    st.sampled_from(["cream", ""]).map(lambda value: {"instead.milk": value}),
    st.sampled_from(["this", "all"]).map(lambda value: {"mode": value}),
    st.integers(1, 5000).map(lambda grams: {"finished_mass": f"{grams} g"}),
)


@given(st.lists(EDITS, max_size=6))
def test_the_state_is_in_one_form_and_gives_the_same_texts_again(edits: list[dict[str, str]]) -> None:
    state: dict[str, str] = {}
    for edit in edits:
        try:
            state, texts = run("batch", GIVEN, state, edit)
        except InputError:
            continue  # an edit that cannot be used leaves the state as it was
        assert keep(GIVEN, state, {}) == state
        assert keep(GIVEN, dict(reversed(state.items())), {}) == state
        assert run("batch", GIVEN, state, {}) == (state, texts)
        for name in state:
            assert read(GIVEN, {name: state[name]}) is not None


@given(st.integers(1, 100_000))
def test_the_finished_mass_asked_for_is_the_one_that_comes_out(grams: int) -> None:
    _, texts = after({"finished_mass": f"{grams} g"})
    asked, _ = after({"finished_mass": str(texts["finished_mass"])})
    assert run("batch", GIVEN, asked, {})[1]["finished_mass"] == texts["finished_mass"]
