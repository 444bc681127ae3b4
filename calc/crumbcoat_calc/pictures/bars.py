"""A chart of bars that compares recipes."""

from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_calc.pictures.drawing import (
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


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar of a chart: its name, its size, the figure to show; `marked` sets it off as the one that is meant."""

    name: str
    size: float | None
    text: str
    marked: bool = False


def bar_chart(key: str, title: str, bars: Sequence[Bar]) -> str:
    """Bars from the largest to the smallest on one scale from zero; unknown values come last, without a bar.

    Args:
        key: a short name, unique on the page.
        bars: sizes in %, zero or more, or None.
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
            drawn.append(filled(key, "fat", path) if bar.marked else element("path", d=path, class_="cc-bar"))
        y = base + 27
    grid = [line(left + tick * per_unit, 0, left + tick * per_unit, y, "cc-grid") for tick in scale]
    for n, tick in enumerate(scale):
        anchor = "start" if n == 0 else "end" if n == len(scale) - 1 else "middle"
        at = 0.0 if n == 0 else WIDTH if n == len(scale) - 1 else left + tick * per_unit
        grid.append(label(at, y + SMALL + 5, f"{tick:g} %", kind="cc-small", anchor=anchor))
    facts = [f"{bar.name} {bar.text}{' (this one)' if bar.marked else ''}" for bar in ordered]
    return picture(key, y + SMALL + 10, title, sentence(title, facts), hatchings(key, ["fat"]), *grid, *drawn)
