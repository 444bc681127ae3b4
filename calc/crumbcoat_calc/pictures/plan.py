"""A plan on the clock as a picture: a row of bars for each group, idle stretches cut short."""

from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_calc.pictures.drawing import (
    SMALL,
    box_path,
    element,
    filled,
    hatchings,
    label,
    line,
    number,
    picture,
    sentence,
    width_of,
)

_WIDE = 820.0
"""For the width of a sheet of paper on its side, 269 mm of A4: the smallest lettering is 10 pt there."""

_LEFT, _BAR, _STRIP, _GAP, _TOP = 24.0, 13.5, 5.0, 4.0, 22.0
_LONG_WAIT_S, _CUT_S = 2700.0, 600.0
_STEPS_S = (300.0, 600.0, 900.0, 1800.0, 3600.0, 7200.0, 14400.0)

KINDS = {"shared": "solids", "hands": "final-coat", "alone": "sugar"}
"""What a bar is about, and its hatching: at a tool that groups share, at their own, or left to itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """One task of one group, in s from the start; `kind` is one of KINDS, `name` short enough for a bar."""

    group: int
    name: str
    start_s: float
    end_s: float
    kind: str


def plan_chart(
    key: str, title: str, stretches: Sequence[Stretch], begin_s: float, legend: Sequence[tuple[str, str]]
) -> str:
    """Bars of all groups on one scale of time, which is cut where no group has its hands full for a long while.

    Args:
        key: a short name, unique on the page.
        stretches: each with an end after its start.
        begin_s: the time of day of the start, in s from midnight.
        legend: kind and words of each kind that is explained below.
    """
    groups = sorted({one.group for one in stretches})
    waits = _waits(stretches)
    end_s = max((one.end_s for one in stretches), default=0.0)
    whole = _squeezed(end_s, waits) or 1.0
    per_s = (_WIDE - _LEFT - 1) / whole
    rows = [_lanes([one for one in stretches if one.group == group]) for group in groups]
    heights = [_BAR * (1 + max(lane for _, lane in row)) + _STRIP + _GAP for row in rows]
    bottom = _TOP + sum(heights)

    def at(time_s: float) -> float:
        return _LEFT + _squeezed(time_s, waits) * per_s

    drawn = [hatchings(key, KINDS.values())]
    for time_s in _ticks(end_s, whole, begin_s, waits):
        drawn.append(line(at(time_s), _TOP - 4, at(time_s), bottom, "cc-grid"))
        drawn.append(
            label(
                at(time_s),
                SMALL,
                _clock(begin_s + time_s),
                kind="cc-small",
                anchor="middle" if at(time_s) < _WIDE - 16 else "end",
            )
        )
    for start_s, stop_s in waits:
        middle = (at(start_s) + at(stop_s)) / 2
        for offset in (-2.5, 2.5):
            path = (
                f"M{number(middle + offset - 2)} {number(bottom + 2)}L{number(middle + offset + 2)} {number(_TOP - 6)}"
            )
            drawn.append(element("path", d=path, class_="cc-cut"))
    y = _TOP
    for group, row, height in zip(groups, rows, heights, strict=True):
        drawn.append(label(0, y + 12, str(group), kind="cc-text"))
        drawn.append(line(_LEFT, y + height - 3, _WIDE, y + height - 3, "cc-grid"))
        for one, lane in row:
            drawn += _bar(key, one, at(one.start_s), at(one.end_s), (y + _BAR * lane, y + height - _GAP - _STRIP + 1))
        y += height
    below, height = _legend(key, legend, bottom + 8)
    facts = [
        f"group {one.group}: {one.name} {_clock(begin_s + one.start_s)} to {_clock(begin_s + one.end_s)}"
        for one in stretches
    ]
    return picture(key, height, title, sentence(title, facts), *drawn, *below, width=_WIDE)


def _lanes(stretches: Sequence[Stretch]) -> list[tuple[Stretch, int]]:
    """Each stretch of one group with its lane: what two of a group do at the same time is drawn one below the other."""
    until: list[float] = []
    found = []
    for one in sorted(stretches, key=lambda one: one.start_s):
        lane = 0
        if one.kind != "alone":
            lane = next((number for number, end_s in enumerate(until) if end_s <= one.start_s), len(until))
            until[lane:] = [one.end_s, *until[lane + 1 :]]
        found.append((one, lane))
    return found


def _bar(key: str, one: Stretch, left: float, right: float, tops: tuple[float, float]) -> list[str]:
    """A bar, with its name where there is room; what is left to itself is a strip below, where other work goes on."""
    wide = max(1.5, right - left - 1)
    y, below = tops
    if one.kind == "alone":
        return [filled(key, KINDS[one.kind], box_path(left, below, wide, _STRIP))]
    drawn = [filled(key, KINDS[one.kind], box_path(left, y, wide, _BAR - 1))]
    name_wide = width_of(one.name, SMALL) + 4
    if name_wide <= wide:
        middle = left + wide / 2
        drawn.append(
            element("path", d=box_path(middle - name_wide / 2, y + 1.5, name_wide, _BAR - 4), class_="cc-plain")
        )
        drawn.append(label(middle, y + 10.5, one.name, kind="cc-small", anchor="middle"))
    return drawn


def _legend(key: str, legend: Sequence[tuple[str, str]], top: float) -> tuple[list[str], float]:
    drawn = []
    for place, (kind, words) in enumerate(legend):
        x = _LEFT + place * (_WIDE - _LEFT) / len(KINDS)
        drawn.append(filled(key, KINDS[kind], box_path(x, top + 0.5, 13, 13)))
        drawn.append(label(x + 19, top + 11.5, words, kind="cc-small"))
    return drawn, top + 16


def _waits(stretches: Sequence[Stretch]) -> list[tuple[float, float]]:
    """The long stretches in which nobody's hands are full."""
    busy = sorted((one.start_s, one.end_s) for one in stretches if one.kind != "alone")
    last = max((one.end_s for one in stretches), default=0.0)
    waits, until = [], 0.0
    for start_s, end_s in [*busy, (last, last)]:
        if start_s - until > _LONG_WAIT_S:
            waits.append((until, start_s))
        until = max(until, end_s)
    return waits


def _squeezed(time_s: float, waits: Sequence[tuple[float, float]]) -> float:
    """A time on a scale on which every long wait lasts _CUT_S."""
    over = 0.0
    for start_s, end_s in waits:
        lasts = end_s - start_s
        over += min(1.0, max(0.0, (time_s - start_s) / lasts)) * (lasts - _CUT_S)
    return time_s - over


def _ticks(end_s: float, whole_s: float, begin_s: float, waits: Sequence[tuple[float, float]]) -> list[float]:
    step = next((step for step in _STEPS_S if whole_s / step <= 12), _STEPS_S[-1])
    first = -(begin_s % step) % step
    found = [first + step * n for n in range(int((end_s - first) / step) + 1)]
    return [time_s for time_s in found if not any(start_s < time_s < stop_s for start_s, stop_s in waits)]


def _clock(time_s: float) -> str:
    minutes = int(time_s) // 60 % 1440
    return f"{minutes // 60:02}:{minutes % 60:02}"
