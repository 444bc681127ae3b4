"""The charts over the trials of a notebook: readings, marks of tasting, and how long it held."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

from crumbcoat_calc.science.estimate import Estimate, Estimated
from crumbcoat_calc.trials.beside import mixed_before
from crumbcoat_calc.trials.doubts import state_when_read
from crumbcoat_calc.trials.model import Place, Reading, Tasting
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.outcomes import outcome_of
from crumbcoat_calc.trials.strips import Point, strip_chart
from crumbcoat_calc.values.display import number_text

_FEWEST = 2
"""A chart over the trials needs two of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """A chart with its title, and the same as a table: heads and rows; `note` says what is drawn.

    `says_all`: whether its lettering has all of the table.
    """

    title: str
    picture: str
    heads: list[str]
    rows: list[list[str]]
    note: str = ""
    says_all: bool = False


def reading_charts(trials: Sequence[MadeTrial]) -> list[Chart]:
    """A chart of each figure that was read in two trials or more, with what was worked out for each."""
    figures: list[tuple[str, str, str, int, _Read, _Predicted, str]] = [
        ("density", "Density", "g/mL", 2, lambda one: one.density_g_per_ml, _density, "worked out, without air"),
        ("water-activity", "Water activity", "", 2, lambda one: one.water_activity, _activity, "worked out"),
        ("brix", "°Brix", "%", 1, lambda one: one.brix_percent, _strength, "worked out"),
        ("ph", "pH", "", 1, lambda one: one.ph, _nothing, ""),
        ("spread", "Spread", "mm", 0, lambda one: one.spread_mm, _nothing, ""),
        ("penetration", "Penetration", "mm", 0, lambda one: one.penetration_mm, _nothing, ""),
    ]
    found = []
    for key, title, unit, digits, read, predicted, words in figures:
        of = [(made, reading) for made in trials for reading in _last(made, read, None)]
        found += _reading_chart(f"read-{key}", title, unit, digits, of, read, predicted, words)
    stages = sorted({one.at.stage for made in trials for one in made.trial.readings if one.at and one.at.step is None})
    for stage in stages:
        title = f"Temperature after stage {stage + 1}"
        of = [(made, reading) for made in trials for reading in _last(made, _temperature, Place(stage=stage))]
        key = f"read-temperature-{stage + 1}"
        found += _reading_chart(
            key, title, "°C", 1, of, _temperature, mixed_before, "worked out, before the mixer warms it"
        )
    return found


def tasting_charts(trials: Sequence[MadeTrial]) -> list[Chart]:
    """A chart of each attribute that was marked in two trials or more: the mean, and from the lowest to the highest."""
    kinds = dict.fromkeys((one.attribute, one.scale) for made in trials for one in made.trial.tasted)
    found = []
    for at, (attribute, scale) in enumerate(kinds):
        of = [
            (made, one)
            for made in trials
            for one in made.trial.tasted
            if (one.attribute, one.scale) == (attribute, scale)
        ]
        if len(of) < _FEWEST:
            continue
        points = [
            Point(
                number=made.trial.number,
                value=fmean(one.marks),
                text=f"{number_text(fmean(one.marks), 1)}, from {min(one.marks)} to {max(one.marks)}",
                did=outcome_of(made.trial),
                low=min(one.marks),
                high=max(one.marks),
            )
            for made, one in of
        ]
        title = f"{attribute[:1].upper()}{attribute[1:]}, 1 to {scale}"
        found.append(
            Chart(
                title=title,
                picture=strip_chart(
                    f"tasted-{at}",
                    title,
                    "",
                    points,
                    "mean, lowest and highest mark",
                    [float(mark) for mark in range(1, scale + 1, 2)],
                ),
                heads=["Trial", "People", "Mean", "Spread (SD)", "Lowest to highest"],
                rows=[[f"Trial {made.trial.number}{_code(one)}", *tasting_cells(one.marks)] for made, one in of],
            )
        )
    return found


def tasting_cells(marks: Sequence[int]) -> list[str]:
    """How many people, their mean, its standard deviation (of a sample), and the lowest and highest mark.

    >>> tasting_cells((7, 8, 8, 7, 6))
    ['5', '7.2', '0.8', '6 to 8']
    """
    return [
        str(len(marks)),
        number_text(fmean(marks), 1),
        number_text(stdev(marks), 1) if len(marks) > 1 else "",
        f"{min(marks)} to {max(marks)}",
    ]


_Read = Callable[[Reading], float | None]
_Predicted = Callable[[MadeTrial, Reading], Estimated | None]


def _reading_chart(
    key: str,
    title: str,
    unit: str,
    digits: int,
    of: Sequence[tuple[MadeTrial, Reading]],
    read: _Read,
    predicted: _Predicted,
    words: str,
) -> list[Chart]:
    if len(of) < _FEWEST:
        return []
    points, rows = [], []
    for made, reading in of:
        value, worked_out = read(reading), predicted(made, reading)
        assert value is not None
        band = worked_out if isinstance(worked_out, Estimate) else None
        shown = f"{number_text(value, digits)} {unit}".rstrip()
        beside = f"{number_text(band.value, digits)} {unit}".rstrip() if band else ""
        points.append(
            Point(
                number=made.trial.number,
                value=value,
                text=f"{shown} ({words} {beside})" if beside else shown,
                did=outcome_of(made.trial),
                low=band.low if band else None,
                high=band.high if band else None,
            )
        )
        rows.append([f"Trial {made.trial.number}", shown, beside])
    has_band = any(row[2] for row in rows)
    heads = ["Trial", "Read", words[:1].upper() + words[1:]] if has_band else ["Trial", "Read"]
    rows = rows if has_band else [row[:2] for row in rows]
    drawn = strip_chart(key, title, unit, points, f"bar: {words}" if has_band else "")
    note = f"Pale bar: {words}." if has_band else ""
    return [Chart(title=title if not unit else f"{title}, {unit}", picture=drawn, heads=heads, rows=rows, note=note)]


def _last(made: MadeTrial, read: _Read, at: Place | None) -> list[Reading]:
    """The last reading of a figure in a trial, of the finished batch or at a place, as a list of one or none."""
    return [one for one in made.trial.readings if one.at == at and read(one) is not None][-1:]


def _temperature(reading: Reading) -> float | None:
    return reading.temperature_c


def _density(made: MadeTrial, reading: Reading) -> Estimated:
    return state_when_read(made, reading).density_g_per_ml


def _activity(made: MadeTrial, reading: Reading) -> Estimated:
    return state_when_read(made, reading).water_activity


def _strength(made: MadeTrial, reading: Reading) -> Estimated:
    return state_when_read(made, reading).syrup_strength_percent


def _nothing(made: MadeTrial, reading: Reading) -> None:
    return None


def _code(tasting: Tasting) -> str:
    return f", blind code {tasting.code}" if tasting.code else ""
