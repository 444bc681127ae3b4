"""The colours of cards on a plain Material site against WCAG 2.2: 4.5:1 for text (1.4.3), 3:1 for controls (1.4.11)."""

import re
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path

import pytest
from crumbcoat_site.recipe_cards.build.palette import (
    GROUNDS,
    Palette,
    accents_css,
    contrast,
    palettes_of,
    readable,
)

PLUGIN = Path(__file__).parents[3] / "site_plugins" / "crumbcoat_site" / "recipe_cards"
STYLES = PLUGIN / "theme" / "assets" / "recipe_cards"

# The names that Material's documentation lists for primary and accent. Source: its palette style sheet, as installed.
PRIMARIES = (
    "red", "pink", "purple", "deep-purple", "indigo", "blue", "light-blue", "cyan", "teal", "green", "light-green",
    "lime", "yellow", "amber", "orange", "deep-orange", "brown", "grey", "blue-grey", "black", "white",
)  # fmt: skip
ACCENTS = PRIMARIES[:16]

TEXT = [
    *[(text, ground) for text in ("quiet", "rust") for ground in ("paper", "leaf")],
    *[(text, "butter-leaf") for text in ("quiet", "sage", "rust")],
    *[("ink", ground) for ground in ("paper", "leaf", "butter-leaf", "butter")],
]
CONTROLS = [("edge", "paper"), ("edge", "leaf"), ("edge", "butter-leaf"), ("sage", "leaf")]


def colours(scheme: str) -> dict[str, str]:
    """The colours of a scheme, on top of those for both; paper and ink are Material's own."""
    found: dict[str, str] = {}
    for name in ("recipe_cards.css", "pictures.css"):
        screen = (STYLES / name).read_text(encoding="utf-8").partition("@media print")[0]
        for head, body in re.findall(r"([^{}]*\[data-md-color-scheme[^{}]*)\{([^{}]+)\}", screen):
            if "=" not in head or f'="{scheme}"' in head:
                found |= re.findall(r"--cc-([\w-]+): (#[0-9a-f]{6});", body)
    return found | {"paper": GROUNDS[scheme][0], "ink": {"default": "#212121", "slate": "#c5c7cd"}[scheme]}


@pytest.mark.parametrize("scheme", GROUNDS)
def test_text_can_be_read_and_controls_can_be_seen(scheme: str) -> None:
    own = colours(scheme)
    assert [pair for pair in TEXT if contrast(own[pair[0]], own[pair[1]]) < 4.5] == []
    assert [pair for pair in CONTROLS if contrast(own[pair[0]], own[pair[1]]) < 3] == []


@pytest.mark.parametrize("scheme", GROUNDS)
def test_the_grounds_are_those_of_the_sheets_and_of_material(scheme: str) -> None:
    own = colours(scheme)
    assert GROUNDS[scheme][1:] == (own["leaf"], own["butter-leaf"])
    folder = files("material") / "templates" / "assets" / "stylesheets"
    sheets = "".join(file.read_text(encoding="utf-8") for file in folder.iterdir() if file.name.endswith(".css"))
    paper = {"default": "--md-default-bg-color:#fff", "slate": "--md-default-bg-color:hsla(var(--md-hue), 15%, 14%, 1)"}
    assert re.sub(r"hsla\(var\(--md-hue\), 0%, 100%, 1\)", "#fff", sheets).count(paper[scheme]) > 0


@pytest.mark.parametrize("scheme", GROUNDS)
def test_every_primary_and_accent_of_material_gives_accents_that_can_be_read(scheme: str) -> None:
    palettes = [Palette(scheme, primary, accent) for primary in PRIMARIES for accent in ACCENTS]
    sheet = accents_css(palettes)
    found = re.findall(r"--cc-accent: (#[0-9a-f]{6}); --cc-accent-deep: (#[0-9a-f]{6});", sheet)
    assert len(found) == len(palettes) + 1
    wrong = [pair for pair in found for own in pair for ground in GROUNDS[scheme] if contrast(own, ground) < 4.5]
    assert wrong == []


def test_a_colour_that_can_be_read_stays() -> None:
    assert readable("#4051b5", "default") == "#4051b5"
    assert readable("#ffec3d", "default") != "#ffec3d"


@pytest.mark.parametrize(
    ("setting", "wanted"),
    [
        (None, [Palette("default", "indigo", "indigo")]),
        ({"primary": "deep orange"}, [Palette("default", "deep-orange", "indigo")]),
        ([{"scheme": "slate"}, {"primary": "teal", "accent": "lime"}],
         [Palette("slate", "indigo", "indigo"), Palette("default", "teal", "lime")]),
    ],
)  # fmt: skip
def test_a_palette_is_read_as_mkdocs_writes_it(
    setting: Mapping[str, str] | list[Mapping[str, str]] | None, wanted: list[Palette]
) -> None:
    assert list(palettes_of(setting)) == wanted


def test_a_custom_colour_is_left_to_the_theme() -> None:
    assert accents_css([Palette("default", "custom", "custom")]) == ""


def test_a_dark_card_is_not_the_light_one() -> None:
    assert not set(colours("default").values()) & set(colours("slate").values())
