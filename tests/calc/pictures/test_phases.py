"""Bars of phases: lengths by hand, every mass in words, hatching for each material."""

import re
import xml.etree.ElementTree as ElementTree

import pytest
from crumbcoat_calc.pictures.phases import PhaseShare, StagePhases, phase_bars

FAT, WATER = PhaseShare("Fat", 80, "80 g", "fat"), PhaseShare("Water", 20, "20 g", "water")
TWO = [
    StagePhases(name="1. Butter", text="100 g", shares=(FAT, WATER)),
    StagePhases(name="2. Milk", text="200 g", shares=(FAT, PhaseShare("Water", 120, "120 g", "water"))),
]


def test_bars_are_as_long_as_they_are_heavy() -> None:
    drawn = phase_bars("p", "Phases", TWO)
    widths = [float(width) for width in re.findall(r"h(\d[\d.]*)v24", drawn)]
    by_hand = [(mass * 319 / 200 - 1.5) for mass in (80, 80, 20, 120)]
    assert sorted(set(widths)) == pytest.approx(sorted({round(width, 2) for width in by_hand}), abs=0.01)


def test_all_is_said_in_words() -> None:
    picture = ElementTree.fromstring(phase_bars("p", "Phases", TWO))
    description = picture.findtext("{http://www.w3.org/2000/svg}desc")
    assert description == "Phases: 1. Butter, 100 g: fat 80 g, water 20 g; 2. Milk, 200 g: fat 80 g, water 120 g."


def test_each_material_has_its_hatching() -> None:
    drawn = phase_bars("p", "Phases", TWO)
    for material in ("fat", "water"):
        assert f'<pattern id="cc-p-{material}"' in drawn
        assert f"url(#cc-p-{material})" in drawn


def test_a_stage_that_is_not_known_says_so() -> None:
    drawn = phase_bars("p", "Phases", [StagePhases(name="1. Paste", text="100 g", shares=())])
    assert "not known" in drawn


def test_there_is_a_stage() -> None:
    with pytest.raises(ValueError, match="needs one"):
        phase_bars("p", "Phases", [])
