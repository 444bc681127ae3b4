"""The accents of cards, from the palette that a site sets for Material: readable in every scheme."""

import colorsys
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

ENOUGH_FOR_TEXT = 4.5
"""Contrast of text with its ground, by WCAG 2.2, success criterion 1.4.3."""

GROUNDS: Mapping[str, tuple[str, ...]] = {
    "default": ("#ffffff", "#f6f6f6", "#fff6d6"),
    "slate": ("#1e2129", "#272b36", "#363325"),
}
"""What text is printed on in each of Material's schemes: the page, a panel of a card, a field in use."""

_HUE = "225"
"""Material's own `--md-hue`."""

_TOWARDS = {"default": "#000000", "slate": "#ffffff"}


@dataclass(frozen=True, slots=True)
class Palette:
    """One entry of `theme.palette` in mkdocs.yml, with the names that Material's page carries."""

    scheme: str
    primary: str
    accent: str


def palettes_of(setting: object) -> tuple[Palette, ...]:
    """The entries of `theme.palette`: one mapping or a list of them; what is not set is Material's own choice."""
    entries = [
        entry for entry in (setting if isinstance(setting, Sequence) else [setting]) if isinstance(entry, Mapping)
    ]
    return tuple([_palette(entry) for entry in entries or [{}]])


def accents_css(palettes: Iterable[Palette]) -> str:
    """A style sheet with the accents of cards for each palette; a custom colour is left to the theme's variables."""
    rules = []
    for palette in dict.fromkeys(palettes):
        primary, accent = _named("primary").get(palette.primary), _named("accent").get(palette.accent)
        if palette.scheme not in GROUNDS or primary is None:
            continue
        selector = f'[data-md-color-scheme="{palette.scheme}"][data-md-color-primary="{palette.primary}"]'
        shown, deep = readable(primary, palette.scheme), readable(accent or primary, palette.scheme)
        declarations = f"--cc-accent: {shown}; --cc-accent-deep: {deep};"
        rules.append(f'{selector}[data-md-color-accent="{palette.accent}"] {{ {declarations} }}')
        if not rules[1:]:  # A handout has no theme around it: it takes the first.
            rules.insert(0, f":root {{ {declarations} }}")
    return "\n".join(rules)


def readable(colour: str, scheme: str) -> str:
    """The colour, mixed with black (or white on dark) as little as makes it readable on every ground of the scheme."""
    for step in range(21):
        mixed = _mixed(colour, _TOWARDS[scheme], step / 20)
        if all(contrast(mixed, ground) >= ENOUGH_FOR_TEXT for ground in GROUNDS[scheme]):
            return mixed
    raise AssertionError("black and white can be read on every ground")


def contrast(first: str, second: str) -> float:
    """Contrast ratio of two colours.

    Source:
        WCAG 2.2, glossary.

    >>> round(contrast("#000000", "#ffffff"), 6)
    21.0
    """
    high, low = sorted((_luminance(first), _luminance(second)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def _palette(entry: Mapping[str, object]) -> Palette:
    words = {key: str(entry.get(key, usual)).replace(" ", "-") for key, usual in _USUAL.items()}
    return Palette(**words)


_USUAL = {"scheme": "default", "primary": "indigo", "accent": "indigo"}


@cache
def _named(kind: str) -> Mapping[str, str]:
    """Material's own colours by name, read from the style sheet of the version that is installed."""
    folder = files("material") / "templates" / "assets" / "stylesheets"
    (sheet,) = [file for file in folder.iterdir() if re.fullmatch(r"palette\..*\.css", file.name)]
    rules = re.findall(rf"\[data-md-color-{kind}=([a-z-]+)\]\{{([^}}]*)\}}", sheet.read_text(encoding="utf-8"))
    found: dict[str, str] = {}
    for name, body in rules:
        colour = re.search(rf"--md-{kind}-fg-color:\s*([^;]+)", body)
        if colour:
            found.setdefault(name, _hex(colour[1].strip()))
    return found


def _hex(written: str) -> str:
    """A colour as Material writes it, `#fa0`, `#4051b5` or `hsla(var(--md-hue), 15%, 9%, 1)`, in six digits."""
    if written.startswith("#"):
        return written if len(written) == 7 else "#" + "".join(2 * digit for digit in written[1:])
    hue, saturation, lightness = [
        float(part) for part in re.findall(r"[\d.]+", written.replace("var(--md-hue)", _HUE))[:3]
    ]
    parts = colorsys.hls_to_rgb(hue / 360, lightness / 100, saturation / 100)
    return "#" + "".join(f"{round(255 * part):02x}" for part in parts)


def _luminance(colour: str) -> float:
    channels = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _mixed(colour: str, other: str, share: float) -> str:
    parts = [round((1 - share) * int(colour[n : n + 2], 16) + share * int(other[n : n + 2], 16)) for n in (1, 3, 5)]
    return "#" + "".join(f"{part:02x}" for part in parts)
