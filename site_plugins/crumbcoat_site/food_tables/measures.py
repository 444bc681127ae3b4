"""The household weights that USDA prints, as measures that a recipe can be written in."""

import re

from crumbcoat_site.food_tables.rows import TableFood, weights_of

_VOLUMES = {"cup": "US cup", "tbsp": "US tbsp", "tablespoon": "US tbsp", "tsp": "US tsp", "teaspoon": "US tsp",
            "fl oz": "US fluid ounce"}  # fmt: skip
_MASSES = ("oz", "lb", "g", "kg", "gram", "ounce", "pound", "mg", "cubic inch", "ml", "liter", "quart", "pint",
           "gallon")  # fmt: skip
_PIECE = re.compile("[a-z][a-z ]{1,24}")


def measures_of(food: TableFood) -> dict[str, str]:
    """What one of each measure weighs, such as `{"US cup, sifted": "110 g"}`; masses and sizes in inches are left out.

    >>> from crumbcoat_site.food_tables.rows import row
    >>> measures_of(row("usda 01123"))["large"]
    '50 g'
    """
    found: dict[str, str] = {}
    for amount, measure, grams in weights_of().get(food.number, ()) if food.table == "usda" else ():
        name = _name(measure)
        if name and amount > 0 and 0 < grams / amount < 5000:
            found.setdefault(name, f"{round(grams / amount, 4):g} g")
    return found


def _name(measure: str) -> str:
    """The measure as a recipe writes it; empty if it is a mass, or a size that nobody measures by."""
    head, _, how = (part.strip().lower() for part in measure.partition(","))
    head, how = re.sub(r"\s*\(.*?\)", "", head).strip(), re.sub(r"\s*\(.*?\)", "", how).strip()
    if any(sign.isdigit() or sign in '()"/:`' for sign in how) or len(how) > 40:
        return ""
    if head in _VOLUMES:
        return f"{_VOLUMES[head]}, {how}" if how else _VOLUMES[head]
    if head in _MASSES or not _PIECE.fullmatch(head) or head.split()[0] in _VOLUMES:
        return ""
    return f"{head}, {how}" if how else head
