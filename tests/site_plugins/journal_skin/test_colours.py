"""The journal's colours against WCAG 2.2: 4.5:1 for text (1.4.3), 3:1 for controls and their states (1.4.11)."""

import re
from pathlib import Path

import pytest
from crumbcoat_calc.pictures.drawing import MATERIALS
from crumbcoat_site.recipe_cards.build.palette import contrast

SHEET = Path(__file__).parents[3] / "site_plugins/crumbcoat_site/journal_skin/theme/assets/journal_skin/journal.css"
TEXT = [
    *[(text, ground) for text in ("ink", "quiet", "accent", "accent-deep", "rust") for ground in ("paper", "leaf")],
    *[(text, "butter-leaf") for text in ("ink", "quiet", "sage", "rust", "accent")],
    ("ink", "butter"),
    ("paper", "accent"),
]
CONTROLS = [("edge", "paper"), ("edge", "leaf"), ("edge", "butter-leaf"), ("accent", "leaf"), ("sage", "leaf")]


def palette(scheme: str) -> dict[str, str]:
    """The colours of a scheme, on top of those for both."""
    found: dict[str, str] = {}
    screen = SHEET.read_text(encoding="utf-8").partition("@media print")[0]
    for head, body in re.findall(r"([^{}]*\[data-md-color-scheme[^{}]*)\{([^{}]+)\}", screen):
        if "=" not in head or f'="{scheme}"' in head:
            found |= re.findall(r"--cc-([\w-]+): (#[0-9a-f]{6});", body)
    return found


@pytest.mark.parametrize("scheme", ["default", "slate"])
@pytest.mark.parametrize(("text", "ground"), TEXT)
def test_text_can_be_read(scheme: str, text: str, ground: str) -> None:
    own = palette(scheme)
    assert contrast(own[text], own[ground]) >= 4.5


@pytest.mark.parametrize("scheme", ["default", "slate"])
@pytest.mark.parametrize(("control", "ground"), CONTROLS)
def test_controls_can_be_seen(scheme: str, control: str, ground: str) -> None:
    own = palette(scheme)
    assert contrast(own[control], own[ground]) >= 3


def test_a_dark_page_is_not_the_light_one() -> None:
    assert not set(palette("default").values()) & set(palette("slate").values())


@pytest.mark.parametrize("scheme", ["default", "slate"])
def test_pictures_can_be_seen_on_the_journals_paper(scheme: str) -> None:
    paper = palette(scheme)["paper"]
    pictures = SHEET.parents[4] / "recipe_cards" / "theme" / "assets" / "recipe_cards" / "pictures.css"
    blocks = re.findall(r"([^{}]+)\{([^{}]+)\}", pictures.read_text(encoding="utf-8"))
    end = '"slate"]' if scheme == "slate" else "[data-md-color-scheme]"
    (body,) = [body for head, body in blocks if head.strip().endswith(end)]
    strokes = dict(re.findall(r"--cc-([\w-]+): (#[0-9a-f]{6})", body))
    assert set(MATERIALS) <= strokes.keys()
    assert [name for name in MATERIALS if contrast(strokes[name], paper) < 3] == []
