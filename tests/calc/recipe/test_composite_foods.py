"""Recipes rebuilt from composite foods of public tables, against the composition that the tables print.

tests/reference/composite_foods.csv says what is published of each formula. Where masses are published, nothing is
fitted. Otherwise the amounts here were solved by least squares for the columns in `fitted`, with the ingredients that
are published or, for the chocolate glaze, the nearest of our kinds; all other columns were left alone, and check it.
"""

import csv
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from crumbcoat_calc.foods.components import FIELD_NAMES
from crumbcoat_calc.foods.composition import Mixture
from crumbcoat_calc.label.nutrients import us_energy_kcal
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.foam import overrun_percent
from crumbcoat_calc.texts.science import vessel_state

REFERENCE = Path(__file__).parents[2] / "reference"

with (REFERENCE / "composite_foods.csv").open(encoding="utf-8", newline="") as file:
    FOODS = {row["key"]: row for row in csv.DictReader(file)}
COLUMNS = tuple(column for column in next(iter(FOODS.values())) if column in FIELD_NAMES.values())

FLOOR = {"g": 0.3, "mg": 5.0}
"""In the unit of a column, per 100 g: what tables round, and spoons of vanilla and salt that are not published."""


def stated(key: str) -> dict[str, str]:
    """The printed figures of a food, as the `composition` of an ingredient; what is not printed is not known."""
    shown = {name: FOODS[key].get(column, "") for name, column in FIELD_NAMES.items()}
    units = {name: FIELD_NAMES[name].rpartition("_")[2] for name in shown}
    return {name: f"{value} {'%' if units[name] == 'g' else units[name]}" for name, value in shown.items() if value}


def made(grams: Mapping[str, float], family: str = "other") -> Batch:
    ingredients: dict[str, Any] = {}
    for number, (what, mass_g) in enumerate(grams.items()):
        kind = {"name": what, "composition": stated(what)} if what in FOODS else {"kind": what}
        ingredients[f"part_{number}"] = {"amount": f"{mass_g} g", **kind}
    return batch_of(recipe_from({
        "title": "Rebuilt", "summary": "From a table.", "author": "Lantern Street teaching kitchen", "family": family,
        "yield": {"portions": "1", "of": "batch"}, "ingredients": ingredients,
        "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": list(ingredients)}]}],
    }))  # fmt: skip


def differences(key: str, mixture: Mixture, fitted: tuple[str, ...], within: float) -> list[str]:
    """Columns in which a mixture is not what its table prints: fitted ones by more than 1.5 %, others by `within`."""
    found = []
    for column in COLUMNS:
        printed, ours = FOODS[key][column], mixture.percents(column)
        if not printed or ours is None:
            continue
        allowed = max((0.015 if column in fitted else within) * float(printed), FLOOR[column.rpartition("_")[2]])
        if not ours[0] - allowed <= float(printed) <= ours[1] + allowed:
            found.append(f"{column}: {ours[0]:.2f} to {ours[1]:.2f}, printed {printed}")
    return found


@pytest.mark.parametrize(
    ("key", "grams", "fitted", "within"),
    [
        pytest.param(
            "whipped topping", {"dessert_topping_powder": 43, "milk_whole": 122}, (), 0.08,
            id="topping powder in milk, by published masses",
        ),
        pytest.param(
            "white fluffy frosting", {"white frosting mix": 207, "water_tap": 315 - 207}, (), 0.03,
            id="white frosting, by published masses",
        ),
        pytest.param(
            "chocolate frosting with butter",
            {"chocolate frosting mix": 388, "butter_salted": 55.5, "water_tap": 55.4}, ("water_g", "fat_g"), 0.06,
            id="chocolate frosting from a mix, butter and water",
        ),
        pytest.param(
            "sugar glaze", {"sugar_powdered": 269.5, "milk_whole": 53.1, "vanilla_extract": 4.4},
            ("water_g", "fat_g"), 0.06,
            id="sugar glaze, by published ingredients",
        ),
        pytest.param(
            "chocolate glaze with butter",
            {"sugar_powdered": 695.5, "cocoa_powder_dutched": 36.9, "butter_salted": 74.8, "milk_whole": 190.9,
             "salt_table": 1.9},
            ("water_g", "fat_g", "fibre_g", "sodium_mg"), 0.08,
            id="chocolate glaze, by the nearest kinds",
        ),
        pytest.param(
            "British butter icing",
            {"British salted butter": 357.7, "sugar_icing_uk": 602, "water_tap": 34}, ("water_g", "fat_g"), 0.02,
            id="British butter icing",
        ),
    ],
)  # fmt: skip
def test_a_composite_food_has_the_composition_that_its_table_prints(
    key: str, grams: dict[str, float], fitted: tuple[str, ...], within: float
) -> None:
    mixture = made(grams).total
    assert differences(key, mixture, fitted, within) == []
    known = [column for column in COLUMNS if FOODS[key][column] and mixture.percent(column) is not None]
    assert len([column for column in known if column not in fitted]) >= 5
    # Tables use factors of each food, labels 4, 4 and 9.
    low, high = us_energy_kcal(mixture)
    energy = 100 * (low + high) / 2 / mixture.mass_g
    assert energy == pytest.approx(float(FOODS[key]["energy_kcal"]), rel=0.06)


def test_a_wrong_formula_is_found() -> None:
    mixture = made({"dessert_topping_powder": 43, "milk_skim": 122}).total
    assert any(found.startswith("fat_g: ") for found in differences("whipped topping", mixture, (), 0.08))


def test_an_emulsion_of_little_fat_has_the_density_of_its_cup() -> None:
    """A spread of 37 % fat: a cup of 04128 weighs 232 g; oil, skimmed-milk powder, salt and water by least squares.

    Its oil is not named, so its saturates are not compared; nor are the traces of minerals beside its salt.
    """
    key = "vegetable oil spread 37 %"
    batch = made({"oil_soybean": 377, "milk_powder_skim": 14, "salt_table": 14.2, "water_tap": 595})
    found = differences(key, batch.total, ("water_g", "fat_g"), 0.08)
    assert {one.partition(":")[0] for one in found} <= {"saturated_fat_g", "sugars_g", "calcium_mg", "potassium_mg"}
    density = vessel_state(batch.vessels[-1], 20.0).density_g_per_ml
    assert isinstance(density, Estimate)
    assert density.low <= 232 / 236.588 <= density.high
    assert density.value == pytest.approx(232 / 236.588, rel=0.005)


def test_a_creamy_frosting_from_a_tub_holds_a_little_air() -> None:
    """Two tablespoons of 19230 weigh 33 g, so it has less air than a beaten frosting, but not none.

    Of 19228, tablespoons of the whipped kind weigh 24 g and of the creamy kind 33 g.
    """
    powdered = {"sugar_powdered": 645, "cornstarch": 42, "salt_table": 4.5}
    batch = made({"shortening_vegetable": 162, "water_tap": 147, **powdered})
    found = differences("creamy vanilla frosting", batch.total, ("water_g", "fat_g"), 0.08)
    assert {one.partition(":")[0] for one in found} <= {"saturated_fat_g", "ash_g", "potassium_mg"}
    density = vessel_state(batch.vessels[-1], 20.0).density_g_per_ml
    creamy, whipped = (overrun_percent(density, grams / (2 * 14.7868)) for grams in (33, 24))
    assert isinstance(creamy, Estimate)
    assert isinstance(whipped, Estimate)
    assert 10 < creamy.value < 25
    assert 50 < whipped.value < 80


GROUPS = {
    "0.98 and above": (0.98, 1.0),
    "0.93 to 0.98": (0.93, 0.98),
    "0.85 to 0.93": (0.85, 0.93),
    "0.60 to 0.85": (0.60, 0.85),
    "below 0.60": (0.0, 0.60),
}


@pytest.mark.parametrize(
    ("grams", "group"),
    [
        pytest.param({"milk_whole": 100}, "0.98 and above", id="milk"),
        pytest.param({"raspberry_raw": 100}, "0.98 and above", id="fresh fruit"),
        pytest.param({"milk_condensed_sweetened": 100}, "0.85 to 0.93", id="sweetened condensed milk"),
        pytest.param({"apricot_jam": 100}, "0.60 to 0.85", id="jam"),
        pytest.param({"molasses": 100}, "0.60 to 0.85", id="molasses"),
        pytest.param({"honey": 100}, "below 0.60", id="honey"),
        pytest.param(
            {"butter_unsalted_82": 357.7, "sugar_icing_uk": 602, "water_tap": 34}, "0.85 to 0.93",
            id="butter icing without salt: saturated sucrose in its water",
        ),
    ],
)  # fmt: skip
def test_water_activity_is_in_the_group_of_foods_that_a_code_names(grams: dict[str, float], group: str) -> None:
    """The band of the prediction meets the group.

    Source: New York State Department of Agriculture and Markets, Principal groups of foods based on water activity.
    """
    activity = vessel_state(made(grams).vessels[-1], 20.0).water_activity
    assert isinstance(activity, Estimate)
    low, high = GROUPS[group]
    assert activity.high >= low
    assert activity.low <= high
