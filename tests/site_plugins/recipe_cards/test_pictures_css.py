"""The colours of pictures against WCAG 2.2: 3:1 for strokes (1.4.11), 4.5:1 for lettering (1.4.3)."""

import re
from pathlib import Path

import pytest
from crumbcoat_calc.pictures.drawing import MATERIALS
from crumbcoat_site.recipe_cards.build.palette import GROUNDS, contrast

PLUGIN = Path(__file__).parents[3] / "site_plugins" / "crumbcoat_site" / "recipe_cards"
CSS = PLUGIN / "theme" / "assets" / "recipe_cards" / "pictures.css"

BLOCKS = re.findall(r"([^{}]+)\{([^{}]+)\}", re.sub(r"/\*.*?\*/", "", CSS.read_text(encoding="utf-8"), flags=re.DOTALL))


def colours(scheme: str) -> dict[str, str]:
    (body,) = [body for head, body in BLOCKS if head.strip().endswith(HEADS[scheme])]
    return dict(re.findall(r"--cc-([\w-]+):[^;]*?(#[0-9a-f]{6})", body)) | {"paper": GROUNDS[scheme][0]}


HEADS = {"default": "[data-md-color-scheme]", "slate": '[data-md-color-scheme="slate"]'}


def tinted(colour: str, paper: str, share: float) -> str:
    parts = [round(share * int(colour[n : n + 2], 16) + (1 - share) * int(paper[n : n + 2], 16)) for n in (1, 3, 5)]
    return "#" + "".join(f"{part:02x}" for part in parts)


def test_black_on_white_is_21_to_1() -> None:
    """WCAG 2.2: contrast ratios can range from 1 to 21."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("scheme", ["default", "slate"])
@pytest.mark.parametrize("material", [*MATERIALS, "quiet"])
def test_strokes_stand_out(scheme: str, material: str) -> None:
    own = colours(scheme)
    assert contrast(own[material], own["paper"]) >= 3
    assert contrast(own[material], tinted(own[material], own["paper"], 0.16)) >= 3


@pytest.mark.parametrize("scheme", ["default", "slate"])
@pytest.mark.parametrize("lettering", ["quiet"])
def test_lettering_stands_out(scheme: str, lettering: str) -> None:
    own = colours(scheme)
    assert contrast(own[lettering], own["paper"]) >= 4.5


def test_every_class_that_is_drawn_is_styled() -> None:
    drawn = set()
    for module in (Path(__file__).parents[3] / "calc").glob("**/*.py"):
        if module.name == "drawing.py" or module.parent.name == "pictures":
            drawn |= set(re.findall(r'(?<=["\s])cc-[a-z][a-z-]*[a-z](?=["\s])', module.read_text(encoding="utf-8")))
    styled = "".join(sheet.read_text(encoding="utf-8") for sheet in CSS.parent.glob("*.css"))
    assert {"cc-leader", "cc-hatched", "cc-board"} <= drawn
    assert not [name for name in sorted(drawn | {f"cc-{each}" for each in MATERIALS}) if f".{name}" not in styled]
