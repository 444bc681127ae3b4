"""Sheets to fill in by pen: amounts, tests whose entries a trial file takes, orders and numbers of a triangle test."""

import re
from collections import Counter
from typing import Any

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.tables import citations
from crumbcoat_calc.trials.model import TESTS
from crumbcoat_calc.trials.notebook import notebook_of
from crumbcoat_calc.trials.protocols import PROTOCOLS, Protocol
from crumbcoat_calc.trials.reading import trial_from
from crumbcoat_calc.trials.triangle import ORDERS, PEOPLE, least_right, triangle_sheet
from crumbcoat_calc.trials.weigh_sheets import weigh_rows, weigh_sheet_of

from tests.calc.trials.test_alike import RECIPE

CODES = ("417", "862", "253", "739")
FILLED = {
    "temperature": "19 °C", "time": "2 h", "weeping": "2 mm", "height_lost": "3 mm", "rosettes": "14", "did": "held",
    "marks": ["7", "8"], "code": "417", "against": "2", "people": "24", "right": "13",
}  # fmt: skip


def entry_of(protocol: Protocol) -> dict[str, Any]:
    """The entry on a sheet as someone types it in, with the blanks filled."""
    inside = protocol.entry.removeprefix("- {").removesuffix("}")
    pairs = re.findall(r"(\w+): (\[.*?\]|[^,]+)", inside)
    return {name: FILLED[name] if "___" in value else value for name, value in pairs}


@pytest.mark.parametrize("protocol", [*PROTOCOLS, triangle_sheet(CODES)], ids=lambda protocol: protocol.key)
def test_what_is_written_on_a_sheet_goes_into_a_trial_file(protocol: Protocol) -> None:
    if not protocol.entry:
        assert protocol.key in ("ballot", "class")
        return
    entry = entry_of(protocol)
    field = "tasted" if protocol.key == "tasting" else "compared" if protocol.key == "triangle" else "tests"
    trial = trial_from({"number": "1", "date": "2026-11-24", field: [entry]})
    (read,) = getattr(trial, field)
    assert {name for name in entry if name != "right"} <= {
        name.removesuffix("_c").removesuffix("_s").removesuffix("_mm") for name in type(read).__slots__
    }


def test_each_test_that_has_a_sheet_is_one_of_a_trial_file_and_names_its_source() -> None:
    kinds = [entry_of(protocol)["test"] for protocol in PROTOCOLS if protocol.entry and protocol.key != "tasting"]
    assert kinds == ["keeping", "piping", "holding", "holding", "freezing"]
    assert set(kinds) < set(TESTS)
    for protocol in [*PROTOCOLS, triangle_sheet(CODES)]:
        assert set(protocol.sources) <= citations().keys()
        assert protocol.source_text
    assert PROTOCOLS[0].source_text == "Common practice of the trade, no source"


def test_no_sheet_has_a_limit_that_a_batch_passes_or_fails() -> None:
    """The figures of shape, drip and overrun that are from memory (90 % of the height, 5 mm of ring) are on none."""
    for protocol in PROTOCOLS:
        words = " ".join([*protocol.steps, *protocol.measure, protocol.stop, protocol.conditions, protocol.pieces])
        assert not re.search(r"\bpass|\bfail|at least \d+ %|less than \d+ (mm|%)|90 %|80 %", words), protocol.key


@pytest.mark.parametrize(
    ("people", "five", "one"),
    [(6, 5, 6), (9, 6, 7), (12, 8, 9), (18, 10, 12), (24, 13, 15), (30, 15, 17), (36, 18, 20), (44, 21, 23)],
)
def test_the_fewest_right_answers_are_those_of_the_exact_table(people: int, five: int, one: int) -> None:
    """Exact binomial with 1/3, by a library of statistics: smallest x with P(X >= x) <= 0.05 and <= 0.01."""
    assert (least_right(people), least_right(people, 0.01)) == (five, one)


def test_too_few_people_show_nothing() -> None:
    """(1/3)^2 = 0.11 is above 5 %, (1/3)^3 = 0.037 is not."""
    assert least_right(3) == 3
    with pytest.raises(InputError, match="too few"):
        least_right(2)


def test_each_order_comes_equally_often_with_codes_that_fit() -> None:
    rows = triangle_sheet(CODES).rows
    assert len(rows) == PEOPLE
    found: Counter[str] = Counter()
    for number, row in enumerate(rows, 1):
        person, order, *codes = row.replace(":", "").replace(",", "").split()
        assert person == str(number)
        assert "".join("A" if code in CODES[:2] else "B" for code in codes) == order
        assert len({*codes}) == 3
        found[order] += 1
    assert found == dict.fromkeys(ORDERS, 4)
    assert len({*ORDERS}) == 6


def made(**fields: Any) -> Any:
    read = trial_from({"number": "7", "date": "2026-11-24"} | fields)
    (found,) = notebook_of(RECIPE, {}, [("7.yaml", read)]).made
    return found


def test_a_weigh_sheet_has_what_was_planned_and_not_what_was_weighed() -> None:
    sheet = weigh_sheet_of(
        made(changed={"ingredients": {"sugar": "55 g"}}, weighed={"sugar": "57 g"}, aim="Sweeter?", code="417")
    )
    assert [(row.key, row.amount) for row in sheet.rows] == [("cream", "400 g"), ("sugar", "55 g")]
    assert (sheet.number, sheet.origin, sheet.aim, sheet.code) == ("7", "", "Sweeter?", "417")
    assert list(sheet.changes) == ["15 g more sugar, powdered (icing sugar): 40 g, now 55 g"]
    assert sheet.goes_in(sheet.recipe.stages[0].steps[0]) == "cream and sugar"


def test_portions_follow_their_ingredient_and_a_rescue_is_marked() -> None:
    parts = {"kind": "cream_heavy_whipping", "amount": "400 g", "portions": {"cold": "300 g", "warm": "100 g"}}
    rescue = {"kind": "sugar_powdered", "kept_back": {"rescue": "5.125 g"}}
    trouble = {"sign": "Thin.", "remedy": "Add it.", "add": "sugar/rescue"}
    step = {
        "do": "Whip.",
        "add": ["cream/cold", "cream/warm"],
        "checkpoint": {"passes": ["Thick."], "troubles": [trouble]},
    }
    fields = RECIPE | {
        "ingredients": {"cream": parts, "sugar": rescue},
        "stages": [{"title": "Whip", "steps": [step]}],
    }
    rows = weigh_rows(recipe_from(fields))
    assert [(row.amount, row.is_part, row.is_rescue) for row in rows] == [
        ("400 g", False, False),
        ("300 g", True, False),
        ("100 g", True, False),
        ("5.13 g", False, True),
    ]
