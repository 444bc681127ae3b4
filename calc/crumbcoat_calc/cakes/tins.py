"""Tins: the sizes cakes are baked in, as solids to start from."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.cakes.solids import Block, Disc, Solid
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.tables import load_rows, number_in
from crumbcoat_calc.values.fields import did_you_mean

TIN_SHAPES = ("round", "square", "rectangle", "ring", "loaf")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tin:
    """A tin by its nominal size; `solid` is what fills it to the rim."""

    key: str
    name: str
    shape: str
    solid: Solid


@cache
def tins() -> Mapping[str, Tin]:
    """The table of tins by key: nominal sizes, common practice.

    >>> tins()["round_8in"].solid.height_mm
    50.8
    """
    return {tin.key: tin for tin in load_rows("tins", _tin_from, ("key",))}


def tin(key: str) -> Tin:
    """The tin with this key.

    Raises:
        InputError: if the table has none.
    """
    table = tins()
    if key not in table:
        remedy = did_you_mean(key, table, "give the lengths of the tin instead")
        raise InputError(f"there is no tin {key!r} in the table", remedy)
    return table[key]


def _tin_from(cells: dict[str, str]) -> Tin:
    if cells["shape"] not in TIN_SHAPES:
        raise ValueError(f"there is no shape {cells['shape']!r}")
    top, bottom = (
        (number_in(cells, f"{end}_length_mm", 40, 1000), number_in(cells, f"{end}_width_mm", 40, 1000))
        for end in ("top", "bottom")
    )
    height, hole = number_in(cells, "height_mm", 10, 200), number_in(cells, "hole_mm", 0, min(*top, *bottom) / 2)
    round_one = cells["shape"] in ("round", "ring")
    if round_one and (top[0] != top[1] or bottom[0] != bottom[1]):
        raise ValueError("a round tin has one diameter at the top and one at the bottom")
    if (hole > 0) != (cells["shape"] == "ring"):
        raise ValueError("a ring, and only a ring, has a hole")
    solid: Solid = (
        Disc(top_mm=top[0], bottom_mm=bottom[0], height_mm=height, hole_mm=hole)
        if round_one
        else Block(top_mm=top, bottom_mm=bottom, height_mm=height)
    )
    return Tin(key=cells["key"], name=cells["name"], shape=cells["shape"], solid=solid)
