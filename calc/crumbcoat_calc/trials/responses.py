"""What was read, tested and tasted of a finished batch, as numbers that can be compared between trials."""

from collections.abc import Iterator
from dataclasses import dataclass
from statistics import fmean

from crumbcoat_calc.trials.model import Reading, Trial
from crumbcoat_calc.trials.outcomes import HELD

_READ = (
    ("temperature_c", "temperature", "°C"),
    ("density_g_per_ml", "density", "g/mL"),
    ("ph", "pH", ""),
    ("brix_percent", "°Brix", ""),
    ("water_activity", "water activity", ""),
    ("spread_mm", "spread", "mm"),
    ("penetration_mm", "penetration", "mm"),
)
_TESTED = (("weeping_mm", "weeping", "mm"), ("height_lost_mm", "height lost", "mm"), ("rosettes", "rosettes", ""))


@dataclass(frozen=True, slots=True)
class Response:
    """A number of a trial: what it is, and its unit; `at_least` for a time after which the batch still held."""

    name: str
    unit: str
    value: float
    at_least: bool = False


def responses_of(trial: Trial) -> dict[str, Response]:
    """Every number of a finished batch, by name; of readings of one thing the last one."""
    return {one.name: one for one in [*_read(trial.readings), *_tested(trial), *_tasted(trial)]}


def _read(readings: tuple[Reading, ...]) -> Iterator[Response]:
    for reading in readings:
        for field, name, unit in _READ if reading.at is None else ():
            value = getattr(reading, field)
            if value is not None:
                yield Response(name, unit, value)


def _tested(trial: Trial) -> Iterator[Response]:
    for test in trial.tests:
        where = f" {test.where}" if test.where else ""
        for field, name, unit in _TESTED:
            value = getattr(test, field)
            if value is not None:
                yield Response(f"{test.test}{where}: {name}", unit, float(value))
        if test.time_s is not None:
            minutes = test.time_s / 60
            yield Response(f"{test.test}{where}: time that it held", "min", minutes, at_least=test.did == HELD)


def _tasted(trial: Trial) -> Iterator[Response]:
    for tasting in trial.tasted:
        yield Response(f"{tasting.attribute}, mean of {tasting.scale} marks", "", fmean(tasting.marks))
