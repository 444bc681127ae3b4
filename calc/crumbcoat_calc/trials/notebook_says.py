"""What the trials of a notebook say together: what to try next, and what their readings say of the kitchen."""

from collections.abc import Sequence

from crumbcoat_calc.trials.calibration import BOILED_OFF, CHILLING, MIXER, OVERRUN, UNITS, Calibrated, calibrated
from crumbcoat_calc.trials.next_step import edges_of
from crumbcoat_calc.trials.next_step_texts import edge_text
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.display import number_text

_LABELS = {
    MIXER: "Power that the mixer leaves in the batch",
    BOILED_OFF: "Water that boils off",
    OVERRUN: "Overrun of the finished batch",
    CHILLING: "Time constant of the bowl in the cold",
}

KITCHEN_HEADS = ["What", "Value", "Band", "From"]


def next_says(trials: Sequence[MadeTrial]) -> list[str]:
    """What is between a trial that held and one that broke, each suggestion once; none without such two."""
    found = {(edge.setting, edge.value): edge_text(edge) for edge in reversed(edges_of(trials))}
    return list(found.values())[::-1]


def kitchen_rows(trials: Sequence[MadeTrial]) -> list[list[str]]:
    """What the readings calibrate: label, value, band of 95 % confidence and the number of batches."""
    return [_row(one) for one in calibrated(trials)]


def _row(one: Calibrated) -> list[str]:
    digits, unit = 1 if one.what == CHILLING else 0, UNITS[one.what]
    where = "" if one.stage is None else f", stage {one.stage + 1}"
    band = f"{number_text(one.band[0], digits)} to {number_text(one.band[1], digits)} {unit}" if one.band else ""
    batches = "1 batch" if one.batches == 1 else f"{one.batches} batches"
    return [f"{_LABELS[one.what]}{where}", f"{number_text(one.value, digits)} {unit}", band, batches]
