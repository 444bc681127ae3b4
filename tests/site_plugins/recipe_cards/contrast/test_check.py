"""Contrast in cards: WCAG 2.2, 4.5:1 for text (1.4.3), 3:1 for what must be seen (1.4.11)."""

import itertools
import re
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path

import pytest
from crumbcoat_calc.pictures.drawing import MATERIALS
from crumbcoat_site.recipe_cards.build.assets import COMPONENTS
from crumbcoat_site.recipe_cards.contrast.check import GROUNDS, PAIRS, contrast_problems, low_contrasts, theme_sheets
from crumbcoat_site.recipe_cards.contrast.colours import Colour, colour_of, contrast, over
from crumbcoat_site.recipe_cards.contrast.variables import Palette, Variables, variables_of
from playwright.sync_api import Browser

TOKENS = (COMPONENTS / "tokens.css").read_text(encoding="utf-8")

# The names that Material's documentation lists for primary and accent. Source: its palette style sheet, as installed.
PRIMARIES = (
    "red", "pink", "purple", "deep-purple", "indigo", "blue", "light-blue", "cyan", "teal", "green", "light-green",
    "lime", "yellow", "amber", "orange", "deep-orange", "brown", "grey", "blue-grey", "black", "white",
)  # fmt: skip
ACCENTS = PRIMARIES[:16]
SCHEMES = ("default", "slate")


@pytest.fixture(scope="module")
def material() -> list[str]:
    """Material's style sheets."""
    return theme_sheets([str(files("material") / "templates")])


def colour(variables: Variables, name: str) -> Colour:
    return colour_of(variables.resolved(f"var(--cc-{name})"), variables.dark)


def test_materials_sheets_have_every_colour_by_name(material: list[str]) -> None:
    assert len(material) == 2
    named = {kind: set(re.findall(rf"\[data-md-color-{kind}=([a-z-]+)\]\{{--md", material[1]))
             for kind in ("primary", "accent")}  # fmt: skip
    assert named["primary"] == set(PRIMARIES)
    assert named["accent"] == set(ACCENTS)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_every_primary_and_accent_of_material_gives_cards_that_can_be_read(
    material: list[str], full: bool, scheme: str
) -> None:
    """Each primary with one accent, in turn; in `make test-all` with all."""
    pairs = itertools.product(PRIMARIES, ACCENTS) if full else zip(PRIMARIES, itertools.cycle(ACCENTS[::-1]))
    palettes = [Palette(scheme=scheme, primary=primary, accent=accent) for primary, accent in pairs]
    low = [(palette, pair) for palette in palettes for pair in low_contrasts(material, palette)]
    assert low == []
    accents = {variables_of([TOKENS, *material], palette).resolved("var(--cc-accent)") for palette in palettes}
    assert len(accents) > 15  # Each primary but those without a hue gives cards of its own colour.


def test_a_site_without_a_palette_can_be_read(material: list[str]) -> None:
    assert list(contrast_problems([Palette()], material[:1])) == []


def test_each_token_that_is_a_colour_is_checked() -> None:
    """Those that are not: shapes, and what is seen beside something that says the same."""
    colours = set(re.findall(r"--cc-([\w-]+): (?:light-dark|color-mix|var\(--md-default)", TOKENS))
    decoration = {"hairline", "blush"}
    assert {name for pair in PAIRS for name in pair[:2]} == colours - decoration
    assert GROUNDS == ("paper", "leaf", "butter-leaf")


@pytest.mark.parametrize("scheme", SCHEMES)
def test_the_strokes_of_a_material_stand_out_from_its_tint(material: list[str], scheme: str) -> None:
    """The tint is 16 % of the stroke's colour, as components/picture has it."""
    assert "var(--cc-own) 16%" in (COMPONENTS / "picture" / "shared.css").read_text(encoding="utf-8")
    variables = variables_of([TOKENS, *material], Palette(scheme=scheme))
    for name in MATERIALS:
        stroke = colour(variables, name)
        tint = over((*stroke[:3], 0.16), over(colour(variables, "paper"), (1.0, 1.0, 1.0, 1.0)))
        assert contrast(stroke, tint) >= 3, name


def test_colours_that_cannot_be_read_are_reported_with_a_remedy(material: list[str]) -> None:
    own = '[data-md-color-scheme="cream"] { --md-default-bg-color: #cccccc; --md-default-fg-color: #777777; }'
    (problem,) = contrast_problems([Palette(scheme="cream"), Palette()], [*material, own])
    assert problem.startswith("mkdocs.yml: theme.palette: with scheme 'cream', primary 'indigo' and accent 'indigo', ")
    place, _, remedy = problem.partition("\n    Fix: ")
    assert "to 1 in cards" in place
    assert re.search(r"\.cc-card \{ --cc-[a-z-]+: … \}$", remedy)
    mended = own + ".cc-card { --cc-ink: #111; --cc-quiet: #222; --cc-edge: #333; --cc-rust: #511; --cc-sage: #151; }"
    low = {pair[0] for pair in low_contrasts([*material, mended], Palette(scheme="cream"))}
    assert not low & {"ink", "quiet", "edge", "rust", "sage"}


def test_a_dark_scheme_that_does_not_say_so_is_reported(material: list[str]) -> None:
    dark = ['[data-md-color-scheme="night"] {', "--md-default-bg-color: #101418; --md-default-fg-color: #e8e8e8;"]
    palette = Palette(scheme="night", primary="teal")
    assert list(contrast_problems([palette], [*material, " ".join([*dark, "}"])]))
    assert not list(contrast_problems([palette], [*material, " ".join([*dark, "color-scheme: dark; }"])]))


def test_a_colour_that_is_not_known_is_passed_over(material: list[str]) -> None:
    own = ".cc-card { --cc-paper: lab(50% 0 0); --cc-leaf: lab(50% 0 0); --cc-butter-leaf: lab(50% 0 0); }"
    assert [pair for pair in low_contrasts([*material, own], Palette()) if pair[1] != "butter"] == []


def test_another_theme_is_not_checked(tmp_path: Path) -> None:
    assert theme_sheets([str(tmp_path)]) == []
    assert list(contrast_problems([Palette()], [])) == []


SHOWN = """names => {
  const canvas = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  const card = document.querySelector(".cc-card");
  return names.map((name) => {
    card.style.color = `var(--cc-${name})`;
    for (const colour of ["#fff", getComputedStyle(card).color]) {
      canvas.fillStyle = colour;
      canvas.fillRect(0, 0, 1, 1);
    }
    return [...canvas.getImageData(0, 0, 1, 1).data].slice(0, 3);
  });
}"""
"""The colours of tokens as the browser paints them on white."""


@pytest.mark.parametrize(
    ("scheme", "primary", "accent"),
    [("default", "yellow", "lime"), ("slate", "black", "red"), ("slate", "deep-purple", "cyan")],
)
def test_colours_are_those_that_a_browser_shows(
    browser: Browser, material: Sequence[str], scheme: str, primary: str, accent: str
) -> None:
    names = sorted({name for pair in PAIRS for name in pair[:2]})
    styles = "".join(f"<style>{sheet}</style>" for sheet in (TOKENS, *material))
    body = f"<body dir=ltr data-md-color-scheme={scheme} data-md-color-primary={primary} data-md-color-accent={accent}>"
    page = browser.new_page()
    page.set_content(f"{styles}{body}<div class='cc-card'></div>")
    shown = page.evaluate(SHOWN, names)
    page.close()
    variables = variables_of([TOKENS, *material], Palette(scheme=scheme, primary=primary, accent=accent))
    for name, found in zip(names, shown, strict=True):
        computed = [255 * part for part in over(colour(variables, name), (1.0, 1.0, 1.0, 1.0))[:3]]
        assert found == pytest.approx(computed, abs=1.01), name
