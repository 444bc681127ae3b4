"""Texts of a map of a mixture: its ground and key, the point, and the same figures as a table."""

from collections.abc import Sequence
from math import floor

from crumbcoat_calc.pictures.drawing import ticks
from crumbcoat_calc.pictures.map_key import map_key
from crumbcoat_calc.pictures.mixture_map import Axis, ContourLines, map_ground, map_point
from crumbcoat_calc.science.map_regions import RegionRow
from crumbcoat_calc.science.mixture_map import MapPoint, MixtureMap, Region
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.display import mass_text, number_text, percent_text

MATERIALS = {
    Region.WATER_IN_FAT: "fat",
    Region.THINS: "sugar",
    Region.UNSATURATED: "water",
    Region.NEARLY_SATURATED: "protein",
    Region.STIFFENS: "crystal",
    Region.UNKNOWN: "other",
}
_TABLE_STEPS = 4


def ground_texts(plane: MixtureMap, rows: Sequence[RegionRow[Region]], x_name: str, y_name: str) -> Texts:
    """`picture.map`: regions, and lines of fat, undissolved sugar and fat by volume; its key; and `rows.map`."""
    there = {region for row in rows for region in row.kinds}
    bands = [(row.y, [(MATERIALS[region], end) for region, end in row.runs]) for row in rows]
    fat = tuple([tuple([point.fat_percent for point in row]) for row in plane.points])
    sugar = tuple([tuple([point.undissolved_sugar_g for point in row]) for row in plane.points])
    volume = tuple([tuple([point.fat_volume_percent for point in row]) for row in plane.points])
    lines = [
        ContourLines(name="fat, g per 100 g", kind="cc-contour", values=fat, levels=_levels(fat, "%")),
        ContourLines(
            name="undissolved sugar, g", kind="cc-contour cc-dashed", values=sugar, levels=_levels(sugar, "g", 3)
        ),
        ContourLines(
            name="fat by volume, %", kind="cc-contour cc-dotted", values=volume, levels=_levels(volume, "% vol")
        ),
    ]
    materials = [(MATERIALS[region], region.value) for region in Region if region in there]
    x = Axis(name=x_name, end_g=plane.column_g[-1], start_g=plane.column_g[0])
    y = Axis(name=y_name, end_g=plane.row_g[-1], start_g=plane.row_g[0])
    return {
        "picture.map": map_ground("map", x, y, bands, lines),
        "picture.map_key": map_key("map-key", materials, [(one.kind, one.name) for one in lines if one.levels]),
        "rows.map": table_rows(plane),
    }


def drawn_point(x: tuple[str, float, float], y: tuple[str, float, float], texts: Texts) -> str:
    """The batch on the map; each axis is a name, its end and the point on it, in g."""
    facts = [f"this batch at {mass_text(x[2])} of {x[0]} and {mass_text(y[2])} of {y[0]}"]
    facts += [f"{name} {texts[key]}" for name, key in (("fat", "fat"), ("undissolved sugar", "undissolved"))]
    facts += [f"fat by volume {texts['fat_volume']}", str(texts["region"])]
    return map_point("map", (Axis(name=x[0], end_g=x[1]), x[2]), (Axis(name=y[0], end_g=y[1]), y[2]), facts)


def point_texts(point: MapPoint) -> Texts:
    """`fat`, `undissolved`, `fat_volume` and `region` at the point."""
    fat, undissolved, volume = _cells(point)
    return {"fat": fat, "undissolved": undissolved, "fat_volume": volume, "region": point.region.value}


def table_rows(plane: MixtureMap) -> list[list[str]]:
    """The figures at every crossing of a coarse grid: g on both axes, fat, undissolved sugar, fat by volume, region."""
    last = len(plane.column_g) - 1
    places = [floor(last * step / _TABLE_STEPS) for step in range(_TABLE_STEPS + 1)]
    return [
        [mass_text(plane.column_g[column]), mass_text(plane.row_g[row]), *_cells(point), point.region.value]
        for row in places
        for column in places
        for point in [plane.points[row][column]]
    ]


def _cells(point: MapPoint) -> tuple[str, str, str]:
    undissolved, volume = point.undissolved_sugar_g, point.fat_volume_percent
    return (
        percent_text(point.fat_percent),
        "not given" if undissolved is None else mass_text(undissolved),
        "not given" if volume is None else f"{number_text(volume, 0)} %",
    )


def _levels(values: tuple[tuple[float | None, ...], ...], unit: str, about: int = 5) -> tuple[tuple[float, str], ...]:
    known = [value for row in values for value in row if value is not None]
    if not known:
        return ()
    low, high = min(known), max(known)
    return tuple([(level, f"{level:g} {unit}") for level in ticks(high, about) if low < level < high and level > 0])
