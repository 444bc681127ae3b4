"""The ingredient table: what 100 g of each kind of ingredient is made of, and what a household measure of it weighs."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from calc.errors import InputError
from calc.fields import did_you_mean
from calc.tables import UNKNOWN, load_rows
from calc.units import factor, is_volume

COMPONENTS = (
    "water_g", "protein_g", "fat_g", "carbohydrate_g", "ash_g", "alcohol_g",
    "fibre_g", "starch_g", "sugars_g", "added_sugars_g",
    "sucrose_g", "glucose_g", "fructose_g", "lactose_g", "maltose_g",
    "milk_fat_g", "milk_solids_not_fat_g", "milk_protein_g",
    "saturated_fat_g", "trans_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g",
    "sodium_mg", "cholesterol_mg", "calcium_mg", "potassium_mg", "iron_mg", "vitamin_d_ug",
)  # fmt: skip
"""What a composition counts; the ending is the unit. Carbohydrate is by difference and includes fibre."""

PROXIMATES = COMPONENTS[:6]
"""The components that together make up the whole mass."""

INDEX = {component: position for position, component in enumerate(COMPONENTS)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """What one household measure of a food weighs, such as a US cup of it, sifted.

    `unit` is a unit of volume (`us_cup`) or a word for a piece (`stick`, `large`); `how` is `as it comes` or the state.
    """

    unit: str
    how: str
    grams: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Food:
    """A kind of ingredient: its composition per 100 g, in the order of COMPONENTS; None where it is not known."""

    key: str
    name: str
    group: str
    per_100g: tuple[float | None, ...]
    measures: tuple[Measure, ...] = ()
    source: str

    def content(self, component: str) -> float | None:
        """The content of one component per 100 g, in the unit of its name."""
        return self.per_100g[INDEX[component]]


AS_IT_COMES = "as it comes"


@cache
def foods() -> Mapping[str, Food]:
    """The ingredient table by key.

    >>> foods()["milk_whole"].content("water_g")
    88.13
    """
    measures: dict[str, list[Measure]] = {}
    for key, measure in load_rows("measures", _measure_from, ("food", "unit", "how")):
        measures.setdefault(key, []).append(measure)
    table = {food.key: food for food in load_rows("foods", lambda cells: _food_from(cells, measures), ("key",))}
    strangers = measures.keys() - table.keys()
    if strangers:
        raise ValueError(f"measures.csv weighs foods that are not in foods.csv: {sorted(strangers)}")
    return table


def food(key: str) -> Food:
    """The kind of ingredient with this key.

    Raises:
        InputError: if the ingredient table has none.
    """
    table = foods()
    if key not in table:
        remedy = did_you_mean(key, table, "take a kind from the ingredient table, or give its `composition`")
        raise InputError(f"there is no kind {key!r} in the ingredient table", remedy)
    return table[key]


def grams_of(food: Food, number: float, unit: str, how: str = AS_IT_COMES) -> float:
    """What so many household measures of a food weigh, in g.

    The food's own weight of that very measure is taken if there is one; else that of its largest measure of volume,
    by the ratio of the volumes. Another food's weight is never taken.

    Args:
        number: how many, zero or more.
        unit: a unit of volume, or a word for a piece.
        how: the state that the measure is weighed in, such as `sifted`.

    Raises:
        InputError: if the food has no weight for the measure.

    Source:
        usda-sr28 (household weights); definition (ratio of volumes).

    >>> round(grams_of(food("butter_unsalted"), 2, "us_tablespoon"), 1)
    28.4
    """
    fitting = [measure for measure in food.measures if measure.how == how]
    for measure in fitting:
        if measure.unit == unit:
            return number * measure.grams
    if is_volume(unit):
        volumes = [measure for measure in fitting if is_volume(measure.unit)]
        if volumes:
            largest = max(volumes, key=lambda measure: factor(measure.unit, "millilitre"))
            return number * factor(unit, "millilitre") * largest.grams / factor(largest.unit, "millilitre")
    known = ", ".join(f"{measure.unit.replace('_', ' ')} ({measure.how})" for measure in food.measures)
    remedy = f"give grams, or a measure known for it: {known}" if known else "give grams"
    shown = unit.replace("_", " ") + ("" if how == AS_IT_COMES else f", {how}")
    raise InputError(f"there is no weight for {shown!r} of {food.name}", remedy)


def _measure_from(cells: dict[str, str]) -> tuple[str, Measure]:
    grams = float(cells["grams"])
    if not 0 < grams < 5000:
        raise ValueError(f"a {cells['unit']} of {grams:g} g cannot be")
    return cells["food"], Measure(unit=cells["unit"], how=cells["how"], grams=grams)


def _food_from(cells: dict[str, str], measures: Mapping[str, list[Measure]]) -> Food:
    values = tuple(None if cells[component] == UNKNOWN else float(cells[component]) for component in COMPONENTS)
    for component, value in zip(COMPONENTS, values, strict=True):
        if value is not None and (value < 0 or (component.endswith("_g") and value > 100)):
            raise ValueError(f"{component} is {value:g} per 100 g")
    return Food(
        key=cells["key"],
        name=cells["name"],
        group=cells["group"],
        per_100g=values,
        measures=tuple(measures.get(cells["key"], ())),
        source=cells["source"],
    )
