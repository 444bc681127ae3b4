"""Other recipes below a card: those near it by composition, or the others of its section; and its groups."""

from collections.abc import Sequence

from crumbcoat_calc.values.spacing import unbroken_html
from markupsafe import Markup

from crumbcoat_site.recipe_cards.build.environment import component

MOST = 8
"""How many of a section are named at most: a page must not grow with its folder."""


def more_recipes(
    section: str,
    pages: Sequence[tuple[str, str]],
    here: int,
    related: Sequence[tuple[str, str, str]] = (),
    groups: Sequence[tuple[str, str]] = (),
) -> str:
    """Links to related recipes; where there are none, to the pages that come after this one in its section, and then to
    those from its beginning.

    Args:
        section: its title.
        pages: title and address of each page in it.
        here: which of them this is.
        related: title, address and difference of each.
        groups: name and address of each group.
    """
    others = [(title, url, "") for title, url in [*pages[here + 1 :], *pages[:here]]][:MOST]
    shown, title = (related, "Near this one") if related else (others, f"More {section.lower()}")
    if not shown and not groups:
        return ""
    return Markup(unbroken_html(component("more_recipes", title=title, pages=shown, groups=groups)))
