"""Which custom properties a card has: CSS Cascading and Inheritance Level 5."""

import pytest
from crumbcoat_site.recipe_cards.contrast.variables import Palette, palettes_of, variables_of

TEAL = Palette(scheme="slate", primary="teal", accent="lime")


def value(sheets: str | list[str], palette: Palette = TEAL) -> str:
    return variables_of([sheets] if isinstance(sheets, str) else sheets, palette).resolved("var(--x)")


@pytest.mark.parametrize(
    ("setting", "wanted"),
    [
        pytest.param(None, [Palette()], id="nothing is set"),
        pytest.param({"primary": "deep orange"}, [Palette(primary="deep-orange")], id="one palette"),
        pytest.param([{"scheme": "slate"}, {"primary": "teal", "accent": "lime", "toggle": {"icon": "x"}}],
                     [Palette(scheme="slate"), Palette(primary="teal", accent="lime")], id="two"),
        pytest.param([{"media": "a"}, {"media": "b"}], [Palette()], id="the same twice"),
    ],
)  # fmt: skip
def test_a_palette_is_read_as_the_theme_reads_it(setting: object, wanted: list[Palette]) -> None:
    assert list(palettes_of(setting)) == wanted


@pytest.mark.parametrize(
    ("sheets", "wanted"),
    [
        pytest.param(":root{--x:a}", "a", id="a rule for every page"),
        pytest.param('[data-md-color-primary="teal"]{--x:a}', "a", id="a rule for the palette"),
        pytest.param("[data-md-color-primary=red]{--x:a}", "unset(--x)", id="a rule for another"),
        pytest.param("[data-md-color-scheme]{--x:a}", "a", id="a rule for any"),
        pytest.param("[data-md-color-primary=teal]:not([data-md-color-scheme=slate]){--x:a}", "unset(--x)", id="not"),
        pytest.param("[data-md-color-primary=red],[data-md-color-primary=teal]{--x:a}", "a", id="one of several"),
        pytest.param(".md-header{--x:a}", "unset(--x)", id="a rule for a part of the page"),
        pytest.param("[data-md-color-primary=teal] .md-header{--x:a}", "unset(--x)", id="for a part, in the palette"),
        pytest.param(":root{--x:a}[data-md-color-scheme]{--x:b}", "b", id="the body is nearer than the root"),
        pytest.param(".cc-card{--x:a}[data-md-color-scheme=slate]{--x:b}", "a", id="and the card nearer than both"),
        pytest.param(
            "[data-md-color-scheme=slate]{--x:a}[data-md-color-scheme]{--x:b}", "b", id="the later, of a weight"
        ),
        pytest.param("[data-md-color-scheme=slate][dir]{--x:a}[data-md-color-scheme]{--x:b}", "a", id="the heavier"),
        pytest.param(".cc-card{--x:a}@layer cc-tokens{.cc-card{--x:b}}", "a", id="a rule out of layers wins"),
        pytest.param("@layer one,two;.cc-card{--x:a}", "a", id="a layer that is only named"),
        pytest.param("@media screen{:root{--x:a}}", "a", id="on a screen"),
        pytest.param(":root{--x:a}@media print{:root{--x:b}}", "a", id="not on paper"),
        pytest.param(":root{--x:a}@supports not (color: red){:root{--x:b}}", "a", id="not in an older browser"),
        pytest.param(":root{--x:a;/* --x:b; */}", "a", id="not in a comment"),
        pytest.param([":root{--x:a}", ":root{--x:b}"], "b", id="the later sheet"),
        pytest.param(":root{--y:a;--x:var(--y)}", "a", id="by way of another"),
        pytest.param(":root{--x:var(--y, f(var(--z, b), c))}", "f(b, c)", id="with a fallback"),
        pytest.param(":root{--x:var(--y);--y:var(--x)}", "unset(--x)", id="a circle"),
    ],
)
def test_the_value_is_the_one_that_the_cascade_gives(sheets: str | list[str], wanted: str) -> None:
    assert value(sheets) == wanted


def test_a_page_is_dark_if_its_colour_scheme_is() -> None:
    sheet = "[data-md-color-scheme=slate]{color-scheme:dark;--x:a}"
    assert variables_of([sheet], TEAL).dark
    assert not variables_of([sheet], Palette()).dark
