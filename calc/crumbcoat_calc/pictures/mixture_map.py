"""A map of a mixture: regions in hatching, lines of equal value, and the batch as a point.

Unlike other pictures it has the shape and width of its place on the page: positions are shares of it, and lettering,
hatching and lines have the same size at any width.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from crumbcoat_calc.pictures.contour import contour
from crumbcoat_calc.pictures.drawing import (
    SMALL,
    XMLNS,
    element,
    hatching_id,
    hatchings,
    label,
    line,
    number,
    polygon_path,
    sentence,
    ticks,
    width_of,
    words,
)

_WIDE, _HIGH = 290.0, 240.0
"""The size on the narrowest screen, in px: lettering that has room there has room everywhere."""

_GRID = 1000.0
"""Paths are drawn on a square of this side, which is stretched over the map."""

Bands = Sequence[tuple[float, Sequence[tuple[str, float]]]]
"""Lines across the map from below to above: the height of each, and its materials with the place where each ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """An axis: its name, and where it begins and ends, in g."""

    name: str
    end_g: float
    start_g: float = 0.0

    def share(self, mass_g: float) -> float:
        """How far along the axis a mass is, from 0 to 1."""
        return (mass_g - self.start_g) / (self.end_g - self.start_g)


@dataclass(frozen=True, slots=True, kw_only=True)
class ContourLines:
    """Lines of one figure: what they show, their style sheet's class, the grid of values, levels with their texts."""

    name: str
    kind: str
    values: tuple[tuple[float | None, ...], ...]
    levels: tuple[tuple[float, str], ...]


def map_ground(key: str, x: Axis, y: Axis, bands: Bands, lines: Sequence[ContourLines]) -> str:
    """Everything but the point; it changes only with the axes and the recipe. The point's description has its words."""
    materials = list(dict.fromkeys([material for _, runs in bands for material, _ in runs]))
    drawn = [hatchings(key, materials), *[_region(key, material, bands) for material in materials]]
    labels: list[tuple[float, float, str]] = []
    paths = []
    for one in lines:
        for level, text in one.levels:
            pieces = contour(one.values, level)
            if pieces:
                size = len(one.values[0]) - 1, len(one.values) - 1
                places = [((a + c) / 2 / size[0], 1 - (b + d) / 2 / size[1]) for (a, b), (c, d) in pieces]
                paths.append(_line(pieces, size, one.kind))
                labels += _labelled(text, places, labels)
    drawn.append(
        element("svg", *paths, viewBox=f"0 0 {number(_GRID)} {number(_GRID)}", width="100%", height="100%",
                preserveAspectRatio="none")
    )  # fmt: skip
    drawn += [
        _text(at_x, at_y, text, dy=4.0, class_="cc-small cc-level", text_anchor="middle") for at_x, at_y, text in labels
    ]
    return element("svg", *drawn, _axes(x, y), xmlns=XMLNS, class_="cc-map-ground", aria_hidden="true")


def map_point(key: str, x: tuple[Axis, float], y: tuple[Axis, float], facts: list[str]) -> str:
    """The batch as a point, at its mass in g on each axis, to lie over the ground.

    It says what a script must know to move it: where each axis ends, and to how many g an amount is rounded.

    Args:
        facts: what is said of the point, for those who do not see it.
    """
    (x_axis, x_g), (y_axis, y_g) = x, y
    at_x, at_y = percent_of(x_axis.share(x_g)), percent_of(1 - y_axis.share(y_g))
    title = f"Map of {x_axis.name} and {y_axis.name}"
    return element(
        "svg",
        element("title", words(title), id=f"cc-{key}-title"),
        element("desc", words(sentence(title, facts)), id=f"cc-{key}-desc"),
        element("line", x1=at_x, x2=at_x, y1="0%", y2="100%", class_="cc-cross"),
        element("line", x1="0%", x2="100%", y1=at_y, y2=at_y, class_="cc-cross"),
        element("circle", cx=at_x, cy=at_y, r=6, class_="cc-batch-point"),
        xmlns=XMLNS,
        class_="cc-map-point",
        role="img",
        aria_labelledby=f"cc-{key}-title cc-{key}-desc",
        **{
            "data-x-end": x_axis.end_g,
            "data-x-step": _step_g(x_axis),
            "data-y-end": y_axis.end_g,
            "data-y-step": _step_g(y_axis),
        },
    )


def _region(key: str, material: str, bands: Bands) -> str:
    """A region: boxes over the whole map, cut to its shape, so that the hatching is not stretched."""
    cut = f"{hatching_id(key, material)}-cut"
    scale = f"scale({1 / _GRID:g})"
    path = "".join([polygon_path(polygon) for polygon in _polygons(material, bands)])
    box = {"width": "100%", "height": "100%"}
    fill = f"url(#{hatching_id(key, material)})"
    return (
        element("clipPath", element("path", d=path, transform=scale), id=cut, clipPathUnits="objectBoundingBox")
        + element("g",
                  element("rect", class_=f"cc-tint cc-{material}", **box),
                  element("rect", class_=f"cc-hatched cc-{material}", fill=fill, **box),
                  class_="cc-region", clip_path=f"url(#{cut})")
    )  # fmt: skip


def _polygons(material: str, bands: Bands) -> list[list[tuple[float, float]]]:
    """The region's outlines: one for each run of neighbouring lines that cross the same materials.

    From the last of them to the first of the next the shape goes straight up.
    """
    found = []
    groups = [list(group) for _, group in groupby(bands, lambda band: [name for name, _ in band[1]])]
    for at, group in enumerate(groups):
        top = groups[at + 1][0][0] if at + 1 < len(groups) else 1.0
        heights = [height for height, _ in group]
        for place, (name, _) in enumerate(group[0][1]):
            if name == material:
                left = [runs[place - 1][1] if place else 0.0 for _, runs in group]
                right = [runs[place][1] for _, runs in group]
                outline = [
                    *zip(right, heights, strict=True),
                    (right[-1], top),
                    (left[-1], top),
                    *zip(reversed(left), reversed(heights), strict=True),
                ]
                found.append([(_GRID * x, _GRID * (1 - y)) for x, y in outline])
    return found


def _line(pieces: Sequence[tuple[tuple[float, float], tuple[float, float]]], size: tuple[int, int], kind: str) -> str:
    across, up = _GRID / size[0], _GRID / size[1]
    path = "".join(
        [
            f"M{number(a * across)} {number(_GRID - b * up)}L{number(c * across)} {number(_GRID - d * up)}"
            for (a, b), (c, d) in pieces
        ]
    )
    return element("path", d=path, class_=kind)


def _labelled(
    text: str, places: Sequence[tuple[float, float]], others: Sequence[tuple[float, float, str]]
) -> list[tuple[float, float, str]]:
    """A line's label, near its middle, on the map and clear of the others; none if there is no such place."""
    half = width_of(text, SMALL) / 2 + 3

    def is_clear(x: float, y: float) -> bool:
        return (
            half < x * _WIDE < _WIDE - half
            and SMALL < y * _HIGH < _HIGH - SMALL
            and all(
                abs(x - other_x) * _WIDE > half + width_of(other, SMALL) / 2 + 3 or abs(y - other_y) * _HIGH > SMALL + 5
                for other_x, other_y, other in others
            )
        )

    middle = len(places) // 2
    for at in sorted(range(len(places)), key=lambda at: abs(at - middle)):
        if is_clear(*places[at]):
            return [(*places[at], text)]
    return []


def _axes(x: Axis, y: Axis) -> str:
    """Both axes with round amounts; the name of the upward one is above it."""
    drawn = [
        element("line", x1="0%", x2="0%", y1="0%", y2="100%", class_="cc-axis"),
        element("line", x1="0%", x2="100%", y1="100%", y2="100%", class_="cc-axis"),
    ]
    for amount in _round_amounts(x):
        tick = [line(0, 0, 0, 4, "cc-axis"), label(0, 16, f"{amount:g}", kind="cc-small", anchor="middle")]
        drawn.append(element("svg", *tick, x=percent_of(x.share(amount)), y="100%", overflow="visible"))
    for amount in _round_amounts(y):
        tick = [line(-4, 0, 0, 0, "cc-axis"), label(-7, 4, f"{amount:g}", kind="cc-small", anchor="end")]
        drawn.append(element("svg", *tick, x="0%", y=percent_of(1 - y.share(amount)), overflow="visible"))
    drawn.append(label(0, -10, f"↑ {y.name}, g", kind="cc-small"))
    across = label(0, 32, f"{x.name}, g →", kind="cc-small", anchor="end")
    drawn.append(element("svg", across, x="100%", y="100%", overflow="visible"))
    return "".join(drawn)


def _round_amounts(axis: Axis) -> list[float]:
    wanted = round(5 * axis.end_g / (axis.end_g - axis.start_g))
    return [amount for amount in ticks(axis.end_g, wanted) if axis.start_g <= amount <= axis.end_g]


def _step_g(axis: Axis) -> float:
    """What a moved point's amount is rounded to: 1, 0.1 or 0.01 g, at most a 200th of the axis if it can be."""
    return next((step for step in (1.0, 0.1) if step <= axis.end_g / 200), 0.01)


def percent_of(share: float) -> str:
    """A share of the map's width or height as SVG takes it, held on the map."""
    return f"{number(100 * min(1.0, max(0.0, share)))}%"


def _text(x: float, y: float, text: str, **attributes: str | float) -> str:
    return element("text", words(text), x=percent_of(x), y=percent_of(y), **attributes)
