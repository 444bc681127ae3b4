"""The picture of a frosting that warms: what is drawn is what its words say."""

from xml.etree import ElementTree

from crumbcoat_calc.pictures.melting_curve import HIGH, LEFT, RIGHT, Mark, MeltingCurve, Zone, melting_curve

SVG = "{http://www.w3.org/2000/svg}"
DEGREES = (0.0, 10.0, 20.0, 40.0)
CURVE = MeltingCurve(name="butter & sugar", bands=((20, 15, 25), (15, 10, 20), (5, 3, 8), (0, 0, 0)))


def drawn(**more):
    return ElementTree.fromstring(melting_curve("warming", "Solid fat", DEGREES, (CURVE,), **more))


def test_the_curve_ends_at_the_axes():
    """25 g are the top of the scale, so 20 g at the start are four fifths of the height."""
    path = next(one.get("d") for one in drawn().iter(f"{SVG}path") if "cc-melting" in (one.get("class") or ""))
    points = [tuple(map(float, point.split())) for point in path.removeprefix("M").split("L")]
    assert [x for x, _ in points] == [LEFT + (RIGHT - LEFT) * t / 40 for t in DEGREES]
    foot = points[-1][1]
    assert [round((foot - y) / HIGH * 25, 1) for _, y in points] == [20, 15, 5, 0]


def test_marks_and_zones_have_names_and_one_outside_is_left_out():
    shown = drawn(
        marks=(Mark("your room, 20 °C", 20.0, 5.0), Mark("an oven", 200.0, 0.0)),
        zones=(Zone("pipes", 0.0, 20.0), Zone("slumps", 20.0, 40.0)),
    )
    words = [one.text for one in shown.iter(f"{SVG}text")]
    assert {"your room, 20 °C", "pipes", "slumps"} <= set(words)
    assert "an oven" not in words
    assert len(list(shown.iter(f"{SVG}circle"))) == 1


def test_a_zone_too_narrow_for_its_name_has_only_its_strokes():
    words = [one.text for one in drawn(zones=(Zone("pipes and spreads", 0.0, 2.0),)).iter(f"{SVG}text")]
    assert "pipes and spreads" not in words


def test_two_curves_have_a_key_and_hatchings_of_their_own():
    picture = ElementTree.fromstring(
        melting_curve("warming", "Solid fat", DEGREES, (CURVE, MeltingCurve(name="ganache", bands=CURVE.bands)))
    )
    words = [one.text for one in picture.iter(f"{SVG}text")]
    assert {"butter & sugar", "ganache"} <= set(words)
    assert [one.get("id") for one in picture.iter(f"{SVG}pattern")] == ["cc-warming-fat", "cc-warming-water"]
    assert len([one for one in picture.iter(f"{SVG}path") if "cc-dashed" in (one.get("class") or "")]) == 1


def test_it_says_in_words_what_it_shows():
    assert drawn(facts=("at 20 °C 5 g",)).findtext(f"{SVG}desc") == "Solid fat: at 20 °C 5 g."
