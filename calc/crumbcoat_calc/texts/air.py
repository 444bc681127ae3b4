"""Text about the air in a finished batch: from a density that was measured, or that is only expected."""

from dataclasses import dataclass

from crumbcoat_calc.forms.our_readings import OurReading
from crumbcoat_calc.science.estimate import Estimate, Estimated, Withheld
from crumbcoat_calc.science.foam import OVERRUN, air_percent, overrun_percent
from crumbcoat_calc.texts.estimates import estimate_text
from crumbcoat_calc.values.display import number_text, range_text

_EXPECTED_OFF = 0.1
"""By which share a density that was worked out may be off, either way (an assumption)."""


@dataclass(frozen=True, slots=True)
class Air:
    """What is known of the air in a batch: its density with the air, None if it is not known.

    `by_cup`: the reader weighed it. `changed`: the recipe states a density, and the batch is no longer that one.
    """

    density_g_per_ml: float | None = None
    by_cup: bool = False
    changed: bool = False


def overrun_text(air: Air, mix: Estimated, made: int | None, ours: OurReading | None = None) -> str:
    """The air in a finished batch; without its density, from our own batches.

    Args:
        mix: density of the batch without air, g/mL.
        made: how often the author made the recipe, None if that is not stated.
    """
    density = air.density_g_per_ml
    if density is None and ours and not air.changed:
        shown = estimate_text(Estimate(ours.value, ours.low, ours.high, OVERRUN), 0, "%")
        return f"{shown}, {ours.source}; weigh a cup of yours"
    if density is None and air.changed:
        return "not given: after these changes, the density of the recipe no longer holds; weigh a cup of your batch"
    if density is None:
        return "not given: weigh a cup of the finished batch"
    if made == 0 and not air.by_cup:
        return _expected_text(density, mix)
    overrun = overrun_percent(mix, density)
    if isinstance(overrun, Withheld):
        return f"not given: {overrun.reason}"
    return (
        f"{estimate_text(overrun, 0, '%')}: at {number_text(density, 2)} g/mL, "
        f"{number_text(air_percent(overrun.value), 0)} % of the volume is air"
    )


def _expected_text(density: float, mix: Estimated) -> str:
    """The air by a density that nobody measured yet."""
    if isinstance(mix, Withheld):
        return f"not given: {mix.reason}"
    value, low, high = [
        max(0.0, 100 * (without / (density * share) - 1))
        for without, share in ((mix.value, 1.0), (mix.low, 1 + _EXPECTED_OFF), (mix.high, 1 - _EXPECTED_OFF))
    ]
    volumes = [number_text(air_percent(overrun), 0) for overrun in (low, high)]
    return (
        f"{estimate_text(Estimate(value, low, high, OVERRUN), 0, '%')}, expected: at {number_text(density, 2)} g/mL, "
        f"worked out and not measured, ±{100 * _EXPECTED_OFF:g} %, {range_text(*volumes)} % of the volume is air"
    )
