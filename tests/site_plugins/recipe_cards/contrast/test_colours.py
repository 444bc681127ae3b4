"""Colours as style sheets write them: CSS Color Level 4 and 5, WCAG 2.2."""

import pytest
from crumbcoat_site.recipe_cards.contrast.colours import UnknownColourError, colour_of, contrast, over


def hex_of(text: str, dark: bool = False) -> str:
    return "#" + "".join(f"{round(255 * part):02x}" for part in colour_of(text, dark))


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("#fa0", "#ffaa00ff"),
        ("#fa08", "#ffaa0088"),
        ("#4051B5", "#4051b5ff"),
        ("#000000de", "#000000de"),
        ("transparent", "#00000000"),
        ("rgb(64 81 181)", "#4051b5ff"),
        ("rgba(64, 81, 181, .5)", "#4051b580"),
        # CSS Color 4, 7: the hue of hsl() is in degrees.
        ("hsl(120deg 100% 25%)", "#008000ff"),
        ("hsla(0, 0%, 100%, 1)", "#ffffffff"),
        # CSS Color 5, 3.3: a mix in sRGB weighs the two by their shares and opacities.
        ("color-mix(in srgb, #f00 20%, #fff)", "#ffccccff"),
        ("color-mix(in srgb, #fff, #000 25%)", "#bfbfbfff"),
        ("color-mix(in srgb, #f00 50%, transparent)", "#ff000080"),
        # CSS Color 4, 9.4: white has an OKLCH lightness of 1, and a colour made from itself is itself.
        ("oklch(from #8a1c4a l c h)", "#8a1c4aff"),
        ("oklch(from #8a1c4a 1 0 h)", "#ffffffff"),
        ("oklch(from #000a l c h)", "#000000aa"),
        # CSS Color 4, example 3 in 9.3 and its sample code: oklch(0.627955 0.257683 29.2338) is red.
        ("oklch(from #fff min(l, .627955) max(c, .257683) 29.2338)", "#ff0000ff"),
    ],
)
def test_a_colour_is_read(written: str, shown: str) -> None:
    assert hex_of(written) == shown


def test_light_dark_takes_the_colour_of_the_scheme() -> None:
    written = "light-dark(color-mix(in srgb, #000, #fff), #123456)"
    assert (hex_of(written), hex_of(written, dark=True)) == ("#808080ff", "#123456ff")


UNKNOWN = (
    "", "rebeccapurple", "unset(--x)", "oklab(1 0 0)", "color-mix(in hsl, #000, #fff)", "oklch(.5 .1 20)", "rgb(1, 2)",
    "#12345", "oklch(from #fff calc(l) c h)",
)  # fmt: skip


@pytest.mark.parametrize("written", UNKNOWN)
def test_a_colour_that_is_not_known_is_said_to_be(written: str) -> None:
    with pytest.raises(UnknownColourError):
        colour_of(written, dark=False)


def test_contrast_is_that_of_wcag() -> None:
    """WCAG 2.2: from 1 to 21. Technique G18 gives #777777 on white as too little, and #767676 as just enough."""
    white = colour_of("#fff", False)
    assert contrast(colour_of("#000", False), white) == pytest.approx(21)
    assert contrast(white, white) == pytest.approx(1)
    assert contrast(colour_of("#777777", False), white) < 4.5 < contrast(colour_of("#767676", False), white)


def test_what_is_behind_shows_through() -> None:
    half = over((0.0, 0.0, 0.0, 0.5), (1.0, 1.0, 1.0, 1.0))
    assert half == (0.5, 0.5, 0.5, 1.0)
    assert contrast((0.0, 0.0, 0.0, 0.5), (1.0, 1.0, 1.0, 1.0)) == contrast(half, (1.0, 1.0, 1.0, 1.0))
