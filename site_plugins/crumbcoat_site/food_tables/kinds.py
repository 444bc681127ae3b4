"""A row of a table as the `kind` of a recipe's data, with the figures in it."""

from collections.abc import Mapping
from functools import cache

from crumbcoat_calc.foods.components import FIELD_OF
from crumbcoat_calc.tables import load_rows

from crumbcoat_site.food_tables.conventions import Range, contents_of, source_of
from crumbcoat_site.food_tables.measures import measures_of
from crumbcoat_site.food_tables.rows import place_of, row


def kind_of(written: str) -> str | dict[str, object]:
    """The kind that a table and a number name, as a recipe's data carry it.

    A row that the ingredient table has too is the kind of that table, which knows its allergens and hazards. Any other
    is the fields that `own_food.food_from` reads.

    Raises:
        InputError: if the table has no such number, or its figures are not for 100 g.

    >>> kind_of("usda 01123")
    'egg_whole_raw'
    >>> kind_of("usda 01139")["contents"]["water"]
    '70.43'
    """
    table, number = place_of(written)
    known = _kinds_by_row().get(f"{_IN_THE_TABLE[table]} {number}")
    if known:
        return known
    food = row(written)
    contents = {FIELD_OF[component]: _text(span) for component, span in contents_of(food).items()}
    kind: dict[str, object] = {"written": food.written, "name": food.name, "contents": contents}
    measures = measures_of(food)
    if measures:
        kind["measures"] = measures
    return kind | {"source": source_of(food)}


_IN_THE_TABLE = {"usda": "NDB", "ciqual": "Ciqual", "cofid": "CoFID"}
"""How the ingredient table writes where a row is from."""


@cache
def _kinds_by_row() -> Mapping[str, str]:
    return {cells["where"]: cells["key"] for cells in load_rows("foods", dict, ("key",))}


def _text(span: Range) -> str:
    low, high = [f"{end:.4f}".rstrip("0").rstrip(".") for end in span]
    return low if low == high else f"{low} to {high}"
