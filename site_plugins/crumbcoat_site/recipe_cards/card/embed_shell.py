"""What surrounds a card in a page of another site."""

from typing import NamedTuple

HOST_SCRIPT = "assets/embed.js"
"""The script for pages of other sites. They name it once and for all, so its address never changes."""

COLOURS = "assets/embed_colours.css"
"""The style sheet with the colours of the site."""


class EmbedShell(NamedTuple):
    """What surrounds such a card: style sheets and module scripts, the site, and the theme's names of its colours.

    A style sheet or script is a path from the root of the site, or an address elsewhere; the first script loads the
    others when somebody touches the card. `body` are the attributes of the page's body, and `dark` the scheme for dark
    pages, empty if the site has none. `site_url` may be empty.
    """

    styles: tuple[str, ...]
    scripts: tuple[str, ...]
    language: str
    site_name: str
    site_url: str
    body: tuple[tuple[str, str], ...]
    dark: str
