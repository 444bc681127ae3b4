"""Fits, effects, intervals and tastings against published worked examples: tests/reference/designs_and_tastings.csv."""

import csv
import itertools
import math
import re
from functools import cache
from pathlib import Path

import pytest
from crumbcoat_site.trial_statistics.fit import Fit, fitted
from crumbcoat_site.trial_statistics.tastings import paired_p, triangle_p

FILE = Path(__file__).parents[2] / "reference" / "designs_and_tastings.csv"
TOOL_LIFE, FILTRATION, PILOT_PLANT = "F1_tool_life_2^3_x3", "F2_filtration_2^4_unreplicated", "F3_pilot_plant_2^3"
COMPOSITE, CALIBRATION = "C1_CVD_central_composite_inscribed", "R1_Norris_calibration"
TRIANGLE, PAIRED = "T1_triangle_min_correct", "T2_paired_or_duotrio_min_correct"

Columns = dict[str, list[float]]


@cache
def rows(example: str, record: str) -> list[dict[str, str]]:
    with FILE.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["example"] == example and row["record"] == record]


def answers(example: str) -> dict[str, tuple[float, float]]:
    """The answers by name, each with its tolerance."""
    return {row["name"]: (float(row["value"]), float(row["tolerance"])) for row in rows(example, "answer")}


def column(example: str, name: str) -> list[float]:
    return [float(row[name]) for row in rows(example, "run")]


def products(factors: Columns, most: int) -> Columns:
    """Every product of up to `most` factors, by their letters: A, B, AB …"""
    found: Columns = {}
    for count in range(1, most + 1):
        for names in itertools.combinations(factors, count):
            found["".join(names)] = [
                math.prod(values) for values in zip(*[factors[name] for name in names], strict=True)
            ]
    return found


def agrees(value: float, expected: tuple[float, float]) -> bool:
    return abs(value - expected[0]) <= expected[1]


@cache
def tool_life() -> Fit:
    factors = {letter.upper(): column(TOOL_LIFE, letter) for letter in "abc"}
    found = fitted(products(factors, 3), column(TOOL_LIFE, "y"))
    assert found
    return found


def test_every_effect_of_the_tool_life_design() -> None:
    fit, expected = tool_life(), answers(TOOL_LIFE)
    effects = {f"effect {name}": 2 * term.value for name, term in fit.terms.items() if name != "mean"}
    assert len(effects) == 7
    assert [name for name, value in effects.items() if not agrees(value, expected[name])] == []
    assert agrees(fit.terms["mean"].value, expected["mean"])


def test_the_analysis_of_variance_of_the_tool_life_design() -> None:
    from scipy import stats

    fit, expected = tool_life(), answers(TOOL_LIFE)
    life = column(TOOL_LIFE, "y")
    total = math.fsum((value - math.fsum(life) / 24) ** 2 for value in life)
    mean_square = fit.squares_left / fit.free
    f_model = (total - fit.squares_left) / 7 / mean_square
    found = {
        "SS total": total,
        "SS model (7 df)": total - fit.squares_left,
        "SS error (16 df)": fit.squares_left,
        "MS error": mean_square,
        "F model": f_model,
        "p model": float(stats.f.sf(f_model, 7, 16)),
        "SE of an effect": 2 * fit.terms["A"].error,
        **{f"F {name}": (fit.terms[name].value / fit.terms[name].error) ** 2 for name in ("B", "C", "AC")},
        **{f"p {name}": fit.terms[name].p for name in ("B", "C", "AC")},
    }
    assert fit.free == 16
    assert [name for name, value in found.items() if not agrees(value, expected[name])] == []
    assert {name for name in expected if not name.startswith(("effect", "mean"))} == set(found)


def test_the_intervals_are_t_times_the_published_error() -> None:
    """2.1199 is the 97.5 % point of Student's t for 16 degrees of freedom, as printed in every table of it."""
    error = answers(TOOL_LIFE)["SE of an effect"][0]
    for name in ("A", "B", "C", "AC"):
        effect = tool_life().terms[name].times(2)
        published = answers(TOOL_LIFE)[f"effect {name}"][0]
        assert effect.low == pytest.approx(published - 2.1199 * error, abs=2e-4)
        assert effect.high == pytest.approx(published + 2.1199 * error, abs=2e-4)
    larger = {name for name, term in tool_life().terms.items() if term.low > 0 or term.high < 0}
    assert larger == {"mean", "B", "C", "AC"}


@pytest.mark.parametrize(("example", "letters"), [(FILTRATION, "abcd"), (PILOT_PLANT, "abc")])
def test_every_effect_of_a_design_that_was_made_once(example: str, letters: str) -> None:
    """Each effect by itself, since all at once leave nothing for the errors; the columns are orthogonal."""
    columns = products({letter.upper(): column(example, letter) for letter in letters}, len(letters))
    expected = answers(example)
    assert {f"effect {name}" for name in columns} | {"mean"} == set(expected)
    assert fitted(columns, column(example, "y")) is None
    for name, values in columns.items():
        fit = fitted({name: values}, column(example, "y"))
        assert fit
        assert agrees(2 * fit.terms[name].value, expected[f"effect {name}"])
        assert agrees(fit.terms["mean"].value, expected["mean"])


def composite(response: str, terms: tuple[str, ...], mixed: bool) -> Fit:
    """The central composite, with its codes as printed; `mixed`: with the square of R uncoded, as one model has it."""
    p, r = column(COMPOSITE, "c"), column(COMPOSITE, "d")
    columns = products({"P": p, "R": r}, 2) | {"P^2": [a * a for a in p], "R^2": [b * b for b in r]}
    if mixed:
        columns["R^2"] = [ratio * ratio for ratio in column(COMPOSITE, "b")]
    fit = fitted({name: columns[name] for name in terms}, column(COMPOSITE, response))
    assert fit
    return fit


@pytest.mark.parametrize(
    ("response", "model", "terms"),
    [
        ("y", "y full", ("P", "R", "PR", "P^2", "R^2")),
        ("y", "y reduced", ("P", "R", "PR")),
        ("y2", "y2 reduced", ("P", "R", "P^2")),
        ("y2", "y2 full", ("P", "R", "PR", "P^2", "R^2")),
        ("y2", "y2 full coded", ("P", "R", "PR", "P^2", "R^2")),
    ],
)
def test_the_surface_of_the_central_composite(response: str, model: str, terms: tuple[str, ...]) -> None:
    fit = composite(response, terms, mixed=model == "y2 full")
    values = column(COMPOSITE, response)
    total = math.fsum((value - math.fsum(values) / len(values)) ** 2 for value in values)
    found = {name: term.value for name, term in fit.terms.items()}
    found |= {"intercept": found["mean"], "SE P": fit.terms["P"].error}
    found |= {"resid SD": math.sqrt(fit.squares_left / fit.free), "R-squared": 1 - fit.squares_left / total}
    expected = {
        name.partition(": ")[2]: value for name, value in answers(COMPOSITE).items() if name.startswith(f"{model}: ")
    }
    assert len(expected) >= 3
    if model == "y2 full":
        ((trap,),) = [re.findall(r"rows are (.*?)\);", row["note"]) for row in rows(COMPOSITE, "trap")]
        expected |= {name: (float(value), 2e-5) for name, value in zip(("R", "R^2"), trap.split(" and "), strict=True)}
    assert [name for name, value in expected.items() if not agrees(found[name], value)] == []


def test_the_calibration_line() -> None:
    """The data were written from memory; that they give the certified figures to 12 digits confirms both."""
    x, y = column(CALIBRATION, "a"), column(CALIBRATION, "y")
    fit = fitted({"slope": x}, y)
    assert fit
    total = math.fsum((value - math.fsum(y) / len(y)) ** 2 for value in y)
    found = {
        "intercept": fit.terms["mean"].value,
        "slope": fit.terms["slope"].value,
        "SE intercept": fit.terms["mean"].error,
        "SE slope": fit.terms["slope"].error,
        "residual SD": math.sqrt(fit.squares_left / fit.free),
        "R-squared": 1 - fit.squares_left / total,
        "SS regression": total - fit.squares_left,
        "SS residual": fit.squares_left,
    }
    expected = answers(CALIBRATION)
    assert [name for name, value in found.items() if not agrees(value, expected[name])] == []


def test_what_cannot_be_separated_has_no_fit() -> None:
    assert fitted({"a": [1, 2, 3, 4], "b": [2, 4, 6, 8]}, [1, 2, 3, 5]) is None
    assert fitted({"a": [1, 2]}, [1, 2]) is None


@pytest.mark.parametrize("example", [TRIANGLE, PAIRED])
def test_the_fewest_right_answers_in_every_row_of_the_tables(example: str) -> None:
    """A triangle test counts one side; the chance of a paired test, which counts both, is halved here."""
    table = rows(example, "table")
    assert len(table) > 40
    levels = (0.20, 0.10, 0.05, 0.01, 0.001)
    wrong = []
    for row in table:
        people = int(row["a"])
        most_by_chance = people // 2 if example == PAIRED else people // 3
        counts = range(most_by_chance + 1, people + 1)
        chances = [triangle_p(people, one) if example == TRIANGLE else paired_p(people, one) / 2 for one in counts]
        for level, cell in zip(levels, [*[row[name] for name in "bcde"], row["y"]], strict=True):
            least = next((one for one, p in zip(counts, chances, strict=True) if p <= level), None)
            if least != (int(cell) if cell else None):
                wrong.append((people, level, least, cell))
    assert wrong == []


def test_chances_as_printed() -> None:
    expected = answers(TRIANGLE)
    assert agrees(triangle_p(24, 13), expected["n=24, 13 correct: p"])
    assert agrees(triangle_p(30, 16), expected["x=16 of n=30: p"])
    assert triangle_p(12, 9) == pytest.approx(0.00386, abs=5e-6)  # 2049/3^12 and a little: C(12,9) 2^3 + … over 3^12
    assert paired_p(12, 6) == 1
    assert paired_p(12, 2) == paired_p(12, 10)
