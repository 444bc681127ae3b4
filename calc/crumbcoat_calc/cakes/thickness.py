"""Common thicknesses of coats and fillings, and shares piped or lost: starting values that the reader can edit."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.tables import load_rows, number_in


@dataclass(frozen=True, slots=True, kw_only=True)
class Thickness:
    """The usual thickness for one use, and its common range."""

    lowest_mm: float
    usual_mm: float
    highest_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """A usual share, and its common range."""

    lowest: float
    usual: float
    highest: float


@cache
def thicknesses() -> Mapping[str, Thickness]:
    """Thicknesses by use: common practice, no source.

    >>> thicknesses()["final_coat"].usual_mm
    4.5
    """

    def row(cells: dict[str, str]) -> tuple[str, Thickness]:
        low, usual, high = (number_in(cells, f"{which}_mm", 0.5, 80) for which in ("lowest", "usual", "highest"))
        if not low <= usual <= high:
            raise ValueError("the usual thickness is outside its range")
        return cells["use"], Thickness(lowest_mm=low, usual_mm=usual, highest_mm=high)

    return dict(load_rows("coating_thickness", row, ("use",)))


@cache
def allowances() -> Mapping[str, Allowance]:
    """Shares by what they allow for: common practice, no source.

    >>> allowances()["loss_share"].usual
    0.07
    """

    def row(cells: dict[str, str]) -> tuple[str, Allowance]:
        low, usual, high = (number_in(cells, which, 0, 1) for which in ("lowest", "usual", "highest"))
        if not low <= usual <= high:
            raise ValueError("the usual share is outside its range")
        return cells["allowance"], Allowance(lowest=low, usual=usual, highest=high)

    return dict(load_rows("allowances", row, ("allowance",)))
