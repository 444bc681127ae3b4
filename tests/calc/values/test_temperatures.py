"""Gas marks against published tables (tests/reference/gas_marks.csv), and what is said to those who write one."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.temperatures import celsius, oven_f

with (Path(__file__).parents[2] / "reference" / "gas_marks.csv").open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["mark"])
def test_gas_marks_are_those_of_published_tables(row: dict[str, str]) -> None:
    t_f = oven_f(Fraction(row["mark"]))
    assert t_f == float(row["t_f"])
    t_c = celsius(f"{t_f} °F")
    assert t_c == pytest.approx(float(row["t_c"]), abs=0.5)
    # Dials have round numbers, of two the nearer within half a mark (25 °F).
    assert min(abs(t_c - float(dial)) for dial in row["t_c_on_dials"].split()) < 25 / 1.8 / 2


def test_no_oven_has_other_marks() -> None:
    assert [oven_f(Fraction(mark)) for mark in ("0", "3/4", "2.5", "11")] == [None] * 4


@pytest.mark.parametrize(
    ("written", "oven"),
    [
        ("gas mark 4", ", 177 °C (350 °F),"),
        ("Gas Mark ½", ", 121 °C (250 °F),"),
        ("gas 1/4", ", 107 °C (225 °F),"),
        ("mark 6", ", 204 °C (400 °F),"),
        ("GasMark 9", ", 246 °C (475 °F),"),
        ("gas mark 12", ""),
    ],
)
def test_an_oven_is_not_taken_for_the_temperature_of_food(written: str, oven: str) -> None:
    """An egg in an oven at gas mark 4 is not at 177 °C: nothing about safety may follow from that."""
    with pytest.raises(InputError) as refused:
        celsius(written)
    assert refused.value.problem == f"'{written}' is how hot an oven is{oven} and not what is in it"
    assert refused.value.remedy == "write what a thermometer in the food shows, such as `82 °C`"
