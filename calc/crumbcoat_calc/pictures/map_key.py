"""The key of a map: what its hatchings and lines mean."""

from collections.abc import Sequence

from crumbcoat_calc.pictures.drawing import (
    XMLNS,
    box_path,
    element,
    filled,
    hatchings,
    label,
    line,
    lines_of,
    width_of,
)

_SWATCH, _LINE_MARK, _ROW, _WIDE = 16.0, 24.0, 17.0, 270.0


def map_key(key: str, materials: Sequence[tuple[str, str]], lines: Sequence[tuple[str, str]]) -> str:
    """What hatchings and lines mean: a small picture each, so that they flow like words.

    Args:
        materials: each material with the name of its region.
        lines: the style sheet's class of each kind of line, with its name.
    """
    box = box_path(0.5, 1.5, _SWATCH - 1, _SWATCH - 1)
    entries = [
        _entry(hatchings(f"{key}-{material}", [material]) + filled(f"{key}-{material}", material, box), name, _SWATCH)
        for material, name in materials
    ]
    entries += [_entry(line(0, 9, _LINE_MARK, 9, kind), name, _LINE_MARK) for kind, name in lines]
    return "".join(entries)


def _entry(mark: str, name: str, left: float) -> str:
    rows = lines_of(name, _WIDE - left)
    wide = left + 8 + max([width_of(row) for row in rows])
    drawn = [label(left + 8, 14 + at * _ROW, row) for at, row in enumerate(rows)]
    return element("svg", mark, *drawn, xmlns=XMLNS, class_="cc-map-entry", width=wide, height=len(rows) * _ROW + 3)
