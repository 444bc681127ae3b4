"""The plan as a picture: well-formed, to scale, without colour, and complete in words."""

import re
from xml.etree import ElementTree

from crumbcoat_calc.pictures.plan import KINDS, Stretch, plan_chart

SVG = "{http://www.w3.org/2000/svg}"
STRETCHES = (
    Stretch(group=1, name="1.1", start_s=0, end_s=600, kind="shared"),
    Stretch(group=1, name="1.2", start_s=600, end_s=600 + 86400, kind="alone"),
    Stretch(group=2, name="1.1", start_s=600, end_s=1200, kind="shared"),
    Stretch(group=2, name="2 & 3", start_s=1200, end_s=1800, kind="hands"),
    Stretch(group=1, name="2.1", start_s=600 + 86400, end_s=1200 + 86400, kind="hands"),
)


def chart(stretches=STRETCHES, begin_s=9 * 3600.0):
    return plan_chart("plan", "Plan", stretches, begin_s, [(kind, f"{kind} & more") for kind in KINDS])


def boxes(svg):
    """Left and top edge, width and height of all that is hatched, in the order of drawing."""
    drawn = ElementTree.fromstring(svg).iter(f"{SVG}path")
    paths = [path.get("d") for path in drawn if "cc-hatched" in path.get("class", "")]
    return [tuple(map(float, re.match(r"M([\d.]+) ([\d.]+)h([\d.]+)v([\d.]+)", path).groups())) for path in paths]


def bars(svg):
    """Left edge and width of each bar; the legend's squares are 13 high."""
    return [(x, wide) for x, _, wide, high in boxes(svg) if high != 13]


def test_it_is_well_formed_and_inside_its_frame():
    root = ElementTree.fromstring(chart())
    _, _, width, height = map(float, root.get("viewBox").split())
    for x, wide in bars(chart()):
        assert 0 <= x <= x + wide <= width
    assert height > 2 * 29
    assert not re.search(r"#[0-9a-f]{3,6}\b|rgb", re.sub(r"url\(#[^)]*\)", "", chart()))


def test_the_legend_is_below_the_rows_of_all_groups():
    lowest = max(y + high for _, y, _, high in boxes(chart()) if high != 13)
    rows = [float(line.get("y1")) for line in ElementTree.fromstring(chart()).iter(f"{SVG}line")]
    assert len(rows) > 2
    assert all(y > max(lowest, *rows) for _, y, _, high in boxes(chart()) if high == 13)


def test_bars_of_the_same_time_are_of_the_same_length_and_a_long_wait_is_cut():
    drawn = bars(chart())
    assert len(drawn) == len(STRETCHES)
    ten_minutes = [wide for _, wide in drawn if wide < 400]
    assert len(ten_minutes) >= 4
    assert max(ten_minutes) - min(ten_minutes) < 0.05
    assert chart().count("cc-cut") == 2
    assert chart(STRETCHES[:1]).count("cc-cut") == 0


def test_everything_it_shows_is_in_words_too():
    told = ElementTree.fromstring(chart()).find(f"{SVG}desc").text
    assert told.count("group 1: ") == 3
    assert "group 2: 2 & 3 09:20 to 09:30" in told
    assert "group 1: 2.1 09:10 to 09:20" in told


def test_times_of_day_are_on_the_scale():
    shown = [text.text for text in ElementTree.fromstring(chart(STRETCHES[:1])).iter(f"{SVG}text")]
    assert "09:00" in shown
    assert "09:10" in shown
