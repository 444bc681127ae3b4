"""Measures that follow from a composition: a liquid without air weighs what its parts do.

Source: Choi & Okos 1986, as printed in ASHRAE Handbook: Refrigeration, 2006, chapter 9, table 1: kg/m3 at 20 °C.
"""

import pytest
from crumbcoat_calc.foods.table import Food, food, grams_of
from crumbcoat_calc.tables import load_rows

AT_20_C = {
    "water_g": 997.18 + 0.0031439 * 20 - 0.0037574 * 20**2,
    "protein_g": 1329.9 - 0.51840 * 20,
    "fat_g": 925.59 - 0.41757 * 20,
    "carbohydrate_g": 1599.1 - 0.31046 * 20,
    "ash_g": 2423.8 - 0.28063 * 20,
}
ROWS = [row for row in load_rows("measures", dict, ("food", "unit", "how")) if "Choi" in row["where"]]


def density_of(kind: Food) -> float:
    """In g/mL, from what is known of its parts; alcohol is in none of them."""
    parts = {part: kind.content(part) or 0.0 for part in AT_20_C}
    return sum(parts.values()) / sum(grams / AT_20_C[part] for part, grams in parts.items()) / 1000


def test_there_are_some() -> None:
    assert {"cream_double", "cream_whipping_uk", "cream_single"} <= {row["food"] for row in ROWS}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["food"])
def test_a_derived_cup_is_that_of_its_composition(row: dict[str, str]) -> None:
    assert row["unit"] == "metric_cup"
    assert float(row["grams"]) == pytest.approx(250 * density_of(food(row["food"])), rel=0.002)


@pytest.mark.parametrize(
    ("kind", "grams"),
    [
        ("milk_whole", 244), ("half_and_half", 242), ("cream_light", 240), ("cream_heavy_whipping", 238),
        ("buttermilk_lowfat_cultured", 245),
    ],
)  # fmt: skip
def test_it_is_near_the_cups_that_are_printed(kind: str, grams: float) -> None:
    # Printed: usda-sr28, weight of 1 US cup (236.6 mL, NIST Handbook 44).
    assert density_of(food(kind)) == pytest.approx(grams / 236.588, rel=0.025)
    assert grams_of(food(kind), 1, "us_cup") == grams
