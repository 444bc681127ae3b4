"""A row of a table -> contents of 100 g in our terms: carbohydrate with fibre, grams, ranges where one is printed."""

from collections.abc import Mapping
from math import fsum

from crumbcoat_calc.errors import InputError

from crumbcoat_site.food_tables.rows import TABLES, TableFood

Range = tuple[float, float]
Contents = dict[str, Range]
"""The lowest and the highest content by component; what is not known is left out."""

DISACCHARIDE, STARCH, PHOSPHATE = 1.05, 1.10, 3.066
"""Grams of monosaccharide in a gram (CoFID's user guide), and of phosphate for a gram of phosphorus (molar masses)."""

MISSES_G = 3.0
"""By how many g carbohydrate by difference may miss what is printed, before both become the ends of a range."""

_ALIKE = (
    "water_g", "fat_g", "ash_g", "alcohol_g", "fibre_g", "starch_g", "sugars_g", "sucrose_g", "glucose_g", "fructose_g",
    "lactose_g", "maltose_g", "saturated_fat_g", "trans_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g",
    "sodium_mg", "cholesterol_mg", "calcium_mg", "potassium_mg", "iron_mg", "vitamin_d_ug",
)  # fmt: skip
_OF_PLANTS = (
    "Nut and Seed Products", "Fruits and Fruit Juices", "Vegetables and Vegetable Products", "Spices and Herbs",
    "Cereal Grains and Pasta",
)  # fmt: skip
_OF_MILK = ("Milk,", "Cream,", "Butter,", "Butter oil", "Cheese,", "Yogurt,", "Whey,", "Sour cream", "Cream cheese")
_NOT_ONLY_MILK = ("imitation", "substitute", "filled", "fruit", "chocolate", "egg", "vegetable oil", "vanilla", "human")
_MILK = ("milk_fat_g", "milk_solids_not_fat_g", "milk_protein_g")
_MINERALS = {"sodium_mg": 1.0, "potassium_mg": 1.0, "calcium_mg": 1.0, "magnesium_mg": 1.0, "chloride_mg": 1.0,
             "phosphorus_mg": PHOSPHATE}  # fmt: skip


def contents_of(food: TableFood) -> Contents:
    """What 100 g of a food contain.

    USDA: carbohydrate is by difference and includes fibre, as ours. Ciqual: protein by the factor of the food;
    carbohydrate is printed without fibre. CoFID: carbohydrates are printed as monosaccharides, ash is not printed and
    is the sum of the minerals. Where water, protein, fat and ash are known, carbohydrate is what they leave of 100 g,
    as in the ingredient table; where that misses the printed sum by more than MISSES_G, both are the ends of a range.

    Raises:
        InputError: if the figures are for 100 mL.

    Source:
        usda-sr28, ciqual-2025, cofid-2021; derivation (mass balance).
    """
    return {"usda": _usda, "ciqual": _ciqual, "cofid": _cofid}[food.table](food)


def _usda(food: TableFood) -> Contents:
    found = _as_printed(food.cells, (*_ALIKE, "protein_g", "carbohydrate_g"))
    if food.group in _OF_PLANTS:
        return found | dict.fromkeys((*_MILK, "lactose_g"), (0.0, 0.0))
    name = food.name.lower()
    if food.name.startswith(_OF_MILK) and not any(word in name for word in _NOT_ONLY_MILK):
        of_milk = {"milk_fat_g": "fat_g", "milk_protein_g": "protein_g"}
        found |= {part: found[whole] for part, whole in of_milk.items() if whole in found}
    return found


def _ciqual(food: TableFood) -> Contents:
    found = _as_printed(food.cells, _ALIKE)
    protein = _cell(food.cells["protein_jones_g"])
    if protein is not None:
        found["protein_g"] = protein
    available = _cell(food.cells["carbohydrate_g"])
    acids = _cell(food.cells["organic_acids_g"]) or (0.0, 0.0)
    return _with_carbohydrate(found, None if available is None else _sum([available, acids]))


def _cofid(food: TableFood) -> Contents:
    if food.cells["basis"] != "100 g":
        problem = f"the figures of {food.written} ({food.name}) are for {food.cells['basis']}, not for 100 g"
        raise InputError(problem, "choose another food, or state its `composition` for 100 g")
    cells = {**food.cells, "fibre_g": food.cells["fibre_aoac_g"]}
    found = _as_printed(cells, (*_ALIKE, "protein_g"))
    for sugar in ("sucrose_g", "lactose_g", "maltose_g"):
        printed = _cell(cells[sugar.replace("_g", "_mse_g")])
        if printed is not None:
            found[sugar] = _times(printed, 1 / DISACCHARIDE)
    starch, sugars = _cell(cells["starch_mse_g"]), _cell(cells["sugars_mse_g"])
    if starch is not None:
        found["starch_g"] = _times(starch, 1 / STARCH)
    if sugars is not None:
        found["sugars_g"] = _in_grams(sugars, [found.get(sugar) for sugar in ("sucrose_g", "lactose_g", "maltose_g")])
    minerals = [_cell(cells[mineral]) for mineral in _MINERALS]
    if None not in minerals:
        factors = _MINERALS.values()
        parts = [_times(part, per_g / 1000) for part, per_g in zip(minerals, factors, strict=True) if part is not None]
        found["ash_g"] = _sum(parts)
    printed = _cell(cells["carbohydrate_mse_g"])
    oligosaccharides = _cell(cells["oligosaccharide_mse_g"]) or (0.0, 0.0)
    if "starch_g" in found and "sugars_g" in found:
        available = _sum([found["starch_g"], found["sugars_g"], _times(oligosaccharides, 1 / STARCH)])
        return _with_carbohydrate(found, available)
    return _with_carbohydrate(found, None if printed is None else (printed[0] / STARCH, printed[1]))


def _in_grams(sugars: Range, disaccharides: list[Range | None]) -> Range:
    """Sugars in g from those as monosaccharides: a disaccharide weighs less by what its splitting takes up of water."""
    known = fsum(part[0] for part in disaccharides if part is not None)
    most = known if None not in disaccharides else sugars[1] / DISACCHARIDE
    less = DISACCHARIDE - 1
    return max(0.0, sugars[0] - less * most), max(0.0, sugars[1] - less * known)


def _with_carbohydrate(found: Contents, available: Range | None) -> Contents:
    """The contents with the carbohydrate, fibre included: by difference if the rest is known, else as printed."""
    fibre = found.get("fibre_g")
    printed = None
    if available is not None:
        printed = (available[0] + (fibre[0] if fibre else 0.0), available[1] + fibre[1] if fibre else 100.0)
    others = [found.get(component) for component in ("water_g", "protein_g", "fat_g", "ash_g")]
    if None not in others:
        known = [*[part for part in others if part is not None], found.get("alcohol_g", (0.0, 0.0))]
        left = max(0.0, 100 - fsum((low + high) / 2 for low, high in known))
        if printed is None or fibre is None or printed[0] - MISSES_G <= left <= printed[1] + MISSES_G:
            return found | {"carbohydrate_g": (left, left)}
        return found | {"carbohydrate_g": (min(left, printed[0]), max(left, printed[1]))}
    return found if printed is None else found | {"carbohydrate_g": printed}


def _as_printed(cells: Mapping[str, str], components: tuple[str, ...]) -> Contents:
    printed = {component: _cell(cells.get(component, "")) for component in components}
    return {component: span for component, span in printed.items() if span is not None}


def _cell(printed: str) -> Range | None:
    """A cell as a range: `<0.2` is 0 to 0.2, a trace 0; None if no figure is printed."""
    if printed in ("", "N"):
        return None
    if printed == "Tr":
        return 0.0, 0.0
    if printed.startswith("<"):
        return 0.0, float(printed[1:])
    return float(printed), float(printed)


def _times(span: Range, factor: float) -> Range:
    return factor * span[0], factor * span[1]


def _sum(spans: list[Range]) -> Range:
    return fsum(low for low, _ in spans), fsum(high for _, high in spans)


def source_of(food: TableFood) -> str:
    """The source as a card names it.

    >>> from crumbcoat_site.food_tables.rows import row
    >>> source_of(row("usda 01123"))
    'USDA SR28, number 01123'
    """
    return f"{TABLES[food.table]}, number {food.number}"
