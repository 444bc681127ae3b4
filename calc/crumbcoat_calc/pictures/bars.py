"""Bars: one bar cut into the parts of a whole, and a chart of bars that compares recipes."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.pictures.drawing import (
    MATERIALS,
    SMALL,
    WIDTH,
    box_path,
    element,
    filled,
    hatchings,
    label,
    line,
    lines_of,
    number,
    picture,
    sentence,
    ticks,
    width_of,
)
from crumbcoat_calc.pictures.key import Entry, rows

_BAR, _GAP, _AIR = 46.0, 2.0, 14.0


@dataclass(frozen=True, slots=True)
class Slice:
    """A part of a whole: its name, its size in any one unit, the figure to show, and one of MATERIALS."""

    name: str
    size: float
    text: str
    material: str


def stacked_bar(key: str, title: str, slices: Sequence[Slice]) -> str:
    """A bar cut into parts, in the order given, with a key below it; parts of no size stand in the key alone.

    Args:
        key: a short name, unique on the page.
        slices: sizes zero or more, not all zero; a material may come once only, so that the key is clear.

    Raises:
        ValueError: if that is not so (a bug of the caller).
    """
    whole = fsum([part.size for part in slices])
    used = [part.material for part in slices]
    if whole <= 0 or min(part.size for part in slices) < 0:
        raise ValueError("a bar needs parts of zero or more, not all zero")
    if len(set(used)) < len(used) or not set(used) <= set(MATERIALS):
        raise ValueError(f"each part needs a material of its own: {used}")
    shown = [part for part in slices if part.size > 0]
    room = WIDTH - _GAP * (len(shown) - 1)
    drawn, x = [hatchings(key, used)], 0.0
    for part in shown:
        wide = room * part.size / whole
        drawn.append(filled(key, part.material, box_path(x + 0.5, 0.5, max(0.5, wide - 1), _BAR - 1)))
        x += wide + _GAP
    below, end = rows(key, [Entry(part.material, part.name, part.text) for part in slices], _BAR + _AIR)
    facts = [f"{part.name} {part.text}" for part in slices]
    return picture(key, end, title, sentence(title, facts), *drawn, below)


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar of a chart: its name, its size, the figure to show; `marked` sets it off as the one that is meant."""

    name: str
    size: float | None
    text: str
    marked: bool = False


def bar_chart(key: str, title: str, bars: Sequence[Bar], *, unit: str = "%", material: str = "fat") -> str:
    """Bars from the largest to the smallest on one scale from zero; what is not known stands last, without a bar.

    Args:
        key: a short name, unique on the page.
        bars: sizes zero or more, or None.
        unit: what stands behind the figures of the scale.
        material: one of MATERIALS, for the hatching of the marked bars.
    """
    ordered = sorted(bars, key=lambda bar: (bar.size is None, -(bar.size or 0.0), bar.name))
    scale = ticks(max([bar.size or 0.0 for bar in ordered], default=0.0))
    drawn, y = [], 0.0
    left, right = 1.0, WIDTH - 1
    per_unit = (right - left) / scale[-1]
    for bar in ordered:
        names = lines_of(bar.name, WIDTH - width_of(bar.text) - 24)
        marked = " cc-marked" if bar.marked else ""
        indent = 12.0 if bar.marked else 0.0
        base = y + 15
        if bar.marked:
            drawn.append(element("path", d=f"M0 {number(base - 9)}l7 4.5l-7 4.5Z", class_="cc-pointer"))
        drawn.extend([label(indent, base + 16 * n, name, kind=f"cc-text{marked}") for n, name in enumerate(names)])
        base += 16 * (len(names) - 1)
        drawn.append(label(WIDTH, base, bar.text, kind=f"cc-text cc-figure{marked}", anchor="end"))
        if bar.size is not None:
            path = box_path(left, base + 7, max(1.0, bar.size * per_unit), 12)
            drawn.append(filled(key, material, path) if bar.marked else element("path", d=path, class_="cc-bar"))
        y = base + 27
    grid = [line(left + tick * per_unit, 0, left + tick * per_unit, y, "cc-grid") for tick in scale]
    for n, tick in enumerate(scale):
        anchor = "start" if n == 0 else "end" if n == len(scale) - 1 else "middle"
        at = 0.0 if n == 0 else WIDTH if n == len(scale) - 1 else left + tick * per_unit
        grid.append(label(at, y + SMALL + 5, f"{tick:g} {unit}".strip(), kind="cc-small", anchor=anchor))
    facts = [f"{bar.name} {bar.text}{' (this one)' if bar.marked else ''}" for bar in ordered]
    return picture(key, y + SMALL + 10, title, sentence(title, facts), hatchings(key, [material]), *grid, *drawn)
