"""The colours of a site, light and dark, for a page without the theme."""

import re
from collections.abc import Iterable, Sequence

from crumbcoat_site.recipe_cards.contrast.variables import Palette, Variables, variables_of

_USED = re.compile(r"var\((--[\w-]+)")


def embed_colours(palettes: Sequence[Palette], sheets: Sequence[str], used_in: Iterable[str]) -> str:
    """A style sheet with what the theme and the site set for a card, light and dark, as far as a page needs it.

    Without scripts, the browser's own preference chooses. Paper is light.

    Args:
        palettes: those of the site; the first light one and the first dark one are used.
        sheets: the theme's style sheets and the site's own, in their order.
        used_in: the style sheets of the page.
    """
    texts = [*used_in]
    light, dark = light_and_dark(palettes, sheets)
    properties = _needed(variables_of(sheets, light), texts)
    css = _rule(f'[data-md-color-scheme="{light.scheme}"]', properties)
    if dark is not None:
        others = _needed(variables_of(sheets, dark), texts)
        unscripted = _rule("[data-md-color-scheme][data-unscripted]", others)
        css += _rule(f'[data-md-color-scheme="{dark.scheme}"]', others)
        css += f"@media (prefers-color-scheme:dark){{{unscripted}}}"
    return f"@media screen{{{css}}}@media print{{{_rule('[data-md-color-scheme]', properties)}}}"


def light_and_dark(palettes: Sequence[Palette], sheets: Sequence[str]) -> tuple[Palette, Palette | None]:
    """The first palette for light pages and the first one for dark pages; None if there is only one of the two."""
    dark = [palette for palette in palettes if variables_of(sheets, palette).dark]
    light = [palette for palette in palettes if palette not in dark]
    return (light[0], dark[0] if dark else None) if light else (palettes[0], None)


def _needed(variables: Variables, texts: Iterable[str]) -> dict[str, str]:
    """The properties that the texts use, and those that their values use."""
    found = {"color-scheme": "dark" if variables.dark else "light"}
    names = [name for text in texts for name in _USED.findall(text)]
    while names:
        name = names.pop()
        if name in found or name not in variables.written or name.startswith("--cc-"):
            continue
        found[name] = variables.written[name]
        names += _USED.findall(found[name])
    return dict(sorted(found.items()))


def _rule(selector: str, properties: dict[str, str]) -> str:
    declarations = ";".join(f"{name}:{value}" for name, value in properties.items())
    return f"body{selector}{{{declarations}}}"
