"""Keeping advice by the published table of pH and water activity; never a clearance."""

from dataclasses import dataclass
from enum import Enum
from functools import cache

from crumbcoat_calc.science.estimate import Estimated, Withheld, outside
from crumbcoat_calc.tables import load_rows

CAUTIONS = (
    "A predicted water activity is never a determination: only a laboratory's measurement of this product counts.",
    "The table is that of the US Food Code, and does not apply to foods that the code itself includes or excludes.",
)


class Advice(Enum):
    """What the table says about a prediction."""

    NEEDS_ASSESSMENT = "needs assessment: keep it cold until a laboratory has measured it"
    CLEARLY_OUTSIDE = (
        "with the full spread of the models, the prediction is outside the cells that call for an assessment: "
        "worth a laboratory's measurement, no clearance"
    )


@dataclass(frozen=True, slots=True)
class _Cell:
    water_activity: tuple[float, bool, float, bool]
    ph: tuple[float, bool, float, bool]
    designation: str


def keeping_advice(water_activity: Estimated, measured_ph: float | None) -> Advice | Withheld:
    """Keeping advice from a predicted water activity with its band and a measured pH.

    By table B, for food that is not heated in its package. The product needs assessment (`PA`: product assessment
    required) unless the whole band, low to high, is in `non-TCS` cells at that pH; at a limit, the table's own signs
    decide. Without a measured pH there is no advice; a pH is never predicted.

    Source:
        fda-food-code, 1-201.10, table B.
    """
    if isinstance(water_activity, Withheld):
        return Withheld(f"there is no water activity to go by: {water_activity.reason}")
    if measured_ph is None:
        return Withheld("the tables need a measured pH; none is given, and it cannot be predicted")
    reason = outside("the pH", measured_ph, 0, 14, "")
    if reason:
        return reason
    low, high = max(0.0, water_activity.low), min(1.0, water_activity.high)
    designations = {
        cell.designation
        for cell in _cells()
        if _within(cell.ph, measured_ph) and _meets(cell.water_activity, low, high)
    }
    return Advice.CLEARLY_OUTSIDE if designations == {"non-TCS"} else Advice.NEEDS_ASSESSMENT


def _within(band: tuple[float, bool, float, bool], value: float) -> bool:
    low, low_included, high, high_included = band
    return (low < value or (low_included and value == low)) and (value < high or (high_included and value == high))


def _meets(band: tuple[float, bool, float, bool], low: float, high: float) -> bool:
    return _within(band, low) or _within(band, high) or (low < band[0] and high > band[2])


@cache
def _cells() -> tuple[_Cell, ...]:
    return load_rows("tcs_table_b", _cell_from, ("aw_above", "ph_above"))


def _cell_from(cells: dict[str, str]) -> _Cell:
    def band(of: str) -> tuple[float, bool, float, bool]:
        return (
            float(cells[f"{of}_above"]),
            cells[f"{of}_above_included"] == "yes",
            float(cells[f"{of}_up_to"]),
            cells[f"{of}_up_to_included"] == "yes",
        )

    if cells["designation"] not in ("non-TCS", "PA"):
        raise ValueError(f"there is no designation {cells['designation']!r}")
    return _Cell(band("aw"), band("ph"), cells["designation"])
