"""Amounts in the reader's units and to the step of the reader's scale, checked against the legal units."""

import csv
import re
from fractions import Fraction
from pathlib import Path

import pytest

from tests.browser.card_page import SILK, Card, amounts, exercises, grams, measured, number

MASSES = amounts(SILK)
FINISHED = sum(MASSES.values()) - 4
OUNCE_G, POUND_G = 28.349523125, 453.59237
"""NIST Handbook 44, appendix C, exact."""

REFERENCE = Path(__file__).parents[1] / "reference"
with (REFERENCE / "usda_portions.csv").open(encoding="utf-8", newline="") as file:
    CUPS_G = {row["key"]: float(row["grams"]) for row in csv.DictReader(file) if row["measure"] == "cup"}

US_CUP_ML = 236.5882365
MEASURES_ML = {
    "US cup": US_CUP_ML, "US tbsp": US_CUP_ML / 16, "US tsp": US_CUP_ML / 48,
    "metric cup": 250, "metric tbsp": 15, "metric tsp": 5, "AU tbsp": 20,
}  # fmt: skip
"""NIST Handbook 44 (US cup and spoons); metric and Australian cups and spoons from memory."""

CLIPPED = "fields => fields.filter((field) => field.scrollWidth > field.clientWidth).map((field) => field.value)"
"""The amounts that are not seen whole."""


@exercises("batch:units")
def test_in_ounces_and_pounds(card: Card) -> None:
    """To 0.05 oz from one ounce up, to 0.01 oz below it; less than a tenth of an ounce stays in g."""
    card.give("units", "ounces")
    assert card.text("finished_mass") == "1 lb 13 oz"  # 821.5 g is 28.98 oz
    for factor in (1, 2, 0.5):
        card.give("factor", str(factor))
        for key, mass in MASSES.items():
            found = re.fullmatch(r"(?:(\d+) lb ?)?(?:([\d.]+) oz)?", card.value(f"amount.{key}"))
            if mass * factor < 0.1 * OUNCE_G:
                assert card.value(f"amount.{key}") == grams(mass * factor)
                continue
            assert found, key
            shown_g = int(found[1] or 0) * POUND_G + float(found[2] or 0) * OUNCE_G
            step = 0.05 if mass * factor >= OUNCE_G else 0.01
            assert shown_g == pytest.approx(mass * factor, abs=step / 2 * OUNCE_G * 1.0001)
        ounces = [number(card.text(f"portion.butter.{one}")) for one in ("melting", "creaming")]
        pounds, _, rest = card.text("amount.butter").rpartition(" lb ")
        assert sum(ounces) == pytest.approx(16 * float(pounds or 0) + number(rest))


@exercises("batch:units", "batch:amount.*")
@pytest.mark.parametrize(
    "system", ["us", *(pytest.param(system, marks=pytest.mark.full) for system in ("metric", "australian"))]
)
def test_in_cups_and_spoons(card: Card, system: str) -> None:
    """USDA SR 28: the weight of a cup of the ingredient; other measures by their volume. Within 3 %."""
    card.give("units", system)
    for factor in (1, 1.75):
        card.give("factor", str(factor))
        for key, kind in (("milk", "milk_whole"), ("butter", "butter_unsalted")):
            parts = measured(card.value(f"amount.{key}"))
            assert {unit.split()[0].lower() for _, unit in parts} <= {system, "metric", "au"}
            weighs = sum(float(count) * MEASURES_ML[unit] for count, unit in parts) * CUPS_G[kind] / US_CUP_ML
            assert weighs == pytest.approx(MASSES[key] * factor, rel=0.035)
            assert card.text(f"household.{key}") == grams(MASSES[key] * factor)
        assert card.value("amount.gelatine") == grams(MASSES["gelatine"] * factor)  # the weight of a cup is not known
        for width in (320, 390, 768):
            card.page.set_viewport_size({"width": width, "height": 800})
            assert card.page.locator(".cc-ingredients [name^='amount.']").evaluate_all(CLIPPED) == []
    card.give("amount.butter", "2 US cup")
    card.give("units", "grams")
    assert card.value("amount.butter") == grams(2 * CUPS_G["butter_unsalted"])


@pytest.mark.full
@exercises("batch:scale")
def test_rounded_to_the_step_of_a_scale(card: Card) -> None:
    steps = {"pocket": "0.01", "fine": "0.1", "kitchen": "1", "two_gram": "2", "coarse": "5", "large": "10"}
    shown = card.field("scale").locator("option").evaluate_all("options => options.map(option => option.value)")
    assert shown == ["", *steps]
    card.give("factor", "1.37")
    for scale, step in steps.items():
        card.give("scale", scale)
        missed = card.text("too_little")
        for key, mass in MASSES.items():
            name = card.text(f"name.{key}")
            exact = mass * 1.37
            shown_g = number(card.value(f"amount.{key}"))
            if name in missed:
                assert exact < float(step)
                assert card.value(f"amount.{key}") == grams(exact)
                continue
            assert Fraction(str(shown_g)) % Fraction(step) == 0, (scale, key)
            assert abs(shown_g - exact) <= float(step) / 2 * 1.0001
        for key, *portions in (
            ("milk", "blooming", "warming"),
            ("butter", "melting", "creaming"),
            ("icing_sugar", "creaming", "whipping"),
        ):
            parts = [number(card.text(f"portion.{key}.{portion}")) for portion in portions]
            assert sum(parts) == pytest.approx(number(card.text(f"amount.{key}")))
    # 61.65 g becomes 60 g, 27.4 g becomes 30 g, and 4.11 g is too little for the scale.
    assert "churned-buttermilk powder −3 % and skimmed-milk powder 9 %" in card.text("rounding")
    assert "powdered gelatine" in card.text("too_little")
    card.give("scale", "")
    assert card.text("rounding") == card.text("too_little") == ""
