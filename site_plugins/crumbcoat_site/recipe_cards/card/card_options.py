"""What the site decides about all of its cards."""

from typing import NamedTuple

from crumbcoat_site.recipe_cards.card.embed_shell import EmbedShell

NO_ADDRESS = (
    "the site has no address, so what its cards say to search engines has relative addresses, and handouts have no "
    "code that opens the live card.\n    Fix: give the address of the finished site, such as `site_url: https://example.org/`."
)


class CardOptions(NamedTuple):
    """The page that explains the models, from the root of the site, if any; whether cost is shown; the region, if any.

    `notebooks`: whether the notebook of every recipe is shown, not only of those whose author makes it public.
    `trials`: whether a batch can be kept as a trial on its card. `site_url` is the address of the site, if it is known,
    and `language` its language. `embed`: what surrounds a card in a frame; None if it is in none. `to_copy`: whether
    it has lines that put it into pages of other sites.
    """

    models_url: str | None
    show_cost: bool
    region: str | None = None
    notebooks: bool = False
    trials: bool = False
    site_url: str = ""
    language: str = "en"
    embed: EmbedShell | None = None
    to_copy: bool = False
