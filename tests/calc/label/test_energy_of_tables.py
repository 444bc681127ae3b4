"""Energy by the factors of each food, as tables have it, beside energy by 4, 4 and 9, as our labels have it.

21 CFR 101.9(c)(1)(i) allows both. A label here has the general ones; so whoever compares it with a table should know
how far apart the two are. Source: usda-sr28, energy and factors as printed (tests/reference/usda_energy_factors.csv).
"""

import csv
from math import fsum
from pathlib import Path

import pytest
from crumbcoat_calc.foods.composition import mixture_of
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.label.nutrients import us_energy_kcal
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

ROOT = Path(__file__).parents[3]
REFERENCE = ROOT / "tests" / "reference"


def rows_of(name: str) -> dict[str, dict[str, str]]:
    with (REFERENCE / name).open(encoding="utf-8", newline="") as file:
        return {row["key"]: row for row in csv.DictReader(file)}


FACTORS, PRINTED = rows_of("usda_energy_factors.csv"), rows_of("usda_sr28.csv")

ALCOHOL_KCAL_PER_G = 6.93
"""Of the guide to Release 28; the general factor is 7."""

DOES_NOT_ADD_UP = {"shortening_confectionery_palm"}
"""Prints a factor of 8.62 for its fat, and 884 kcal, which is 8.84."""


def specific_kcal(key: str) -> float:
    """Energy of 100 g by the factors of the food; a factor that is not printed is that of something it has none of."""
    row, food = FACTORS[key], PRINTED[key]
    parts = [
        float(row[f"{part}_kcal_per_g"] or 0) * float(food[f"{part}_g"]) for part in ("protein", "fat", "carbohydrate")
    ]
    return fsum(parts) + ALCOHOL_KCAL_PER_G * float(food["alcohol_g"] or 0)


def test_a_table_has_the_energy_that_its_own_factors_give() -> None:
    compared = {key: (specific_kcal(key), float(PRINTED[key]["energy_kcal"])) for key in FACTORS}
    assert len(compared) > 200
    wrong = {key for key, (ours, printed) in compared.items() if abs(ours - printed) > max(1.0, 0.01 * printed)}
    assert wrong == DOES_NOT_ADD_UP


@pytest.mark.parametrize(
    ("key", "general", "printed"),
    [("butter_unsalted", 734, 717), ("sugar_granulated", 400, 387), ("cocoa_powder_natural", 433, 228),
     ("egg_white_raw", 48, 52)],
)  # fmt: skip
def test_how_far_the_general_factors_are_from_those_of_a_food(key: str, general: int, printed: int) -> None:
    """Both by hand: butter 4 (0.85 + 0.06) + 9 x 81.11 = 734; cocoa 4 (19.6 + 57.9) + 9 x 13.7 = 433."""
    assert us_energy_kcal(mixture_of(foods()[key], 100))[0] == pytest.approx(general, abs=1)
    assert specific_kcal(key) == pytest.approx(printed, abs=1)
    assert float(PRINTED[key]["energy_kcal"]) == printed


@pytest.mark.parametrize("path", sorted((ROOT / "recipes").glob("*/*.yaml")), ids=lambda path: path.stem)
def test_a_card_has_a_little_more_energy_than_a_table_would_give_it(path: Path) -> None:
    """Fat has 8.8 instead of 9, carbohydrate 3.9 instead of 4, and only cocoa, for its fibre, much less."""
    recipe, _ = load_recipe(path, path.name)
    batch = batch_of(recipe)
    by_table = [
        specific_kcal(part.food.key) * part.mass_g / 100
        if part.food.key in FACTORS
        else us_energy_kcal(mixture_of(part.food, part.mass_g))[0]
        for part in batch.vessels[-1].parts
    ]
    assert 1.00 < us_energy_kcal(batch.total)[0] / fsum(by_table) < 1.05
