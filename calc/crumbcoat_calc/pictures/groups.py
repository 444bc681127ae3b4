"""What each group of a class measured, beside what was worked out for it."""

from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_calc.pictures.drawing import WIDTH, element, label, line, picture, sentence, ticks

_LEFT, _TOP, _HIGH, _FOOT = 44.0, 34.0, 120.0, 58.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A group by its number, what it measured, above zero, and what was worked out; each with its text.

    `worked_out` is None where nothing was.
    """

    group: int
    value: float
    text: str
    worked_out: float | None = None
    worked_out_text: str = ""


def groups_chart(key: str, title: str, groups: Sequence[Measured], words: str) -> str:
    """A dot for what each group measured, and a bar across for what was worked out, on a scale from zero.

    Args:
        key: a short name, unique on the page.
        groups: one or more.
        words: what was worked out, for the line below and the description.
    """
    steps = ticks(max([*(one.value for one in groups), *(one.worked_out or 0.0 for one in groups)]))
    bottom = _TOP + _HIGH

    def y(value: float) -> float:
        return bottom - value / steps[-1] * _HIGH

    drawn = [label(0, 14, title, kind="cc-text")]
    for step in steps:
        drawn.append(line(_LEFT, y(step), WIDTH, y(step), "cc-grid"))
        drawn.append(label(_LEFT - 6, y(step) + 4, f"{step:g}", kind="cc-small", anchor="end"))
    across = (WIDTH - _LEFT) / len(groups)
    facts = []
    for at, one in enumerate(groups):
        x = _LEFT + across * (at + 0.5)
        if one.worked_out is not None:
            half = min(across * 0.4, 16.0)
            drawn.append(line(x - half, y(one.worked_out), x + half, y(one.worked_out), "cc-worked-out"))
        drawn.append(element("circle", cx=x, cy=y(one.value), r=4.0, class_="cc-measured"))
        drawn.append(label(x, bottom + 16, str(one.group), kind="cc-small", anchor="middle"))
        beside = f", {words} {one.worked_out_text}" if one.worked_out is not None else ""
        facts.append(f"group {one.group} {one.text}{beside}")
    has_bars = any(one.worked_out is not None for one in groups)
    drawn.append(label(0, bottom + 36, "Dot: measured by each group.", kind="cc-small"))
    if has_bars:
        drawn.append(label(0, bottom + 52, f"Bar: {words}.", kind="cc-small"))
    return picture(key, bottom + _FOOT, title, sentence(title, facts), *drawn)
