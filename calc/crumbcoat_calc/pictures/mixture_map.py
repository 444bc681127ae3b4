"""A map of a mixture: regions in hatching, lines of equal value, and the batch as a point."""

from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_calc.pictures.contour import contour
from crumbcoat_calc.pictures.drawing import (
    SMALL,
    WIDTH,
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
from crumbcoat_calc.pictures.key import KeyEntry, key_rows

_LEFT, _TOP, _WIDE, _HIGH = 38.0, 8.0, WIDTH - 46.0, 250.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """An axis from zero: its name and its end in g."""

    name: str
    end_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ContourLines:
    """Lines of one figure: what they show, their style sheet's class, the grid of values, levels with their texts."""

    name: str
    kind: str
    values: tuple[tuple[float | None, ...], ...]
    levels: tuple[tuple[float, str], ...]


def map_ground(
    key: str,
    x: Axis,
    y: Axis,
    regions: Sequence[Sequence[str]],
    materials: Sequence[tuple[str, str]],
    lines: Sequence[ContourLines],
) -> tuple[str, float]:
    """Everything but the point, and where it ends; it changes only with the axes and the recipe.

    Args:
        regions: the material of each grid point, in rows from y = 0 upward, evenly spaced over both axes.
        materials: each material with the name of its region, for the key.
    """
    drawn = [hatchings(key, [material for material, _ in materials])]
    for material, _ in materials:
        path = _boxes(regions, material)
        if path:
            drawn.append(element("g", filled(key, material, path), class_="cc-region"))
    for one in lines:
        for level, text in one.levels:
            drawn.append(_level(one, level, text))
    for share in (0.0, 0.5, 1.0):
        at_x, at_y = _LEFT + share * _WIDE, _TOP + _HIGH * (1 - share)
        drawn.append(line(at_x, _TOP + _HIGH, at_x, _TOP + _HIGH + 4, "cc-axis"))
        drawn.append(line(_LEFT - 4, at_y, _LEFT, at_y, "cc-axis"))
        anchor = "middle" if share < 1 else "end"
        drawn.append(label(at_x, _TOP + _HIGH + 16, f"{share * x.end_g:.0f} g", kind="cc-small", anchor=anchor))
        drawn.append(label(_LEFT - 6, at_y + SMALL * 0.36, f"{share * y.end_g:.0f}", kind="cc-small", anchor="end"))
    drawn.append(line(_LEFT, _TOP, _LEFT, _TOP + _HIGH, "cc-axis"))
    drawn.append(line(_LEFT, _TOP + _HIGH, _LEFT + _WIDE, _TOP + _HIGH, "cc-axis"))
    drawn.append(label(_LEFT, _TOP + _HIGH + 34, f"across: {x.name}; upward: {y.name}, in g", kind="cc-small"))
    entries = [KeyEntry(material, name, "") for material, name in materials]
    below, end = key_rows(key, entries, _TOP + _HIGH + 44)
    drawn.append(below)
    for one in lines:
        drawn.append(line(0, end + 12, 22, end + 12, one.kind))
        drawn.append(label(28, end + 16, one.name, kind="cc-text"))
        end += 22
    return "".join(drawn), end + 6


def mixture_map(
    key: str, ground: tuple[str, float], x: tuple[Axis, float], y: tuple[Axis, float], facts: list[str]
) -> str:
    """The map with the batch as a point, at its mass in g on each axis.

    Args:
        facts: what is said of the point, for those who do not see it.
    """
    (x_axis, x_g), (y_axis, y_g) = x, y
    at_x = _LEFT + _WIDE * min(1.0, x_g / x_axis.end_g)
    at_y = _TOP + _HIGH * (1 - min(1.0, y_g / y_axis.end_g))
    point = (
        element("path", d=f"M{number(at_x)} {number(_TOP)}V{number(_TOP + _HIGH)}M{number(_LEFT)} {number(at_y)}"
                f"H{number(_LEFT + _WIDE)}", class_="cc-cross")
        + element("circle", cx=at_x, cy=at_y, r=6, class_="cc-batch-point")
    )  # fmt: skip
    title = f"Map of {x_axis.name} and {y_axis.name}"
    return picture(key, ground[1], title, sentence(title, facts), ground[0], point)


def _boxes(regions: Sequence[Sequence[str]], material: str) -> str:
    """One box for each run of equal grid points in a row; each point represents the area around it."""
    boxes = []
    down, across = len(regions) - 1, len(regions[0]) - 1
    for at, row in enumerate(regions):
        high, low = min(down, at + 0.5), max(0.0, at - 0.5)
        column = 0
        while column <= across:
            if row[column] != material:
                column += 1
                continue
            start = column
            while column <= across and row[column] == material:
                column += 1
            left, right = max(0.0, start - 0.5), min(float(across), column - 0.5)
            top = _TOP + _HIGH * (1 - high / down)
            boxes.append(
                box_path(
                    _LEFT + _WIDE * left / across, top, _WIDE * (right - left) / across, _HIGH * (high - low) / down
                )
            )
    return "".join(boxes)


def _level(one: ContourLines, level: float, text: str) -> str:
    down, across = len(one.values) - 1, len(one.values[0]) - 1
    pieces = [
        tuple([(_LEFT + _WIDE * column / across, _TOP + _HIGH * (1 - row / down)) for column, row in piece])
        for piece in contour(one.values, level)
    ]
    if not pieces:
        return ""
    path = "".join([f"M{number(a)} {number(b)}L{number(c)} {number(d)}" for (a, b), (c, d) in pieces])
    room = width_of(text, SMALL) / 2 + 2
    inside = [piece for piece in pieces if _LEFT + room < piece[0][0] < _LEFT + _WIDE - room] or pieces
    (a, b), (c, d) = inside[len(inside) // 2]
    place = min(max((a + c) / 2, _LEFT + room), _LEFT + _WIDE - room)
    return element("path", d=path, class_=one.kind) + label(
        place, (b + d) / 2 + 4, text, kind="cc-small cc-level", anchor="middle"
    )
