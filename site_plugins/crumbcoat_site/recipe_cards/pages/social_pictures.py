"""What the social pictures of recipes show, and their colours: those of the site."""

import re
from collections.abc import Iterable, Mapping, Sequence

from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.contrast.check import token_colours
from crumbcoat_site.recipe_cards.contrast.variables import Palette
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage
from crumbcoat_site.recipe_cards.pictures.prepare import Order

_COLOURS: Mapping[str, str] = {
    "paper": "#ffffff",
    "ink": "#222222",
    "quiet": "#5c5c5c",
    "accent": "#4051b5",
    "leaf": "#f3f4fb",
    "butter": "#d9dffa",
    "blush": "#c3c9ec",
}
"""Where a site has no style sheets of Material."""


def social_orders(
    pages: Iterable[RecipePage], site_name: str, palettes: Sequence[Palette], sheets: Sequence[str]
) -> dict[str, Order]:
    """The order of each recipe's social picture, by the path of the recipe file without the ending.

    Its colours are those of cards in the site's first palette, which is the light one of most sites.
    """
    colours = {**_COLOURS, **(token_colours(palettes[0], sheets, _COLOURS) if sheets else {})}
    orders = {}
    drawings: dict[tuple[str, str], list[str]] = {}
    for page in pages:
        kind = page.family, page.made_for
        if kind not in drawings:
            drawn = component("plate", family=page.family, made_for=page.made_for, cover=None)
            drawings[kind] = re.findall(r' d="([^"]*)"', drawn)
        inputs = {
            "title": page.title,
            "family": page.family,
            "site": site_name,
            "fat_percent": None if page.fat_percent is None else round(page.fat_percent, 2),
            "fat_text": page.fat_text,
            "drawing": drawings[kind],
            "colours": colours,
        }
        orders[page.name] = Order(kind="social", file=page.cover_file, inputs=inputs)
    return orders
