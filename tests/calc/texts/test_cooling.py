"""What two readings mean beside the times that codes allow, against measured cooling times and a published method."""

import csv
import math
from pathlib import Path
from typing import Any

import pytest
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.science.chilling import time_constant_min
from crumbcoat_calc.science.cooling_limits import cooling_limits, exceeded
from crumbcoat_calc.science.estimate import Estimate

with (Path(__file__).parents[2] / "reference" / "measured_cooling.csv").open(encoding="utf-8", newline="") as file:
    MEASURED = list(csv.DictReader(file))

CUSTARD: dict[str, Any] = {
    "title": "Custard", "summary": "Cooked and cooled.", "author": "Lantern Street teaching kitchen",
    "family": "curd or custard filling", "yield": {"portions": "12", "of": "tarts"},
    "ingredients": {
        "milk": {"kind": "milk_whole", "amount": "500 g"}, "yolk": {"kind": "egg_yolk_raw", "amount": "80 g"},
        "starch": {"kind": "cornstarch", "amount": "35 g"},
    },
    "stages": [
        {"title": "Cook", "steps": [{"do": "Boil.", "add": ["milk", "yolk", "starch"], "heat_to": "96 °C"}]},
    ],
}  # fmt: skip


def said(region: str = "US", heat_to: str = "96 °C", **state: str) -> str:
    step = {"do": "Boil.", "add": ["milk", "yolk", "starch"], "heat_to": heat_to}
    recipe = CUSTARD | {"stages": [{"title": "Cook", "steps": [step]}]}
    context = context_from({"recipe": recipe, "region": region})
    return str(run("batch", context, state)[1]["science.chilling"])


def readings(start: str, later: str, minutes: str, cold: str = "4") -> dict[str, str]:
    return {"chilled_from": start, "chilled_to": later, "chilled_minutes": minutes, "cold_temperature": cold}


@pytest.mark.parametrize("row", MEASURED, ids=lambda row: row["food"])
@pytest.mark.parametrize("cold_c", [0, 2, 4])
def test_food_that_cooled_too_slowly_is_found_by_its_two_temperatures(row: dict[str, str], cold_c: float) -> None:
    start, later = ((float(row[name]) - 32) / 1.8 for name in ("from_t_f", "to_t_f"))
    tau = time_constant_min(start, later, float(row["minutes"]), cold_c)
    assert isinstance(tau, Estimate)
    over = exceeded(cooling_limits("US"), cold_c, tau.value)
    assert [limit.minutes for limit, _ in over] == [120, 360]
    # What was measured is itself longer than the code allows for all of the way.
    assert float(row["minutes"]) > 120
    text = said(**readings(f"{start}", f"{later}", row["minutes"], f"{cold_c}"))
    assert "longer than the 2 h of the model code" in text


def test_it_is_the_published_two_point_method() -> None:
    """Rate = (log(T1 - Tdf) - log(T2 - Tdf)) / time; the code asks for 135 to 70 °F in 2 hours, and to 41 °F in 6.

    Source: Hedeen, Schaffner and Brown, Journal of Environmental Health 84(7), 2022; validated on 29 foods by Igo,
    Hedeen and Schaffner, Journal of Food Protection 84(1), 2021.
    """
    surroundings = 37.0
    first = (math.log10(135 - surroundings) - math.log10(70 - surroundings)) / 2
    whole = (math.log10(135 - surroundings) - math.log10(41 - surroundings)) / 6
    slowest_per_h = max(first, whole)
    for rate, quick in ((slowest_per_h * 1.02, True), (slowest_per_h * 0.98, False)):
        after_h = 0.5
        later = surroundings + (135 - surroundings) * 10 ** (-rate * after_h)
        start_c, later_c, cold_c = ((t_f - 32) / 1.8 for t_f in (135.0, later, surroundings))
        tau = time_constant_min(start_c, later_c, 60 * after_h, cold_c)
        assert isinstance(tau, Estimate)
        assert tau.value == pytest.approx(60 / (rate * math.log(10)), rel=1e-9)
        # 57 °C is 134.6 °F, 21 °C is 69.8 and 5 °C is 41: a little apart from the whole degrees in °F.
        assert (exceeded(cooling_limits("US"), cold_c, tau.value) == ()) is quick


def test_a_batch_that_is_quick_enough_is_not_mentioned() -> None:
    """By hand: 57 to 40 °C in 12 min at 4 °C is tau = 12 / ln(53 / 36) = 31 min; 57 to 5 °C then takes 123 min."""
    for region in ("EU", "UK", "US"):
        assert "At that rate" not in said(region, **readings("57", "40", "12"))
        assert "At that rate" not in said(region)


def test_a_batch_that_is_too_slow_is() -> None:
    """By hand: 57 to 50 °C in 30 min at 4 °C is tau = 30 / ln(53 / 46) = 211.8 min; ln(53 / 17) tau is 240.8."""
    slow = readings("57", "50", "30")
    assert said(**slow).endswith(
        "At that rate it would take about 4 h from 135 °F (57 °C) to 70 °F (21 °C), longer than the 2 h of the model "
        "code: make the layer shallower, or use an ice bath."
    )
    assert "longer than the 2 h of French rules" in said("EU", **slow)
    assert "At that rate" not in said("UK", **slow), "guidance there names no temperature"
    assert "At that rate" not in said(heat_to="45 °C", **slow), "it is not cooked"


def test_the_second_stretch_counts_as_well() -> None:
    """By hand: tau of 100 min is quick enough to 21 °C, 113.7 min, and not to 5 °C, 397 min."""
    text = said(**readings("57", "25", f"{100 * math.log(53 / 21)}"))
    assert "from 135 °F (57 °C) to 41 °F (5 °C), longer than the 6 h of the model code" in text
    assert "about 6 h 35 min" in text


def test_a_refrigerator_that_is_too_warm_is_named() -> None:
    text = said(**readings("57", "40", "12", cold="7"))
    assert text.endswith(
        "Where it is 45 °F (7 °C), cooked food never gets to 41 °F (5 °C), the mark of the model code."
    )
