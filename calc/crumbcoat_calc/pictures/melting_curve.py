"""Solid fat as a frosting warms: one curve with its band, or two, with the reader's room and hands."""

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from crumbcoat_calc.pictures.drawing import (
    SMALL,
    WIDTH,
    box_path,
    element,
    filled,
    filled_apart,
    hatchings,
    label,
    line,
    number,
    picture,
    polygon_path,
    sentence,
    shortened,
    ticks,
    width_of,
)

Band = tuple[float, float, float]

LEFT, RIGHT, HIGH = 30.0, WIDTH - 10, 150.0
MATERIALS = ("fat", "water")
"""Of the first and the second curve."""

LINES = ("cc-melting", "cc-melting cc-dashed")


@dataclass(frozen=True, slots=True, kw_only=True)
class MeltingCurve:
    """A curve: its name, and typical, low and high values at the temperatures of the picture."""

    name: str
    bands: tuple[Band, ...]


class Mark(NamedTuple):
    """A temperature that is marked: its name, °C, and the value of the first curve there."""

    name: str
    t_c: float
    value: float


class Zone(NamedTuple):
    """A stretch of temperatures with a name: from, to, in °C."""

    name: str
    from_c: float
    to_c: float


@lru_cache(maxsize=16)
def melting_curve(
    key: str,
    title: str,
    degrees: tuple[float, ...],
    curves: tuple[MeltingCurve, ...],
    marks: tuple[Mark, ...] = (),
    zones: tuple[Zone, ...] = (),
    facts: tuple[str, ...] = (),
) -> str:
    """Curves over the temperature, each with its band in the hatching of its own.

    Args:
        key: a short name, unique on the page.
        degrees: rising temperatures in °C, two or more.
        curves: one or two, with a value at each of them, zero or more.
        marks: at most two; one outside the temperatures is left out.
        zones: side by side.
        facts: all that the picture shows, for those who do not see it.
    """
    steps = ticks(max([high for curve in curves for _, _, high in curve.bands]), 5)
    shown = [mark for mark in marks if degrees[0] <= mark.t_c <= degrees[-1]]
    head = 15.0 * len(shown) + (20.0 if zones else 0.0) + 14
    foot = head + HIGH
    per_k = (RIGHT - LEFT) / (degrees[-1] - degrees[0])

    def x(t_c: float) -> float:
        return LEFT + (t_c - degrees[0]) * per_k

    def y(value: float) -> float:
        return foot - value / steps[-1] * HIGH

    drawn: list[str] = []
    hatched: list[str] = []
    for material, curve in zip(MATERIALS, curves, strict=False):
        upper = [(x(t_c), y(high)) for t_c, (_, _, high) in zip(degrees, curve.bands, strict=True)]
        lower = [(x(t_c), y(low)) for t_c, (_, low, _) in zip(degrees, curve.bands, strict=True)]
        tint, hatch = filled_apart(key, material, polygon_path([*upper, *reversed(lower)]))
        drawn.append(tint)
        hatched.append(hatch)
    drawn += [*hatched, *[line(LEFT, y(step), RIGHT, y(step), "cc-grid") for step in steps[1:]]]
    for kind, material, curve in zip(LINES, MATERIALS, curves, strict=False):
        points = [
            f"{number(x(t_c))} {number(y(value))}" for t_c, (value, _, _) in zip(degrees, curve.bands, strict=True)
        ]
        drawn.append(element("path", d="M" + "L".join(points), class_=f"{kind} cc-{material}"))
    for at, mark in enumerate(shown):
        top = 12 + 15.0 * at
        here = x(mark.t_c)
        side = "end" if here + width_of(mark.name, SMALL) + 6 > RIGHT else "start"
        drawn.append(line(here, top - 8, here, foot, "cc-at"))
        drawn.append(label(here + (-5 if side == "end" else 5), top, mark.name, kind="cc-small cc-figure", anchor=side))
        drawn.append(element("circle", cx=here, cy=y(mark.value), r=4, class_="cc-batch-point"))
    for zone in zones:
        drawn.append(_zone(zone, x(zone.from_c), x(zone.to_c), head - 12))
    drawn += [line(LEFT, head, LEFT, foot, "cc-axis"), line(LEFT, foot, RIGHT, foot, "cc-axis")]
    drawn += [label(LEFT - 6, y(step) + 4, f"{step:g}", kind="cc-small", anchor="end") for step in steps]
    for t_c in range(5, 36, 5):
        if degrees[0] <= t_c <= degrees[-1]:
            drawn.append(line(x(t_c), foot, x(t_c), foot + 4, "cc-axis"))
            drawn.append(label(x(t_c), foot + 16, f"{t_c}", kind="cc-small", anchor="middle"))
            drawn.append(label(x(t_c), foot + 30, f"{t_c * 9 // 5 + 32}", kind="cc-small", anchor="middle"))
    drawn += [label(0, foot + 16, "°C", kind="cc-small"), label(0, foot + 30, "°F", kind="cc-small")]
    drawn.append(label(LEFT, foot + 46, "↑ g of solid fat in 100 g", kind="cc-small"))
    end = foot + 50
    if len(curves) > 1:
        for at, (kind, material, curve) in enumerate(zip(LINES, MATERIALS, curves, strict=False)):
            row = end + 8 + 24 * at
            drawn.append(filled(key, material, box_path(0.5, row + 0.5, 23, 15)))
            drawn.append(line(0, row + 8, 24, row + 8, f"{kind} cc-{material}"))
            drawn.append(label(32, row + 13, shortened(curve.name, WIDTH - 32)))
        end += 12 + 24.0 * len(curves)
    return picture(key, end, title, sentence(title, facts), hatchings(key, MATERIALS[: len(curves)]), *drawn)


def _zone(zone: Zone, left: float, right: float, base: float) -> str:
    """A stretch between two short strokes, with its name over it where there is room."""
    drawn = line(left, base + 6, right, base + 6, "cc-measure") + line(left, base + 3, left, base + 9, "cc-measure")
    drawn += line(right, base + 3, right, base + 9, "cc-measure")
    if width_of(zone.name, SMALL) < right - left + 6:
        drawn += label((left + right) / 2, base, zone.name, kind="cc-small", anchor="middle")
    return drawn
