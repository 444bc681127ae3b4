"""Frosting for tiers, checked against closed formulas, a published trade chart, and properties."""

import csv
import math
from dataclasses import replace
from pathlib import Path

import pytest
from crumbcoat_calc.cakes.cupcakes import TOPS, Cupcakes, cupcake_volumes
from crumbcoat_calc.cakes.frosting_volumes import FrostingVolumes, with_loss
from crumbcoat_calc.cakes.solids import Solid, slice_ml
from crumbcoat_calc.cakes.thickness import allowances, thicknesses
from crumbcoat_calc.cakes.tiers import STYLES, Cake, Coat, Tier, cake_volumes, coats
from crumbcoat_calc.errors import InputError
from hypothesis import given
from hypothesis import strategies as st

from tests.calc.cakes.shapes import block_solid, loaf_solid, ring_solid, round_solid

INCH = 25.4
CHART = Path(__file__).parents[2] / "reference" / "frosting_trade_chart.csv"


def one_tier(**changes: object) -> Cake:
    crumb, final = coats("all over", 1.0, 4.5)
    tier = Tier(solid=round_solid(200, 100), layers=3, filling_mm=6, crumb=crumb, final=final)
    return Cake(tiers=(replace(tier, **changes),))  # type: ignore[arg-type]


def chart() -> list[tuple[str, Solid, float]]:
    rows = []
    with CHART.open(encoding="utf-8", newline="") as file:
        for row in csv.reader(file):
            kind, size = row[0].split(" ", 1)
            if kind not in ("round", "square", "sheet"):
                continue
            sides = [float(side) * INCH for side in size.removesuffix(" in").split("x")]
            solid = round_solid(sides[0], 4 * INCH) if kind == "round" else block_solid(sides[0], sides[-1], 4 * INCH)
            rows.append((row[0], solid, float(row[2])))
    return rows


def test_the_chart_has_all_its_rows() -> None:
    assert len(chart()) == 7


@pytest.mark.parametrize(("solid", "published_ml"), [pytest.param(s, ml, id=name) for name, s, ml in chart()])
def test_usual_thickness_within_40_percent_of_the_published_chart(solid: Solid, published_ml: float) -> None:
    """tests/reference/frosting_trade_chart.csv: published cups of icing for two-layer cakes, 4 in tall.

    The chart states no thickness, so this is only a plausibility check.
    """
    usual = thicknesses()
    crumb, final = coats("all over", usual["crumb_coat"].usual_mm, usual["final_coat"].usual_mm)
    tier = Tier(solid=solid, layers=2, filling_mm=usual["filling"].usual_mm, crumb=crumb, final=final)
    assert cake_volumes(Cake(tiers=(tier,))).total.total_ml == pytest.approx(published_ml, rel=0.4)


def test_an_8_by_4_in_cylinder_with_5_mm_needs_the_exact_shell() -> None:
    """Closed formula: pi ((R + t)^2 (H + t) - R^2 H) = 510.8 mL."""
    tier = Tier(solid=round_solid(8 * INCH, 4 * INCH), final=Coat(top_mm=5, wall_mm=5))
    amounts = cake_volumes(Cake(tiers=(tier,)))
    assert amounts.total.final_coat_ml == pytest.approx(510.8, abs=0.05)
    assert amounts.total.total_ml == amounts.total.final_coat_ml


@pytest.mark.parametrize("layers", [1, 2, 3, 5])
def test_n_layers_have_n_minus_1_fillings_with_the_area_of_the_top(layers: int) -> None:
    amounts = cake_volumes(one_tier(layers=layers))
    assert amounts.total.filling_ml == pytest.approx((layers - 1) * math.pi * 10**2 * 0.6)


def test_fillings_of_a_loaf_follow_its_sloping_walls() -> None:
    loaf = loaf_solid((215, 115), (200, 100), 60)
    cake = Cake(tiers=(Tier(solid=loaf, layers=2, filling_mm=6),))
    assert cake_volumes(cake).total.filling_ml == pytest.approx(207.5 * 107.5 * 6 / 1000, rel=1e-4)
    assert cake_volumes(cake).total.filling_ml == pytest.approx(slice_ml(loaf, 27, 33))


def test_a_dam_is_the_outer_ring_of_each_filling() -> None:
    amounts = cake_volumes(one_tier(dam_mm=12)).total
    assert amounts.dam_ml == pytest.approx(2 * math.pi * (10**2 - 8.8**2) * 0.6)
    assert amounts.dam_ml + amounts.filling_ml == pytest.approx(cake_volumes(one_tier()).total.filling_ml)


def test_a_border_is_a_rope_along_the_coated_edge() -> None:
    amounts = cake_volumes(one_tier(bottom_border_mm=12)).total
    assert amounts.piping_ml == pytest.approx(math.pi * 0.6**2 * math.pi * (20 + 2 * 0.55))


def test_the_ropes_of_a_leaning_wall_are_as_long_as_their_edges() -> None:
    """By hand: a bare cake 20 cm across at the top and 16 cm at the bottom; ropes of 1 and 0.6 cm."""
    solid, bare = round_solid(200, 100, 160), Coat()
    amounts = cake_volumes(one_tier(solid=solid, crumb=bare, final=bare, top_border_mm=10, bottom_border_mm=6)).total
    assert amounts.piping_ml == pytest.approx(math.pi * 0.5**2 * math.pi * 20 + math.pi * 0.3**2 * math.pi * 16)


def test_piping_is_a_share_of_the_coats() -> None:
    amounts = cake_volumes(one_tier(piping_share=0.3)).total
    assert amounts.piping_ml == pytest.approx(0.3 * (amounts.crumb_coat_ml + amounts.final_coat_ml))


def test_a_bare_cake_needs_only_its_fillings() -> None:
    amounts = cake_volumes(one_tier(crumb=Coat(), final=Coat())).total
    assert amounts.total_ml == amounts.filling_ml > 0


def test_the_coat_can_be_left_out_underneath_the_next_tier() -> None:
    """Independent check: the two coated cylinders as one body of revolution, minus the two bare ones."""
    crumb, final = coats("all over", 0, 5)
    tiers = tuple(Tier(solid=round_solid(across, 100), crumb=crumb, final=final) for across in (200, 120))
    bare = math.pi * (10**2 + 6**2) * 10
    outline = math.pi * 10.5**2 * 10 + math.pi * (10.5**2 - 6.5**2) * 0.5 + math.pi * 6.5**2 * 10.5
    spared = cake_volumes(Cake(tiers=tiers, coat_under=False))
    assert spared.total.total_ml == pytest.approx(outline - bare)
    whole = cake_volumes(Cake(tiers=tiers))
    assert whole.total.total_ml - spared.total.total_ml == pytest.approx(math.pi * 6.5**2 * 0.5)


def test_a_tier_on_a_ring_does_not_cover_the_hole() -> None:
    crumb, final = coats("bare walls", 0, 5)
    tiers = (Tier(solid=ring_solid(200, 60, 80), crumb=crumb, final=final), Tier(solid=round_solid(100, 80)))
    saved = cake_volumes(Cake(tiers=tiers)).total.total_ml
    saved -= cake_volumes(Cake(tiers=tiers, coat_under=False)).total.total_ml
    assert saved == pytest.approx(math.pi * (5**2 - 3**2) * 0.5)


def test_the_total_is_the_sum_of_the_tiers() -> None:
    crumb, final = coats("all over", 1, 4.5)
    sizes = (300, 220, 150, 90)
    tiers = tuple(Tier(solid=round_solid(d, 100), layers=2, filling_mm=6, crumb=crumb, final=final) for d in sizes)
    amounts = cake_volumes(Cake(tiers=tiers, loss_share=0.07))
    assert len(amounts.tiers) == 4
    uses = amounts.total.by_use()
    assert list(uses) == ["filling", "dam", "crumb_coat", "final_coat", "piping", "loss"]
    for use in uses:
        assert sum(tier.by_use()[use] for tier in amounts.tiers) == pytest.approx(uses[use])
    alone = sum(cake_volumes(Cake(tiers=(tier,), loss_share=0.07)).total.total_ml for tier in tiers)
    assert amounts.total.total_ml == pytest.approx(alone)


@given(loss=st.floats(0, 0.49))
def test_the_total_minus_the_loss_is_what_is_used(loss: float) -> None:
    used = FrostingVolumes(filling_ml=120, final_coat_ml=500)
    made = with_loss(used, loss)
    assert made.total_ml * (1 - loss) == pytest.approx(620)
    assert made.total_ml - made.loss_ml == pytest.approx(620)


length = st.floats(60, 500)
thickness = st.floats(0, 10)


@given(across=length, high=length, filling=thickness, crumb=thickness, final=thickness, more=st.floats(0.5, 20))
def test_a_larger_cake_or_a_thicker_coat_needs_more(
    across: float, high: float, filling: float, crumb: float, final: float, more: float
) -> None:
    def total(across: float, high: float, filling: float, crumb: float, final: float) -> float:
        coat = coats("all over", crumb, final)
        tier = Tier(solid=round_solid(across, high), layers=2, filling_mm=filling, crumb=coat[0], final=coat[1])
        return cake_volumes(Cake(tiers=(tier,))).total.total_ml

    sizes = [across, high, filling, crumb, final]
    here = total(*sizes)
    for position in range(5):
        grown = list(sizes)
        grown[position] += more
        assert total(*grown) >= here - 1e-9


@given(style=st.sampled_from(STYLES), crumb=thickness, final=thickness)
def test_a_sparser_style_never_needs_more(style: str, crumb: float, final: float) -> None:
    def total(style: str) -> float:
        coat = coats(style, crumb, final)
        return cake_volumes(one_tier(crumb=coat[0], final=coat[1])).total.total_ml

    assert total("all over") + 1e-9 >= total("thin walls") >= total("bare walls") - 1e-9
    assert total("bare walls") + 1e-9 >= total("none")


def test_without_the_filling_the_loss_shrinks_proportionally() -> None:
    made = with_loss(FrostingVolumes(filling_ml=100, final_coat_ml=300), 0.1)
    assert made.without_filling().total_ml == pytest.approx(300 / 0.9)


@pytest.mark.parametrize(
    ("changes", "path", "remedy"),
    [
        pytest.param({"solid": round_solid(5, 100)}, ("tiers", 0, "solid"), "unit", id="a tier of 5 mm"),
        pytest.param(
            {"solid": ring_solid(200, 190, 50), "layers": 1},
            ("tiers", 0, "solid"),
            "smaller",
            id="a hole almost as wide as the ring",
        ),
        pytest.param(
            {"solid": round_solid(400, 50, 100)}, ("tiers", 0, "solid"), "check the top", id="walls that are too flat"
        ),
        pytest.param(
            {"solid": round_solid(20, 40, 90), "layers": 1, "final": Coat(top_mm=50)},
            ("tiers", 0, "final"),
            "thinner",
            id="a coat higher than the tip",
        ),
        pytest.param({"layers": 0}, ("tiers", 0, "layers"), "1 to 30", id="no layers"),
        pytest.param({"filling_mm": 50.0}, ("tiers", 0, "filling"), "thinner", id="fillings that leave no cake"),
        pytest.param({"filling_mm": -1.0}, ("tiers", 0, "filling"), "0 to 60", id="a negative filling"),
        pytest.param({"dam_mm": 60.0}, ("tiers", 0, "dam"), "less than 50", id="a dam that leaves no filling"),
        pytest.param({"final": Coat(wall_mm=90)}, ("tiers", 0, "final_wall"), "0 to 60", id="a coat of 9 cm"),
        pytest.param({"piping_share": 3.0}, ("tiers", 0, "piping_share"), "200", id="more piping than cake"),
    ],
)
def test_an_impossible_cake_is_refused(changes: dict[str, object], path: tuple[str | int, ...], remedy: str) -> None:
    with pytest.raises(InputError) as refused:
        cake_volumes(one_tier(**changes))
    assert refused.value.path == path
    assert remedy in refused.value.remedy


@pytest.mark.parametrize(
    "solid", [round_solid(10, 5), round_solid(2000, 1000), block_solid(2000, 10, 5)], ids=["least", "most", "both"]
)
def test_the_smallest_and_the_largest_tier_are_allowed(solid: Solid) -> None:
    """The refusal says 1 to 200 cm across and 0.5 to 100 cm high. A coat on top alone is its area times its height."""
    made = cake_volumes(Cake(tiers=(Tier(solid=solid, layers=1, final=Coat(top_mm=1)),)))
    area_mm2 = slice_ml(solid, 0, solid.height_mm) * 1000 / solid.height_mm
    assert made.total.total_ml == pytest.approx(area_mm2 * 1 / 1000)


def test_a_tier_that_overhangs_is_refused() -> None:
    tiers = (Tier(solid=round_solid(150, 80)), Tier(solid=round_solid(200, 80)))
    with pytest.raises(InputError) as refused:
        cake_volumes(Cake(tiers=tiers))
    assert refused.value.path == ("tiers", 1)
    assert "smaller" in refused.value.remedy


@pytest.mark.parametrize("count", [0, 13])
def test_no_tiers_or_too_many_are_refused(count: int) -> None:
    with pytest.raises(InputError) as refused:
        cake_volumes(Cake(tiers=(Tier(solid=round_solid(150, 80)),) * count))
    assert refused.value.path == ("tiers",)


@pytest.mark.parametrize("loss", [-0.1, 0.5])
def test_an_impossible_loss_is_refused(loss: float) -> None:
    with pytest.raises(InputError) as refused:
        with_loss(FrostingVolumes(final_coat_ml=100), loss)
    assert refused.value.path == ("loss_share",)


def test_an_unknown_style_is_refused() -> None:
    with pytest.raises(InputError) as refused:
        coats("nude", 1, 4)
    assert refused.value.path == ("style",)


@pytest.mark.parametrize(
    ("topping", "height", "each_g", "density"),
    [
        pytest.param("flat", "cupcake_flat", (25, 30), 0.9, id="flat: 25-30 g"),
        pytest.param("swirl", "cupcake_swirl", (40, 60), 0.9, id="piped: 40-60 g"),
    ],
)
def test_a_cupcake_needs_what_is_usual_in_the_trade(
    topping: str, height: str, each_g: tuple[float, float], density: float
) -> None:
    """Common practice, no source: 25-30 g flat, 40-60 g piped, on a 64 mm top."""
    cupcakes = Cupcakes(count=24, top_mm=64, topping=topping, height_mm=thicknesses()[height].usual_mm)
    assert each_g[0] <= density * cupcake_volumes(cupcakes).total_ml / 24 <= each_g[1]


@given(count=st.integers(1, 500), top=st.floats(30, 100), height=st.floats(5, 60), topping=st.sampled_from(TOPS))
def test_cupcakes_add_up(count: int, top: float, height: float, topping: str) -> None:
    single = Cupcakes(count=1, top_mm=top, topping=topping, height_mm=height, core_mm=20, core_depth_mm=25)
    several = replace(single, count=count)
    assert cupcake_volumes(several).total_ml == pytest.approx(count * cupcake_volumes(single).total_ml)
    assert cupcake_volumes(single).filling_ml == pytest.approx(math.pi * 2.5)
    assert cupcake_volumes(replace(single, height_mm=height + 5)).total_ml > cupcake_volumes(single).total_ml


@pytest.mark.parametrize(
    ("changes", "path"),
    [
        ({"count": 0}, ("count",)),
        ({"top_mm": 6.0}, ("top",)),
        ({"topping": "tall"}, ("topping",)),
        ({"height_mm": 400.0}, ("height",)),
        ({"core_mm": 80.0}, ("core",)),
        ({"core_depth_mm": -1.0}, ("core_depth",)),
    ],
)
def test_impossible_cupcakes_are_refused(changes: dict[str, object], path: tuple[str, ...]) -> None:
    with pytest.raises(InputError) as refused:
        cupcake_volumes(replace(Cupcakes(count=12, top_mm=64, topping="flat", height_mm=9), **changes))  # type: ignore[arg-type]
    assert refused.value.path == path


def test_usual_values_follow_common_practice() -> None:
    """Common practice, no source: crumb coat 1-2 mm, final 4-6, filling 5-8, piping 20-40 %, loss 5-10 %."""
    table = thicknesses()
    ranges = {use: (row.lowest_mm, row.highest_mm) for use, row in table.items()}
    assert (ranges["crumb_coat"], ranges["final_coat"], ranges["filling"]) == ((1, 2), (4, 6), (5, 8))
    assert (allowances()["piping_share"].lowest, allowances()["piping_share"].highest) == (0.2, 0.4)
    assert (allowances()["loss_share"].lowest, allowances()["loss_share"].highest) == (0.05, 0.1)
