"""The map as a drawing: regions without gaps, labels clear of each other, positions as shares of any width."""

import math
import re
import xml.etree.ElementTree as ElementTree

import pytest
from crumbcoat_calc.pictures.map_key import map_key
from crumbcoat_calc.pictures.mixture_map import Axis, ContourLines, map_ground, map_point

SVG = "{http://www.w3.org/2000/svg}"
MILK, SUGAR = Axis(name="milk", end_g=680), Axis(name="sugar <fine>", end_g=42)
BANDS = [
    (0.0, [("fat", 0.25), ("sugar", 1.0)]),
    (0.5, [("fat", 0.5), ("sugar", 1.0)]),
    (0.75, [("sugar", 1.0)]),
    (1.0, [("sugar", 1.0)]),
]


def lines(count: int) -> list[ContourLines]:
    """Level lines close to each other."""
    values = tuple([tuple([float(row) for _ in range(5)]) for row in range(5)])
    return [ContourLines(name="fat", kind="cc-contour", values=values,
                         levels=tuple([(2 + number / 40, f"{number} %") for number in range(count)]))]  # fmt: skip


def ground(count: int = 1) -> ElementTree.Element:
    return ElementTree.fromstring(map_ground("map", MILK, SUGAR, BANDS, lines(count)))


def polygon_area(path: str) -> float:
    """Of all outlines of a path, by the shoelace formula (derivation), as a share of the map."""
    total = 0.0
    for outline in path.strip("Z").split("Z"):
        points = [tuple(map(float, point.split())) for point in outline.strip("M").split("L")]
        around = zip(points, [*points[1:], points[0]], strict=True)
        total += abs(math.fsum([x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in around])) / 2
    return total / 1e6


def test_regions_fill_the_map() -> None:
    cuts = {cut.get("id"): cut.find(f"{SVG}path") for cut in ground().iter(f"{SVG}clipPath")}
    areas = {name: polygon_area(path.get("d", "")) for name, path in cuts.items() if path is not None}
    assert areas == pytest.approx({"cc-map-fat-cut": 0.3125, "cc-map-sugar-cut": 0.6875})


def test_a_region_is_cut_out_so_that_its_hatching_is_not_stretched() -> None:
    for region in ground().iter(f"{SVG}g"):
        cut = re.fullmatch(r"url\(#(cc-map-\w+-cut)\)", region.get("clip-path", ""))
        assert cut
        assert {box.get("width") for box in region.iter(f"{SVG}rect")} == {"100%"}
    assert {cut.get("clipPathUnits") for cut in ground().iter(f"{SVG}clipPath")} == {"objectBoundingBox"}


def test_labels_of_lines_do_not_cover_each_other() -> None:
    """Lines nearer to each other than lettering is high: those without room stay without a label."""
    labels = [text for text in ground(40).iter(f"{SVG}text") if "cc-level" in text.get("class", "")]
    assert 1 <= len(labels) < 40
    places = [(float(text.get("x", "").strip("%")), float(text.get("y", "").strip("%"))) for text in labels]
    assert all(
        abs(x - other_x) > 10 or abs(y - other_y) * 240 / 100 > 11
        for at, (x, y) in enumerate(places)
        for other_x, other_y in places[:at]
    )
    assert len(list(ground(1).iter(f"{SVG}text"))) == len(list(ground(0).iter(f"{SVG}text"))) + 1


def test_axes_have_round_amounts_and_names() -> None:
    texts = [text.text for text in ground(0).iter(f"{SVG}text")]
    assert texts == ["0", "200", "400", "600", "0", "10", "20", "30", "40", "↑ sugar <fine>, g", "milk, g →"]


def test_an_axis_need_not_begin_at_zero() -> None:
    axis = Axis(name="milk", start_g=160, end_g=360)
    assert (axis.share(160), axis.share(260), axis.share(360)) == (0, 0.5, 1)
    texts = [text.text for text in ElementTree.fromstring(map_ground("map", axis, SUGAR, BANDS, [])).iter(f"{SVG}text")]
    assert texts[:4] == ["200", "250", "300", "350"]


def test_the_point_is_where_its_amounts_are_and_never_off_the_map() -> None:
    picture = ElementTree.fromstring(map_point("map", (MILK, 170), (SUGAR, 84), ["fat 20 %"]))
    point = picture.find(f"{SVG}circle")
    assert point is not None
    assert (point.get("cx"), point.get("cy")) == ("25%", "0%")
    assert picture.findtext(f"{SVG}title") == "Map of milk and sugar <fine>"
    assert picture.findtext(f"{SVG}desc") == "Map of milk and sugar <fine>: fat 20 %."


@pytest.mark.parametrize(("end_g", "step"), [(680, "1"), (200, "1"), (199, "0.1"), (20, "0.1"), (3, "0.01")])
def test_a_moved_point_has_amounts_as_fine_as_the_axis(end_g: float, step: str) -> None:
    axis = Axis(name="milk", end_g=end_g)
    picture = ElementTree.fromstring(map_point("map", (axis, 1), (axis, 1), []))
    assert picture.get("data-x-step") == step


def test_the_key_breaks_what_is_long() -> None:
    long = "sugar still dissolves: what more of it does is not known"
    key = map_key("key", [("fat", "water in fat"), ("sugar", long)],
                  [("cc-contour", "fat")])  # fmt: skip
    entries = list(ElementTree.fromstring(f"<key>{key}</key>"))
    assert [len(list(entry.iter(f"{SVG}text"))) for entry in entries] == [1, 2, 1]
    assert all(float(entry.get("width", "")) <= 290 for entry in entries)
