"""A line in steps: one figure of the mixture, stage by stage."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from crumbcoat_calc.pictures.drawing import (
    SMALL,
    WIDTH,
    element,
    label,
    line,
    number,
    picture,
    sentence,
    ticks,
    width_of,
)
from crumbcoat_calc.pictures.key import KeyEntry, key_rows


@dataclass(frozen=True, slots=True)
class ChartStage:
    """A stage: its name, the figure after it (None if not known), and the figure as text."""

    name: str
    value: float | None
    text: str


_HIGH, _FOOT = 170.0, 26.0


def step_chart(key: str, title: str, stages: Sequence[ChartStage]) -> str:
    """A figure stage by stage as a line in steps on a scale from zero; the stages are numbered and named in a key.

    Where a figure is not known the line is broken. Each step bears its figure if there is room.

    Args:
        key: a short name, unique on the page.
        stages: one or more; values in %, zero or more, or None.
    """
    if not stages:
        raise ValueError("a chart needs a stage")
    scale = ticks(max([stage.value or 0.0 for stage in stages]))
    marks = [f"{tick:g} %" for tick in scale]
    left = max(width_of(mark, SMALL) for mark in marks) + 8
    top, floor = 20.0, _HIGH
    wide = (WIDTH - left) / len(stages)

    def height(value: float) -> float:
        return floor - (floor - top) * value / scale[-1]

    drawn = []
    for tick, mark in zip(scale, marks, strict=True):
        y = height(tick)
        drawn.append(line(left, y, WIDTH, y, "cc-grid" if tick else "cc-axis"))
        drawn.append(label(left - 6, y + SMALL * 0.36, mark, kind="cc-small", anchor="end"))
    drawn.append(_path([None if stage.value is None else height(stage.value) for stage in stages], left, wide, floor))
    every = 1 + int(20 * len(stages) / (WIDTH - left))
    for place, stage in enumerate(stages):
        middle = left + (place + 0.5) * wide
        if place % every == 0:
            drawn.append(_ring(middle, floor + 14))
            base = floor + 14 + SMALL * 0.36
            drawn.append(label(middle, base, str(place + 1), kind="cc-small", anchor="middle"))
        if width_of(stage.text, SMALL) <= wide + 4:
            y = floor - 6 if stage.value is None else height(stage.value) - 6
            drawn.append(label(middle, y, stage.text, kind="cc-small cc-figure", anchor="middle"))
    entries = [KeyEntry(str(place + 1), stage.name, stage.text) for place, stage in enumerate(stages)]
    below, end = key_rows(key, entries, _HIGH + _FOOT + 6)
    facts = [f"{place + 1}, {stage.name}: {stage.text}" for place, stage in enumerate(stages)]
    return picture(key, end, title, sentence(title, facts), *drawn, below)


@lru_cache(maxsize=256)
def _ring(x: float, y: float) -> str:
    return element("circle", cx=x, cy=y, r=8, class_="cc-ring")


def _path(heights: list[float | None], left: float, wide: float, floor: float) -> str:
    """The steps, and the area below them as a tint."""
    steps: list[str] = []
    areas: list[str] = []
    before: float | None = None
    for place, y in enumerate(heights):
        x1, x2 = left + place * wide, left + (place + 1) * wide
        if y is not None:
            steps.append(f"{'M' if before is None else 'L'}{number(x1)} {number(y)}L{number(x2)} {number(y)}")
            areas.append(f"M{number(x1)} {number(floor)}V{number(y)}H{number(x2)}V{number(floor)}Z")
        before = y
    return element("path", d="".join(areas), class_="cc-under") + element("path", d="".join(steps), class_="cc-step")
