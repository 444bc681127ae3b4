"""Keeping advice by the published pH and water-activity tables: what they say, never a clearance."""

from dataclasses import dataclass
from enum import Enum
from functools import cache

from crumbcoat_calc.science.estimate import Answer, Withheld, outside
from crumbcoat_calc.tables import load_rows

CAUTIONS = (
    "A predicted water activity is never a determination: only a laboratory's measurement of this product counts.",
    "The tables do not apply to food that a definition already includes or excludes.",
    "Local codes, and those licensed to apply them, decide; where they are stricter, follow them.",
)


class Packaging(Enum):
    """Which of the two tables applies."""

    HEATED_THEN_PACKAGED = "A"
    ALL_OTHERS = "B"


class Advice(Enum):
    """What the tables come to for a prediction."""

    NEEDS_ASSESSMENT = "needs assessment: keep it cold until a laboratory has measured it"
    CLEARLY_OUTSIDE = (
        "predicted outside the tables' assessment cells with all of the models' spread: "
        "worth a laboratory's measurement, no clearance"
    )


@dataclass(frozen=True, slots=True)
class _Cell:
    table: str
    water_activity: tuple[float, bool, float, bool]
    ph: tuple[float, bool, float, bool]
    designation: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Keeping:
    """Keeping advice, the designations that the band of water activity meets in the table, and the cautions."""

    advice: Advice
    table: str
    designations: tuple[str, ...]
    cautions: tuple[str, ...] = CAUTIONS
    source: str = "fda-food-code"


def designation(packaging: Packaging, water_activity: float, ph: float) -> str:
    """The cell of the table: `non-TCS`, or `PA` (product assessment required; as TCS until assessed).

    Both values are measured ones; at a limit the table's own signs decide.

    Args:
        water_activity: 0 to 1.
        ph: 0 to 14.

    Source:
        fda-food-code, 1-201.10, tables A and B.

    >>> designation(Packaging.ALL_OTHERS, 0.93, 4.1), designation(Packaging.ALL_OTHERS, 0.93, 4.5)
    ('non-TCS', 'PA')
    """
    for cell in _cells():
        if cell.table == packaging.value and _within(cell.water_activity, water_activity) and _within(cell.ph, ph):
            return cell.designation
    raise ValueError(f"water activity {water_activity:g} and pH {ph:g} are in no cell of the table")


def keeping_advice(packaging: Packaging, water_activity: Answer, measured_ph: float | None) -> Keeping | Withheld:
    """Keeping advice from a predicted water activity with its band and a measured pH.

    It needs assessment unless the whole band, low to high, lies in `non-TCS` cells at that pH. Without a measured pH
    there is no advice; a pH is never predicted.

    Source:
        fda-food-code, 1-201.10, tables A and B.
    """
    if isinstance(water_activity, Withheld):
        return Withheld(f"no water activity is predicted: {water_activity.reason}")
    if measured_ph is None:
        return Withheld("the tables need a measured pH; none is given, and it cannot be predicted")
    reason = outside("the pH", measured_ph, 0, 14, "")
    if reason:
        return reason
    low, high = max(0.0, water_activity.low), min(1.0, water_activity.high)
    met = [
        cell.designation
        for cell in _cells()
        if cell.table == packaging.value and _within(cell.ph, measured_ph) and _meets(cell.water_activity, low, high)
    ]
    designations = tuple(sorted(set(met)))
    clear = designations == ("non-TCS",)
    return Keeping(
        advice=Advice.CLEARLY_OUTSIDE if clear else Advice.NEEDS_ASSESSMENT,
        table=packaging.value,
        designations=designations,
    )


def _within(band: tuple[float, bool, float, bool], value: float) -> bool:
    low, low_included, high, high_included = band
    return (low < value or (low_included and value == low)) and (value < high or (high_included and value == high))


def _meets(band: tuple[float, bool, float, bool], low: float, high: float) -> bool:
    return _within(band, low) or _within(band, high) or (low < band[0] and high > band[2])


@cache
def _cells() -> tuple[_Cell, ...]:
    return load_rows("tcs_tables", _cell_from, ("table", "aw_above", "ph_above"))


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
    return _Cell(cells["table"], band("aw"), band("ph"), cells["designation"])
