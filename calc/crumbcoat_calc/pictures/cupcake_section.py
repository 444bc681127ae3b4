"""A cupcake cut down the middle and drawn to scale with its topping."""

from collections.abc import Callable

from crumbcoat_calc.cakes.cupcakes import Cupcakes
from crumbcoat_calc.pictures.drawing import (
    WIDTH,
    element,
    filled,
    hatchings,
    label,
    line,
    number,
    picture,
    polygon_path,
    sentence,
)
from crumbcoat_calc.pictures.key import KeyEntry, key_rows

_BOTTOM_SHARE, _HIGH_SHARE = 0.78, 0.66
"""The cake below is drawn in the proportions of a common paper case (common practice, no source), to its top."""


def cupcake_section(key: str, title: str, cupcakes: Cupcakes, *, length_text: Callable[[float], str]) -> str:
    """The section of one cupcake to scale: the cake in its case, a filled core, and a flat, domed or piped top.

    Args:
        key: a short name, unique on the page.
        cupcakes: as `cupcake_amounts` takes them.
        length_text: a length in mm as text.
    """
    top, high = cupcakes.top_mm, cupcakes.top_mm * _HIGH_SHARE
    per_mm = min(150 / top, 190 / (high + cupcakes.height_mm))
    axis, board = WIDTH * 0.36, 12 + (high + cupcakes.height_mm) * per_mm

    def at(x_mm: float, z_mm: float) -> tuple[float, float]:
        return axis + x_mm * per_mm, board - z_mm * per_mm

    half, foot = top / 2, top / 2 * _BOTTOM_SHARE
    material = "piping" if cupcakes.topping == "swirl" else "final-coat"
    topping = _topping(cupcakes, at(-half, high), at(half, high), per_mm)
    drawn = [
        line(at(-half * 1.5, 0)[0], board + 0.75, at(half * 1.5, 0)[0], board + 0.75, "cc-board"),
        filled(key, "cake", polygon_path([at(-foot, 0), at(-half, high), at(half, high), at(foot, 0)])),
    ]
    entries = [KeyEntry("cake", "cake", f"⌀ {length_text(top)}")]
    if cupcakes.core_mm and cupcakes.core_depth_mm:
        core, deep = cupcakes.core_mm / 2, min(high, cupcakes.core_depth_mm)
        outline = [at(-core, high - deep), at(-core, high), at(core, high), at(core, high - deep)]
        drawn.append(filled(key, "filling", polygon_path(outline)))
        entries.append(KeyEntry("filling", "filled core", f"⌀ {length_text(cupcakes.core_mm)}"))
    if cupcakes.height_mm:
        drawn.append(filled(key, material, topping))
        name = {"flat": "spread flat", "domed": "spread to a dome", "swirl": "piped swirl"}[cupcakes.topping]
        entries.append(KeyEntry(material, name, f"{length_text(cupcakes.height_mm)} high"))
        x, head, base = at(top * 0.72, 0)[0], at(0, high + cupcakes.height_mm)[1], at(0, high)[1]
        drawn.append(line(at(half, 0)[0] + 4, base, x - 5, base, "cc-leader"))
        drawn.append(line(at(0, 0)[0] + 4, head, x - 5, head, "cc-leader"))
        drawn.append(element("path", d=f"M{number(x - 3)} {number(head)}h6M{number(x - 3)} {number(base)}h6"
                             f"M{number(x)} {number(head)}V{number(base)}", class_="cc-measure"))  # fmt: skip
        drawn.append(label(x + 8, (head + base) / 2 + 4, f"{length_text(cupcakes.height_mm)} high", kind="cc-small"))
    below, end = key_rows(key, entries, board + 18)
    facts = [f"{entry.name}, {entry.text.replace('⌀ ', '')}" for entry in entries]
    marks = hatchings(key, [entry.mark for entry in entries])
    return picture(key, end, title, sentence(title, facts), marks, *drawn, below)


def _topping(cupcakes: Cupcakes, left: tuple[float, float], right: tuple[float, float], per_mm: float) -> str:
    """The outline of the topping between two points of the rim."""
    (x1, y), (x2, _) = left, right
    rise = cupcakes.height_mm * per_mm
    if cupcakes.topping == "flat":
        return polygon_path([(x1, y), (x1, y - rise), (x2, y - rise), (x2, y)])
    if cupcakes.topping == "domed":
        radius = ((x2 - x1) ** 2 / 4 + rise**2) / (2 * rise) if rise else 0.0
        large = int(rise > (x2 - x1) / 2)
        arc = f"A{number(radius)} {number(radius)} 0 {large} 1 {number(x2)} {number(y)}"
        return f"M{number(x1)} {number(y)}{arc}Z"
    return _swirl(x1, x2, y, rise)


def _swirl(x1: float, x2: float, y: float, rise: float) -> str:
    """A cone whose sides are drawn as turns of a rope."""
    middle, turns = (x1 + x2) / 2, 4
    ups: list[str] = []
    downs: list[str] = []
    for n in range(turns):
        low, high = n / turns, (n + 1) / turns
        for side, curves in ((x1, ups), (x2, downs)):
            start, end = side + (middle - side) * low, side + (middle - side) * high
            bulge = start + (start - middle) * 0.12 / max(1 - low, 0.5)
            turn = y - rise * (low + (high - low) * 0.62)
            if curves is ups:
                curves.append(f"Q{number(bulge)} {number(turn)} {number(end)} {number(y - rise * high)}")
            else:
                curves.insert(0, f"Q{number(bulge)} {number(turn)} {number(start)} {number(y - rise * low)}")
    return f"M{number(x1)} {number(y)}{''.join(ups)}{''.join(downs)}Z"
