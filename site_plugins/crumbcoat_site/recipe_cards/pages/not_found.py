"""The page for an address that is not there: shown at any depth, so its addresses begin at the root of the host."""

from collections.abc import Sequence

from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.pages.recipe_groups import INDEX, Group
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage

NAME = "404.html"
_NEWEST, _GROUPS = 6, 12


def not_found(pages: Sequence[RecipePage], groups: Sequence[Group], root: str, *, with_search: bool) -> str:
    """The search, the newest recipes, and the largest groups.

    Args:
        root: the address of the front page on its host, such as `/` or `/kitchen/`.
        with_search: whether the site has the theme's search, which reads `q` of any address.
    """
    by_title = sorted(pages, key=lambda page: page.title)
    newest = sorted(by_title, key=lambda page: page.published or "", reverse=True)[:_NEWEST]
    largest = sorted(groups, key=lambda group: -len(group.recipes))[:_GROUPS]
    shown = [(group.title, f"{root}{group.url}") for group in largest]
    if groups:
        shown.append(("All groups", f"{root}{INDEX.removesuffix('index.md')}"))
    return component(
        "not_found",
        search=root if with_search else "",
        newest=[(page.title, f"{root}{page.url}", page.family) for page in newest],
        groups=shown,
    )
