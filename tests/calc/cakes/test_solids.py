"""Solids, checked against closed formulas (Euclidean geometry), convex hulls and quadrature (scipy)."""

import math
from itertools import product

import pytest
from crumbcoat_calc.cakes.solids import (
    Block,
    Disc,
    Solid,
    cap_ml,
    coat_ml,
    cone_ml,
    fits_on,
    slice_ml,
    top_mm2,
    volume_ml,
)
from hypothesis import assume, given
from hypothesis import strategies as st

from tests.calc.cakes.shapes import block_solid, loaf_solid, ring_solid, round_solid

INCH = 25.4
length = st.floats(40, 600)
thin = st.floats(0, 19)
lean = st.floats(0.7, 1.3)


@st.composite
def solids(draw: st.DrawFn) -> Solid:
    kind = draw(st.sampled_from(["round", "tapered", "ring", "block", "loaf"]))
    if kind == "round":
        return round_solid(draw(length), draw(length))
    if kind == "tapered":
        across = draw(length)
        return round_solid(across, draw(length), across * draw(lean))
    if kind == "ring":
        hole = draw(st.floats(40, 200))
        return ring_solid(hole + draw(length), hole, draw(length))
    top = (draw(length), draw(length))
    if kind == "block":
        return block_solid(*top, draw(length))
    return loaf_solid(top, (top[0] * draw(lean), top[1] * draw(lean)), draw(length))


def corners(solid: Block) -> list[tuple[float, float, float]]:
    ends = ((0.0, solid.bottom_mm), (solid.height_mm, solid.top_mm))
    return [(x * a / 2, y * b / 2, z) for z, (a, b) in ends for x, y in product((-1, 1), repeat=2)]


@pytest.mark.parametrize(
    ("solid", "top_cm2", "rim_cm"),
    [
        pytest.param(round_solid(8 * INCH, 4 * INCH), 324.29, 63.84, id="round, 8 by 4 in: pi D^2/4 and pi D"),
        pytest.param(block_solid(300, 200, 50), 600.0, 100.0, id="rectangle: L W and 2 (L + W)"),
        pytest.param(block_solid(200, 200, 100), 400.0, 80.0, id="square"),
        pytest.param(ring_solid(200, 60, 60), 91 * math.pi, 20 * math.pi, id="ring: pi (R^2 - r^2), the outer rim"),
    ],
)
def test_tops_and_rims(solid: Solid, top_cm2: float, rim_cm: float) -> None:
    assert top_mm2(solid) / 100 == pytest.approx(top_cm2, abs=0.006)
    assert solid.rim_mm(top=True) / 10 == pytest.approx(rim_cm, abs=0.006)


@pytest.mark.parametrize(
    ("volume", "expected_ml"),
    [
        pytest.param(volume_ml(round_solid(200, 50, 180)), 1418.95, id="cone frustum 10, 9, 5 cm"),
        pytest.param(volume_ml(loaf_solid((215, 115), (200, 100), 60)), 1339.5, id="loaf tin by the prismatoid rule"),
        pytest.param(coat_ml(round_solid(203.2, 101.6), wall_mm=5, top_mm=5), 510.8, id="shell of a cylinder"),
        pytest.param(cone_ml(64, 50), 53.62, id="cone swirl"),
        pytest.param(cap_ml(100, 50), 2 / 3 * math.pi * 125, id="a hemisphere: 2/3 pi r^3"),
        pytest.param(
            coat_ml(block_solid(200, 100, 50), wall_mm=10, top_mm=10), 220 * 120 * 60 / 1e3 - 1000, id="shell of a box"
        ),
    ],
)
def test_volumes(volume: float, expected_ml: float) -> None:
    assert volume == pytest.approx(expected_ml, abs=0.05)


@given(top=st.tuples(length, length), bottom=st.tuples(length, length), height=length)
def test_a_block_is_the_hull_of_its_corners(
    top: tuple[float, float], bottom: tuple[float, float], height: float
) -> None:
    """The volume of a convex body from its corners, and a thin coat from its surface: scipy's ConvexHull (Qhull)."""
    from scipy.spatial import ConvexHull

    solid = loaf_solid(top, bottom, height)
    hull = ConvexHull(corners(solid))
    assert volume_ml(solid) * 1000 == pytest.approx(hull.volume, rel=1e-6)
    film_mm3 = (hull.area - solid.section_mm2(0)) * 1e-3
    assert coat_ml(solid, wall_mm=1e-3, top_mm=1e-3) * 1000 == pytest.approx(film_mm3, rel=1e-3)


def test_a_round_solid_is_near_the_hull_of_a_thousand_points() -> None:
    from scipy.spatial import ConvexHull

    solid = round_solid(200, 70, 160)
    ring = [2 * math.pi * n / 1000 for n in range(1000)]
    points = [(r * math.cos(a), r * math.sin(a), z) for r, z in ((80, 0), (100, 70)) for a in ring]
    hull = ConvexHull(points)
    assert volume_ml(solid) * 1000 == pytest.approx(hull.volume, rel=2e-5)
    film_mm3 = (hull.area - solid.section_mm2(0)) * 1e-3
    assert coat_ml(solid, wall_mm=1e-3, top_mm=1e-3) * 1000 == pytest.approx(film_mm3, rel=1e-4)


@given(solid=solids(), share=st.floats(0.01, 1))
def test_slices_equal_the_integral_of_the_section(solid: Solid, share: float) -> None:
    """scipy.integrate.quad over the height."""
    from scipy.integrate import quad

    cut = share * solid.height_mm
    integral, _ = quad(solid.section_mm2, 0, cut)
    assert slice_ml(solid, 0, cut) == pytest.approx(integral / 1000, abs=1e-6, rel=1e-9)
    assert slice_ml(solid, 0, cut) + slice_ml(solid, cut, solid.height_mm) == pytest.approx(volume_ml(solid))


@given(top=length, bottom=length, height=length, wall=thin)
def test_a_sloping_wall_moves_outwards_at_right_angles(top: float, bottom: float, height: float, wall: float) -> None:
    """Independent: the distance from a point on the new wall to the line of the old one, by the cross product."""
    grown = round_solid(top, height, bottom).grown(wall_mm=wall, top_mm=0)
    along = ((top - bottom) / 2, height)
    for x, z in ((grown.bottom_mm / 2, 0.0), (grown.top_mm / 2, height)):
        across = (x - bottom / 2) * along[1] - z * along[0]
        assert across / math.hypot(*along) == pytest.approx(wall, abs=1e-6)


@given(solid=solids(), wall=thin, top=thin, more=st.floats(0.1, 19))
def test_a_coat_grows_with_each_thickness(solid: Solid, wall: float, top: float, more: float) -> None:
    here = coat_ml(solid, wall_mm=wall, top_mm=top)
    assert coat_ml(solid, wall_mm=wall + more, top_mm=top) > here
    assert coat_ml(solid, wall_mm=wall, top_mm=top + more) > here


@given(wide=length, deep=length, high=length, hole=st.floats(0, 30), wall=thin, top=thin)
def test_the_shell_is_never_less_than_the_film(
    wide: float, deep: float, high: float, hole: float, wall: float, top: float
) -> None:
    """For straight walls, as long as the coat does not close the hole: closed formulas for the walls."""
    outer, inner = wide + 70, hole + 40
    for solid, wall_mm2 in (
        (round_solid(wide, high), math.pi * wide * high),
        (block_solid(wide, deep, high), 2 * (wide + deep) * high),
        (ring_solid(outer, inner, high), math.pi * (outer + inner) * high),
    ):
        film_mm3 = wall_mm2 * wall + top_mm2(solid) * top
        assert coat_ml(solid, wall_mm=wall, top_mm=top) >= film_mm3 / 1000 - 1e-6


@given(solid=solids(), inner=thin, outer=thin)
def test_two_coats_are_one_thick_coat(solid: Solid, inner: float, outer: float) -> None:
    assume(not (isinstance(solid, Disc) and solid.hole_mm) or inner + outer < solid.hole_mm / 2)
    first = coat_ml(solid, wall_mm=inner, top_mm=inner)
    second = coat_ml(solid.grown(wall_mm=inner, top_mm=inner), wall_mm=outer, top_mm=outer)
    assert first + second == pytest.approx(coat_ml(solid, wall_mm=inner + outer, top_mm=inner + outer), abs=1e-6)


@given(solid=solids(), k=st.floats(0.2, 5))
def test_lengths_times_k_are_areas_times_k2_and_volumes_times_k3(solid: Solid, k: float) -> None:
    if isinstance(solid, Disc):
        big: Solid = Disc(
            top_mm=k * solid.top_mm,
            bottom_mm=k * solid.bottom_mm,
            height_mm=k * solid.height_mm,
            hole_mm=k * solid.hole_mm,
        )
    else:
        (a, b), (c, d) = solid.top_mm, solid.bottom_mm
        big = Block(top_mm=(k * a, k * b), bottom_mm=(k * c, k * d), height_mm=k * solid.height_mm)
    assert top_mm2(big) == pytest.approx(k**2 * top_mm2(solid))
    assert big.rim_mm(top=True) == pytest.approx(k * solid.rim_mm(top=True))
    assert volume_ml(big) == pytest.approx(k**3 * volume_ml(solid))


def test_a_coat_thicker_than_the_hole_fills_it() -> None:
    ring = ring_solid(200, 20, 50)
    assert volume_ml(ring.grown(wall_mm=15, top_mm=0)) == pytest.approx(math.pi * 115**2 * 50 / 1000)


@pytest.mark.parametrize(
    ("above", "below", "fits"),
    [
        pytest.param(round_solid(150, 100), round_solid(200, 100), True, id="a smaller round tier"),
        pytest.param(round_solid(200, 100), round_solid(200, 100), True, id="a tier of the same size"),
        pytest.param(round_solid(201, 100), round_solid(200, 100), False, id="a wider tier overhangs"),
        pytest.param(block_solid(140, 140, 90), round_solid(200, 90), True, id="a square whose diagonal fits"),
        pytest.param(block_solid(145, 145, 90), round_solid(200, 90), False, id="a square whose corners overhang"),
        pytest.param(block_solid(100, 250, 90), block_solid(260, 120, 90), True, id="a rectangle, turned"),
        pytest.param(
            round_solid(130, 90), block_solid(260, 120, 90), False, id="a round tier wider than the short side"
        ),
        pytest.param(round_solid(50, 90), ring_solid(200, 60, 90), False, id="a tier that falls into the hole"),
        pytest.param(round_solid(100, 90), ring_solid(200, 60, 90), True, id="a tier that bridges the hole"),
    ],
)
def test_fits_on(above: Solid, below: Solid, fits: bool) -> None:
    assert fits_on(above, below) is fits
