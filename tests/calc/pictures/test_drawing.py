"""SVG text: well-formed (XML), numbers short, lettering within its room."""

from xml.etree import ElementTree

import pytest
from crumbcoat_calc.pictures.drawing import (
    MATERIALS,
    SMALL,
    element,
    hatchings,
    label,
    lines_of,
    number,
    picture,
    polygon_path,
    sentence,
    shortened,
    ticks,
    width_of,
)
from hypothesis import given
from hypothesis import strategies as st

letters = st.text(st.characters(min_codepoint=32, max_codepoint=0x2FF), max_size=60)


@given(text=letters)
def test_any_text_is_carried_unchanged(text: str) -> None:
    """xml.etree reads back what was written."""
    root = ElementTree.fromstring(element("g", label(1, 2, text), title=text))
    assert root.attrib["title"] == text.replace("\n", " ")
    assert (root[0].text or "") == text


@given(value=st.floats(-1e4, 1e4))
def test_a_coordinate_is_short_and_near(value: float) -> None:
    shown = number(value)
    assert abs(float(shown) - value) <= 0.005 + 1e-9
    assert len(shown.partition(".")[2]) <= 2
    assert shown != "-0"


def test_a_picture_names_and_describes_itself() -> None:
    """WAI-ARIA 1.2: role img with aria-labelledby that points to ids in the document."""
    root = ElementTree.fromstring(picture("one", 40, "A <bar>", "Fat & water."))
    names = {child.attrib["id"]: child.text for child in root if "id" in child.attrib}
    assert root.attrib["role"] == "img"
    assert [names[key] for key in root.attrib["aria-labelledby"].split()] == ["A <bar>", "Fat & water."]
    assert root.attrib["viewBox"] == "0 0 320 40"


def test_every_material_has_a_hatching_of_its_own() -> None:
    root = ElementTree.fromstring(hatchings("k", MATERIALS))
    looks = [ElementTree.tostring(pattern[0]) for pattern in root]
    assert len(root) == len(MATERIALS)
    assert len({look.split(b'class="')[0] for look in looks}) == len(MATERIALS)


@given(highest=st.floats(0.001, 1e6), wanted=st.integers(2, 8))
def test_ticks_reach_the_highest_in_round_steps(highest: float, wanted: int) -> None:
    marks = ticks(highest, wanted)
    assert marks[0] == 0
    assert highest <= marks[-1] * (1 + 1e-6)
    assert len(marks) - 1 <= wanted
    assert marks[-2] < highest * (1 + 1e-6)


def test_ticks_of_nothing() -> None:
    assert ticks(0) == (0.0, 1.0)


@given(text=letters, room=st.floats(40, 300))
def test_lettering_stays_in_its_room(text: str, room: float) -> None:
    assert shortened(text, width_of(text)) == text
    for shown in (*lines_of(text, room), shortened(text, room)):
        assert width_of(shown) <= room
    assert " ".join(lines_of(text, 1e6)) == " ".join(text.split())


def test_small_lettering_is_narrower() -> None:
    assert width_of("figure", SMALL) < width_of("figure")


@pytest.mark.parametrize(("facts", "said"), [([], "Title."), (["a 1", "b 2"], "Title: a 1; b 2.")])
def test_sentence(facts: list[str], said: str) -> None:
    assert sentence("Title", facts) == said


def test_a_polygon_is_closed() -> None:
    assert polygon_path([(0, 0), (1.005, 2), (3, 4)]) == "M0 0L1 2L3 4Z"
