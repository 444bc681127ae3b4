"""Charts over the trials: one figure a chart, a column a trial, with a band and a sign."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, log10

from crumbcoat_calc.pictures.drawing import WIDTH, element, label, line, picture, sentence
from crumbcoat_calc.trials.signs import sign

_TOP, _HIGH, _LEFT, _RIGHT, _FOOT = 12.0, 92.0, 40.0, 14.0, 24.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A trial in a chart: its number, the value with its text, what it did; `low` and `high` if there is a band."""

    number: int
    value: float
    text: str
    did: str | None
    low: float | None = None
    high: float | None = None


def strip_chart(
    key: str, title: str, unit: str, points: Sequence[Point], band: str = "", steps: Sequence[float] = ()
) -> str:
    """Values over the trials from left to right, on a scale that holds them all and need not begin at zero.

    Args:
        key: a short name, unique on the page.
        points: one or more, in the order of the trials.
        band: what the bands are, for the description.
        steps: the scale, if it has one of its own.
    """
    steps = steps or scale(*_ends(points))
    bottom, top = _TOP + _HIGH, _TOP

    def y(value: float) -> float:
        return bottom - (value - steps[0]) / (steps[-1] - steps[0]) * (bottom - top)

    across = (WIDTH - _LEFT - _RIGHT) / len(points)
    drawn = []
    for step in steps:
        drawn.append(line(_LEFT, y(step), WIDTH, y(step), "cc-grid"))
        drawn.append(label(_LEFT - 8, y(step) + 4, f"{step:g}", kind="cc-small", anchor="end"))
    places = [_LEFT + across * (at + 0.5) for at in range(len(points))]
    way = " ".join([f"{x:.1f},{y(point.value):.1f}" for x, point in zip(places, points, strict=True)])
    drawn.append(element("polyline", points=way, class_="cc-thread"))
    for x, point in zip(places, points, strict=True):
        if point.low is not None and point.high is not None:
            drawn.append(line(x, y(point.low), x, y(point.high), "cc-band"))
        drawn.append(sign(point.did, x, y(point.value)))
        drawn.append(label(x, bottom + 18, str(point.number), kind="cc-small", anchor="middle"))
    said = [f"trial {point.number} {point.text}" for point in points]
    described = f"{title}{f', {unit}' if unit else ''}{f' ({band})' if band else ''}"
    return picture(key, bottom + _FOOT, title, sentence(described, said), *drawn)


def _ends(points: Sequence[Point]) -> tuple[float, float]:
    found = [value for point in points for value in (point.value, point.low, point.high) if value is not None]
    return min(found), max(found)


def scale(low: float, high: float, wanted: int = 3) -> list[float]:
    """Round numbers that enclose two values, in about `wanted` steps of 1, 2 or 5 times tens.

    >>> scale(0.68, 0.83), scale(3, 8), scale(6.4, 6.4)
    ([0.65, 0.7, 0.75, 0.8, 0.85], [2.0, 4.0, 6.0, 8.0], [6.3, 6.4, 6.5])
    """
    if high - low < 1e-9:
        width = 0.1 if abs(high) < 10 else 1.0
        return [round(low - width, 9), low, round(high + width, 9)]
    rough = (high - low) / wanted
    power = 10.0 ** floor(log10(rough))
    step = next(step * power for step in (1, 2, 5, 10) if step * power >= rough * (1 - 1e-9))
    first, last = floor(low / step + 1e-9), -floor(-high / step + 1e-9)
    return [round(step * at, 9) for at in range(first, last + 1)]
