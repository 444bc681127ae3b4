"""Lines of ingredients in many shapes: what each names, how much of it, how sure that is, and what else it says.

`ingredient_lines.csv` has a row for each food of a line. Masses are those of the table's own weights: what is tested is
that the line was understood, and the weights have tests of their own.
"""

import csv
from itertools import groupby
from pathlib import Path

import pytest
from crumbcoat_site.bring_in.kinds import find_kind, food_of
from crumbcoat_site.bring_in.measured import measured
from crumbcoat_site.bring_in.several_foods import ingredient_lines
from hypothesis import given
from hypothesis import strategies as st

TABLE = (Path(__file__).parent / "ingredient_lines.csv").read_text(encoding="utf-8")
ROWS = list(csv.DictReader(TABLE.splitlines()))
LINES = [(line, list(rows)) for line, rows in groupby(ROWS, key=lambda row: row["line"])]


def test_there_are_120_lines() -> None:
    assert len(LINES) >= 120


PIECES = st.sampled_from(
    ["1", "1/2", "½", "2-3", "1 1/2", "0", "1/0", "12.", "1,5", "a", "half a", "cup", "cups", "g", "oz", "(14-oz)",
     "can", "x", "×", "(", ")", "/", "+", "plus", "or", "of", "butter", "egg whites", "lemon", "juice", "juiced",
     "zest", "salt", ",", "divided", "to taste", "packed", "about", "large", "stick", "pinch", "-", "–", "°", "%"]
)  # fmt: skip


@given(st.lists(PIECES, max_size=9).map(" ".join) | st.text(max_size=60))
def test_any_line_at_all_is_read(written: str) -> None:
    for line in ingredient_lines(written):
        match = find_kind(line, {}, "US")
        if line.amounts:
            amount = measured(line, food_of(match.kind, {}), "UK")
            assert amount.text
            assert amount.mass_g is None or amount.mass_g > 0


@pytest.mark.parametrize(
    ("written", "doubts"),
    [
        ("2 heaped tbsp icing sugar", ["the page says heaped, and this is a level one"]),
        ("scant 200 g white chocolate", ["the page says scant"]),
        ("heaped teaspoon caster sugar", ["the page says heaped, and this is a level one"]),
        ("a scant cup of icing sugar", ["the page says scant, and this is a level one"]),
        ("about 200 g white chocolate", ["the page says about"]),
        ("approx. 200 g white chocolate", ["the page says about"]),
        ("1 generous tsp vanilla bean paste", ["the page says generous, and this is a level one"]),
        ("just under 200 g white chocolate", ["the page says just under"]),
        ("2 level tbsp icing sugar", []),
        ("2 tbsp icing sugar, heaped", ["the page says heaped"]),
        ("about 1 cup (200 g) caster sugar", []),
    ],
)
def test_an_amount_that_is_not_exact_is_marked(written: str, doubts: list[str]) -> None:
    [line] = ingredient_lines(written)
    match = find_kind(line, {}, "UK")
    assert list(measured(line, food_of(match.kind, {}), "UK").doubts) == doubts


def test_a_name_without_a_kind_is_not_given_one_by_a_word_for_its_form() -> None:
    """Almond paste is not near a paste of vanilla, and agave syrup is not near birch syrup."""
    for written in ("1 tsp vanilla bean paste", "100 g birch syrup"):
        [line] = ingredient_lines(written)
        match = find_kind(line, {}, "UK")
        assert match.kind == ""
        assert [kind for kind in match.others if kind.partition("_")[0] not in line.name] == []


@pytest.mark.parametrize(("written", "rows"), LINES, ids=[line for line, _ in LINES])
def test_a_line_is_understood(written: str, rows: list[dict[str, str]]) -> None:
    found = ingredient_lines(written)
    assert len(found) == len(rows)
    for line, row in zip(found, rows, strict=True):
        match = find_kind(line, {}, row["measures"])
        amount = measured(line, food_of(match.kind, {}), row["measures"]) if line.amounts else None
        rest = [*line.preparation, *((line.how,) if line.how and amount and not amount.is_how_used else ())]
        rest += [text for text in (amount.most if amount else "", line.more) if text]
        shown = {
            "line": written,
            "measures": row["measures"],
            "kind": match.kind or "-",
            "sure": "yes" if match.is_sure else "no",
            "amount": amount.text if amount else "-",
            "grams": row["grams"],
            "rest": "; ".join(part for part in rest if part not in ("divided", "optional")) or "-",
        }
        assert shown == row | {"rest": row["rest"] if row["rest"] != "optional" else "-"}
        mass_g = amount.mass_g if amount else None
        assert mass_g == (None if row["grams"] == "-" else pytest.approx(float(row["grams"]), rel=0.005))
