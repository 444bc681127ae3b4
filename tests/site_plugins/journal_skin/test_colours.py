"""The journal's colours against WCAG 2.2: 4.5:1 for text (1.4.3), 3:1 for controls and their states (1.4.11)."""

from importlib.resources import files
from pathlib import Path

import crumbcoat_site.journal_skin as skin
import pytest
from crumbcoat_site.recipe_cards.contrast.check import low_contrasts, theme_sheets
from crumbcoat_site.recipe_cards.contrast.colours import Colour, colour_of, contrast
from crumbcoat_site.recipe_cards.contrast.variables import Palette, Variables, variables_of

SHEET = (Path(skin.__file__).parent / "journal.css").read_text(encoding="utf-8")
SHEETS = [*theme_sheets([str(files("material") / "templates")]), SHEET]
TEXT = [(text, ground) for text in ("ink", "quiet", "plum", "plum-deep") for ground in ("paper", "leaf")]
CONTROLS = [("edge", "paper"), ("edge", "leaf"), ("plum", "leaf")]
SCHEMES = ("default", "slate")


def variables(scheme: str) -> Variables:
    return variables_of(SHEETS, Palette(scheme=scheme, primary="custom", accent="custom"))


def colour(scheme: str, name: str) -> Colour:
    own = variables(scheme)
    return colour_of(own.resolved(f"var(--cj-{name})"), own.dark)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_the_frame_of_the_page_can_be_read_and_its_controls_seen(scheme: str) -> None:
    assert [pair for pair in TEXT if contrast(*(colour(scheme, name) for name in pair)) < 4.5] == []
    assert [pair for pair in CONTROLS if contrast(*(colour(scheme, name) for name in pair)) < 3] == []


@pytest.mark.parametrize("scheme", SCHEMES)
def test_cards_in_the_journal_can_be_read(scheme: str) -> None:
    assert list(low_contrasts(SHEETS, Palette(scheme=scheme, primary="custom", accent="custom"))) == []


def test_a_dark_page_is_not_the_light_one() -> None:
    light, dark = ({name: value for name, value in variables(scheme).written.items() if value.startswith("#")}
                   for scheme in SCHEMES)  # fmt: skip
    own = {name for name in light if name.startswith("--cj-")}
    assert len(own) > 10
    assert [name for name in own if light[name] == dark[name]] == []
    assert (variables("default").dark, variables("slate").dark) == (False, True)
