"""Energy by the factors of each food, as tables have it, beside energy by 4, 4 and 9, as our labels have it.

21 CFR 101.9(c)(1)(i) allows both. A label here has the general ones; whoever compares it with a table can have the
others beside it. Source: usda-sr28, energy and factors as printed (tests/reference/usda_energy_factors.csv).
"""

import csv
from math import fsum
from pathlib import Path

import pytest
from crumbcoat_calc.foods.composition import mixture_of
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.label.nutrients import us_energy_kcal
from crumbcoat_calc.label.table_energy import energy_by_table, factors_of_foods
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

ROOT = Path(__file__).parents[3]
REFERENCE = ROOT / "tests" / "reference"


def rows_of(name: str) -> dict[str, dict[str, str]]:
    with (REFERENCE / name).open(encoding="utf-8", newline="") as file:
        return {row["key"]: row for row in csv.DictReader(file)}


FACTORS, PRINTED = rows_of("usda_energy_factors.csv"), rows_of("usda_sr28.csv")
PARTS = ("protein", "fat", "carbohydrate")

ALCOHOL_KCAL_PER_G = 6.93
"""Of the guide to Release 28; the general factor is 7."""

DOES_NOT_ADD_UP = {"shortening_confectionery_palm"}
"""Prints a factor of 8.62 for its fat, and 884 kcal, which is 8.84."""


def one_food(**grams: float) -> Batch:
    return batch_of(recipe_from({
        "title": "Of a table", "summary": "One food.", "author": "the tests", "family": "other",
        "yield": {"portions": "1", "of": "bowl"},
        "ingredients": {key: {"kind": key, "amount": f"{mass_g} g"} for key, mass_g in grams.items()},
        "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": list(grams)}]}],
    }))  # fmt: skip


def specific_kcal(key: str) -> float:
    """Energy of 100 g by the factors of the food."""
    low, high = energy_by_table(one_food(**{key: 100})).kcal
    assert high == pytest.approx(low, rel=1e-9)
    return low


def test_the_factors_are_those_that_the_table_prints() -> None:
    """A factor that is not printed is that of something it has none of."""
    assert len(factors_of_foods()) > 200
    for key, factors in factors_of_foods().items():
        printed = [float(FACTORS[key][f"{part}_kcal_per_g"] or 0) for part in PARTS]
        assert factors == (*printed, ALCOHOL_KCAL_PER_G), key
    assert set(FACTORS) & set(foods()) == set(factors_of_foods())


def test_a_table_has_the_energy_that_its_own_factors_give() -> None:
    compared = {key: (specific_kcal(key), float(PRINTED[key]["energy_kcal"])) for key in factors_of_foods()}
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


WHIPPED_TOPPING = {"dessert_topping_powder": 43, "milk_whole": 122}
GLAZE = {"sugar_powdered": 269.5, "milk_whole": 53.1, "vanilla_extract": 4.4}
"""Foods 01071 and 19375 from their parts, as in tests/calc/recipe/test_composite_foods.py."""


@pytest.mark.parametrize(
    ("grams", "printed", "has_factors"),
    [
        pytest.param(WHIPPED_TOPPING, 194, True, id="whipped topping"),
        pytest.param(GLAZE, 341, False, id="glaze, for which the table prints no factors"),
    ],
)
def test_a_food_of_several_has_the_energy_that_its_table_prints(
    grams: dict[str, float], printed: int, *, has_factors: bool
) -> None:
    """Where the table prints factors for it, these are nearer, and otherwise the general ones: it used them there."""
    batch = one_food(**grams)
    share = 100 / batch.total.mass_g
    off = [abs(share * low - printed) for low, _ in (energy_by_table(batch).kcal, us_energy_kcal(batch.total))]
    assert (off[0] < off[1]) == has_factors
    assert min(off) < 0.01 * printed


def test_what_the_table_has_no_factors_for_counts_by_the_general_ones() -> None:
    both = energy_by_table(one_food(butter_unsalted=100, cream_double=100, water_tap=50))
    alone = us_energy_kcal(mixture_of(foods()["cream_double"], 100))
    assert both.kcal[0] == pytest.approx(specific_kcal("butter_unsalted") + alone[0])
    assert both.general == (foods()["cream_double"].name,)


@pytest.mark.parametrize("path", sorted((ROOT / "recipes").glob("*/*.yaml")), ids=lambda path: path.stem)
def test_a_card_has_a_little_more_energy_than_a_table_would_give_it(path: Path) -> None:
    """Fat has 8.8 instead of 9, carbohydrate 3.9 instead of 4, and only cocoa, for its fibre, much less."""
    recipe, _ = load_recipe(path, path.name)
    batch = batch_of(recipe)
    low, high = energy_by_table(batch).kcal
    assert 1.00 < us_energy_kcal(batch.total)[0] / fsum([low, high]) * 2 < 1.05
