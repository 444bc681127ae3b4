"""The other recipes of a section, below a card."""

from collections.abc import Sequence

from crumbcoat_site.recipe_cards.build.environment import component

MOST = 8
"""How many are named at most: a page must not grow with its folder."""


def more_recipes(section: str, pages: Sequence[tuple[str, str]], here: int) -> str:
    """Links to the pages that come after this one in its section, and then to those from its beginning.

    Args:
        section: its title.
        pages: title and address of each page in it.
        here: which of them this is.
    """
    others = [*pages[here + 1 :], *pages[:here]]
    return component("more_recipes", section=section, pages=others[:MOST]) if others else ""
