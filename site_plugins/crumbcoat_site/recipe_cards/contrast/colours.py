"""Colours as style sheets write them -> red, green, blue and opacity, and the contrast of two."""

import colorsys
import re
from collections.abc import Callable, Mapping
from math import atan2, cbrt, cos, hypot, radians, sin

Colour = tuple[float, float, float, float]
"""Red, green, blue and opacity, each from 0 to 1."""

_NAMED: Mapping[str, Colour] = {
    "black": (0.0, 0.0, 0.0, 1.0),
    "white": (1.0, 1.0, 1.0, 1.0),
    "transparent": (0.0, 0.0, 0.0, 0.0),
}


class UnknownColourError(ValueError):
    """A colour that is written in a way that is not known here."""


def colour_of(text: str, dark: bool) -> Colour:
    """The colour that a value without variables names.

    Args:
        text: `#fa0`, `hsla(225, 15%, 14%, 1)`, `color-mix(in srgb, …)`, `light-dark(…, …)` or `oklch(from … l c h)`.
        dark: whether the page is dark, for `light-dark`.

    Raises:
        UnknownColourError: if it is written otherwise.

    Source:
        CSS Color Module Level 5 (W3C Working Draft, 2025).

    >>> colour_of("color-mix(in srgb, #000 50%, white)", dark=False)
    (0.5, 0.5, 0.5, 1.0)
    >>> colour_of("light-dark(#fff, #000)", dark=True)
    (0.0, 0.0, 0.0, 1.0)
    """
    text = text.strip().lower()
    if text in _NAMED:
        return _NAMED[text]
    if re.fullmatch(r"#([0-9a-f]{3,4}|[0-9a-f]{6}|[0-9a-f]{8})", text):
        digits = text[1:] if len(text) > 5 else "".join(2 * digit for digit in text[1:])
        red, green, blue, opacity = (int(f"{digits}ff"[at : at + 2], 16) / 255 for at in (0, 2, 4, 6))
        return red, green, blue, opacity
    function, _, rest = text.partition("(")
    if not rest.endswith(")") or function not in _FUNCTIONS:
        raise UnknownColourError(text)
    return _FUNCTIONS[function](rest[:-1], dark)


def over(front: Colour, ground: Colour) -> Colour:
    """A colour painted on an opaque ground."""
    red, green, blue = (
        front[3] * part + (1 - front[3]) * under for part, under in zip(front[:3], ground, strict=False)
    )
    return red, green, blue, 1.0


def hex_of(colour: Colour) -> str:
    """A colour on white as `#rrggbb`.

    >>> hex_of((1.0, 0.5, 0.0, 1.0))
    '#ff8000'
    """
    return "#" + "".join([f"{round(255 * min(1.0, max(0.0, part))):02x}" for part in over(colour, _NAMED["white"])[:3]])


def contrast(front: Colour, ground: Colour) -> float:
    """The contrast ratio of a colour with the opaque ground it is painted on, from 1 to 21.

    Source:
        WCAG 2.2, glossary: contrast ratio, relative luminance.

    >>> round(contrast((0, 0, 0, 1), (1, 1, 1, 1)), 6)
    21.0
    """
    high, low = sorted((_luminance(over(front, ground)), _luminance(ground)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def split_arguments(text: str, separator: str) -> list[str]:
    """The arguments of a function; what is in brackets stays together."""
    parts, depth = [""], 0
    for letter in text.strip():
        depth += (letter == "(") - (letter == ")")
        if depth == 0 and (letter == separator or (separator == " " and letter.isspace())):
            parts.append("")
        else:
            parts[-1] += letter
    return [part.strip() for part in parts if part.strip()]


def _mixed(arguments: str, dark: bool) -> Colour:
    space, *mixed = split_arguments(arguments, ",")
    if space != "in srgb" or len(mixed) != 2:
        raise UnknownColourError(f"color-mix({arguments})")
    shares = [re.search(r"\s([\d.]+)%$", part) for part in mixed]
    first, second = (colour_of(re.sub(r"\s[\d.]+%$", "", part), dark) for part in mixed)
    share = float(shares[0][1]) / 100 if shares[0] else 1 - float(shares[1][1]) / 100 if shares[1] else 0.5
    opacity = share * first[3] + (1 - share) * second[3]
    if not opacity:
        return _NAMED["transparent"]
    red, green, blue = (
        (share * first[3] * one + (1 - share) * second[3] * other) / opacity
        for one, other in zip(first[:3], second, strict=False)
    )
    return red, green, blue, opacity


def _light_or_dark(arguments: str, dark: bool) -> Colour:
    light, otherwise = split_arguments(arguments, ",")
    return colour_of(otherwise if dark else light, dark)


def _hsl(arguments: str, dark: bool) -> Colour:
    hue, saturation, lightness, *opacity = _numbers(arguments)
    red, green, blue = colorsys.hls_to_rgb(hue / 360 % 1, lightness / 100, saturation / 100)
    return red, green, blue, (opacity or [1.0])[0]


def _rgb(arguments: str, dark: bool) -> Colour:
    red, green, blue, *opacity = _numbers(arguments)
    return red / 255, green / 255, blue / 255, (opacity or [1.0])[0]


def _numbers(arguments: str) -> list[float]:
    found = [re.fullmatch(r"(-?[\d.]+)(%|deg)?", part) for part in re.split(r"[\s,/]+", arguments.strip())]
    if not all(found) or len(found) not in (3, 4):
        raise UnknownColourError(arguments)
    return [float(number[1]) for number in found if number]


def _oklch(arguments: str, dark: bool) -> Colour:
    """A colour with another lightness, chroma or hue.

    Source:
        Ottosson, "A perceptual color space for image processing", 2020; CSS Color Module Level 4, sample code.
    """
    word, origin, *channels = split_arguments(arguments, " ")
    if word != "from" or len(channels) != 3:
        raise UnknownColourError(f"oklch({arguments})")
    red, green, blue, opacity = colour_of(origin, dark)
    r, g, b = (_linear(part) for part in (red, green, blue))
    long = cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b)
    middle = cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b)
    short = cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b)
    a_axis = 1.9779984951 * long - 2.4285922050 * middle + 0.4505937099 * short
    b_axis = 0.0259040371 * long + 0.7827717662 * middle - 0.8086757660 * short
    known = {
        "l": 0.2104542553 * long + 0.7936177850 * middle - 0.0040720468 * short,
        "c": hypot(a_axis, b_axis),
        "h": atan2(b_axis, a_axis) * 180 / 3.141592653589793,
    }
    lightness, chroma, hue = (_number(channel, known) for channel in channels)
    return (*_from_oklch(lightness, chroma, radians(hue)), opacity)


def _from_oklch(lightness: float, chroma: float, hue: float) -> tuple[float, float, float]:
    a_axis, b_axis = chroma * cos(hue), chroma * sin(hue)
    long = (lightness + 0.3963377774 * a_axis + 0.2158037573 * b_axis) ** 3
    middle = (lightness - 0.1055613458 * a_axis - 0.0638541728 * b_axis) ** 3
    short = (lightness - 0.0894841775 * a_axis - 1.2914855480 * b_axis) ** 3
    return (
        _curved(4.0767416621 * long - 3.3077115913 * middle + 0.2309699292 * short),
        _curved(-1.2684380046 * long + 2.6097574011 * middle - 0.3413193965 * short),
        _curved(-0.0041960863 * long - 0.7034186147 * middle + 1.7076147010 * short),
    )


def _number(text: str, known: Mapping[str, float]) -> float:
    """A number, a channel of the colour that another is made from, or the least or greatest of several."""
    if text in known:
        return known[text]
    function, _, rest = text.partition("(")
    if function in ("min", "max") and rest.endswith(")"):
        numbers = [_number(part, known) for part in split_arguments(rest[:-1], ",")]
        return min(numbers) if function == "min" else max(numbers)
    try:
        return float(text)
    except ValueError:
        raise UnknownColourError(text) from None


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


def _curved(part: float) -> float:
    """The inverse of `_linear`; what a screen cannot show is shown as far as it can."""
    inside = min(1.0, max(0.0, part))
    return inside * 12.92 if inside <= 0.0031308 else float(1.055 * inside ** (1 / 2.4) - 0.055)


def _luminance(shown: Colour) -> float:
    red, green, blue = (_linear(part) for part in shown[:3])
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


_FUNCTIONS: Mapping[str, Callable[[str, bool], Colour]] = {
    "color-mix": _mixed,
    "light-dark": _light_or_dark,
    "hsl": _hsl,
    "hsla": _hsl,
    "rgb": _rgb,
    "rgba": _rgb,
    "oklch": _oklch,
}
