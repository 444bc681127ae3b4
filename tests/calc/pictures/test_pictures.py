"""Pictures: well-formed, deterministic, without colour, complete in words, and to scale."""

import re
from collections.abc import Callable
from functools import partial
from xml.etree import ElementTree

import pytest
from crumbcoat_calc.cakes.cupcakes import TOPS, Cupcakes
from crumbcoat_calc.cakes.tiers import Cake, Coat, Tier, coats
from crumbcoat_calc.pictures.bars import Bar, bar_chart
from crumbcoat_calc.pictures.cake_section import cake_section
from crumbcoat_calc.pictures.cupcake_section import cupcake_section
from crumbcoat_calc.pictures.steps import ChartStage, step_chart

from tests.calc.cakes.shapes import block_solid, loaf_solid, ring_solid, round_solid

BARS = (Bar("Glaze", 0.2, "0.2 %"), Bar("Whipped", 31.0, "31 %", marked=True), Bar("Curd", None, "not known"))
STAGES = (
    ChartStage("Creamed", 80.0, "80 %"),
    ChartStage("Milk in", 40.0, "40 %"),
    ChartStage("Rest", None, "not known"),
)


def cm(length_mm: float) -> str:
    return f"{length_mm / 10:g} cm"


def mm(length_mm: float) -> str:
    return f"{round(length_mm, 1):g} mm"


def cake(*tiers: Tier, coat_under: bool = True) -> str:
    return cake_section("cake", "A cake", Cake(tiers=tiers, coat_under=coat_under), length_text=cm, thickness_text=mm)


def tier(**changes: object) -> Tier:
    crumb, final = coats("all over", 10.0, 20.0)
    given = {"solid": round_solid(200, 100), "layers": 2, "filling_mm": 10, "crumb": crumb, "final": final}
    return Tier(**{**given, **changes})  # type: ignore[arg-type]


def cupcake(topping: str) -> str:
    one = Cupcakes(count=1, top_mm=64, topping=topping, height_mm=20, core_mm=20, core_depth_mm=25)
    return cupcake_section("cup", "A cupcake", one, length_text=cm)


ALL: dict[str, Callable[[], str]] = {
    "bar chart": lambda: bar_chart("chart", "Fat", BARS),
    "step chart": lambda: step_chart("steps", "Fat by stage", STAGES),
    "round cake": lambda: cake(tier(dam_mm=12.0, top_border_mm=12.0, bottom_border_mm=12.0)),
    "three tiers": lambda: cake(*[tier(solid=round_solid(d, 100)) for d in (300, 200, 100)]),
    "tiers, not coated under": lambda: cake(tier(), tier(solid=round_solid(100, 60)), coat_under=False),
    "ring": lambda: cake(tier(solid=ring_solid(250, 80, 90))),
    "loaf": lambda: cake(tier(solid=loaf_solid((215, 115), (190, 95), 70))),
    "sheet, narrow side first": lambda: cake(tier(solid=block_solid(230, 330, 50), layers=1)),
    "bare": lambda: cake(tier(crumb=Coat(), final=Coat(), layers=1)),
    **{topping: partial(cupcake, topping) for topping in TOPS},
}
every = pytest.mark.parametrize("draw", [pytest.param(draw, id=name) for name, draw in ALL.items()])


def points(path: str) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path)]


def outlines(svg: str, material: str) -> list[list[tuple[float, float]]]:
    """The outlines of a material, without the swatch in the key, which is drawn as a box."""
    root = ElementTree.fromstring(svg)
    paths = [each.attrib["d"] for each in root.iter() if each.attrib.get("class") == f"cc-tint cc-{material}"]
    return [points(part) for path in paths if "h" not in path for part in path.split("Z") if part]


@every
def test_it_is_well_formed_and_the_same_each_time(draw: Callable[[], str]) -> None:
    root = ElementTree.fromstring(draw())
    assert draw() == draw()
    ids = [each.attrib["id"] for each in root.iter() if "id" in each.attrib]
    assert len(set(ids)) == len(ids)
    used = set(re.findall(r"url\(#([^)]+)\)", draw()))
    assert used <= set(ids)


@every
def test_it_brings_no_colour_and_only_classes_of_our_own(draw: Callable[[], str]) -> None:
    for each in ElementTree.fromstring(draw()).iter():
        assert "style" not in each.attrib
        assert "stroke" not in each.attrib
        assert each.attrib.get("fill", "url(#").startswith("url(#")
        assert all(word.startswith("cc-") for word in each.attrib.get("class", "cc-").split())


@every
def test_the_description_says_what_the_lettering_says(draw: Callable[[], str]) -> None:
    """WCAG 2.2, 1.1.1: a text alternative that serves the same purpose."""
    root = ElementTree.fromstring(draw())
    said = next(each.text or "" for each in root if each.tag.endswith("desc"))
    for each in root.iter():
        if each.attrib.get("class") == "cc-text cc-figure":
            assert (each.text or "").replace("⌀ ", "") in said


@every
def test_all_lettering_lies_in_the_picture(draw: Callable[[], str]) -> None:
    root = ElementTree.fromstring(draw())
    height = float(root.attrib["height"])
    for each in root.iter():
        if each.tag.endswith("text"):
            x = float(each.attrib["x"])
            assert 0 <= x <= 320
            assert 8 <= float(each.attrib["y"]) <= height
            assert x > 4 or each.get("text-anchor", "start") == "start"
            assert x < 316 or each.get("text-anchor") == "end"


def test_bars_go_from_large_to_small_with_the_unknown_last() -> None:
    root = ElementTree.fromstring(bar_chart("chart", "Fat", BARS))
    names = [each.text for each in root.iter() if each.attrib.get("class") in ("cc-text", "cc-text cc-marked")]
    assert names == ["Whipped", "Glaze", "Curd"]
    assert len([each for each in root.iter() if each.attrib.get("class") == "cc-pointer"]) == 1


def test_steps_are_as_high_as_their_values_and_broken_where_not_known() -> None:
    svg = step_chart("steps", "Fat by stage", STAGES)
    path = re.search(r'd="([^"]+)" class="cc-step"', svg)
    assert path is not None
    heights = [y for _, y in points(path[1].replace("L", " L"))]
    floor = float(re.findall(r'y1="([\d.]+)"[^>]*class="cc-axis"', svg)[0])
    first, second = floor - heights[0], floor - heights[2]
    assert first / second == pytest.approx(2.0, abs=0.01)
    assert len(heights) == 4, "two steps, and no line where the figure is not known"


def test_a_chart_without_stages_is_a_bug() -> None:
    with pytest.raises(ValueError, match="stage"):
        step_chart("steps", "Fat by stage", ())


def test_a_cake_is_drawn_to_scale() -> None:
    """20 cm across and 10 cm high, with 1 cm and 2 cm of coat: all lengths in one proportion."""
    svg = cake(tier())
    (bare,), (crumb,), (final,) = (outlines(svg, material) for material in ("cake", "crumb-coat", "final-coat"))
    (filling,) = outlines(svg, "filling")

    def size(outline: list[tuple[float, float]]) -> tuple[float, float]:
        xs, ys = zip(*outline, strict=True)
        return max(xs) - min(xs), max(ys) - min(ys)

    per_mm = size(bare)[0] / 200
    for outline, expected in ((bare, (200, 100)), (crumb, (220, 110)), (final, (260, 130)), (filling, (200, 10))):
        assert size(outline) == pytest.approx([per_mm * length for length in expected], abs=0.03)
    assert max(y for _, y in filling) == pytest.approx(max(y for _, y in bare) - 45 * per_mm, abs=0.03)


def test_tiers_stand_on_each_other() -> None:
    lower, upper = outlines(cake(tier(), tier(solid=round_solid(100, 60))), "cake")
    per_mm = (max(x for x, _ in lower) - min(x for x, _ in lower)) / 200
    gap = min(y for _, y in lower) - max(y for _, y in upper)
    assert gap == pytest.approx(30 * per_mm, abs=0.05), "the coat of 3 cm lies between"
    bare = outlines(cake(tier(), tier(solid=round_solid(100, 60)), coat_under=False), "cake")
    assert min(y for _, y in bare[0]) == pytest.approx(max(y for _, y in bare[1]), abs=0.01)


def test_a_thin_coat_can_still_be_seen() -> None:
    thin = tier(solid=round_solid(900, 100), crumb=Coat(top_mm=0.5, wall_mm=0.5), final=Coat(), layers=1)
    svg = cake(thin)
    (bare,), (crumb,) = outlines(svg, "cake"), outlines(svg, "crumb-coat")
    assert min(x for x, _ in bare) - min(x for x, _ in crumb) >= 2


def test_a_ring_shows_on_both_sides_of_its_hole() -> None:
    assert len(outlines(cake(tier(solid=ring_solid(250, 80, 90))), "cake")) == 2


def test_lengths_are_said_in_the_reader_s_unit() -> None:
    tiers = (tier(solid=round_solid(203.2, 101.6)),)
    svg = cake_section(
        "cake", "A cake", Cake(tiers=tiers),
        length_text=lambda mm: f"{mm / 25.4:g} in", thickness_text=lambda mm: f"{mm / 25.4:.2f} in",
    )  # fmt: skip
    assert "8 in across, 4 in high" in svg
    assert " cm" not in svg


def test_a_block_says_both_sides_with_one_unit() -> None:
    assert "33 × 23 cm" in cake(tier(solid=block_solid(330, 230, 50), layers=1))
