"""What surrounds a page that is made for paper: a handout, or the sheets of a notebook."""

import json
from dataclasses import dataclass, replace

from crumbcoat_site.recipe_cards.build.assets import HANDOUT, SHARED, Assets
from crumbcoat_site.recipe_cards.build.site_pages import SitePages


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoutShell:
    """What surrounds such a page: style sheets and module scripts, the site's language and its address.

    A style sheet or script is a path from the root of the site, or an address elsewhere. `several_url` is the page for
    handouts of several recipes, from the root of the site; None if the site has none.
    """

    styles: tuple[str, ...]
    scripts: tuple[str, ...]
    language: str
    site_url: str
    several_url: str | None

    @property
    def key(self) -> str:
        """All of it as one text, for the cache."""
        return json.dumps([self.styles, self.scripts, self.language, self.site_url, self.several_url])

    def for_sheets(self, style: str) -> "HandoutShell":
        """The same without scripts, and with another style sheet of ours in the place of the last one."""
        return replace(self, styles=(*self.styles[:-1], style), scripts=())


def handout_shell(assets: Assets, site: SitePages, several_url: str | None) -> HandoutShell:
    """A handout gets what every page gets, but our sheets and script for handouts in the place of those for cards.

    Args:
        assets: ours.
        several_url: the page for handouts of several recipes, from the root of the site.
    """
    others = [path for path in site.styles if path not in assets.content]
    return HandoutShell(
        styles=(assets.place(SHARED), *others, assets.place(HANDOUT)),
        scripts=(*(path for path in site.modules if path not in assets.content), assets.place("handout.js")),
        language=site.language,
        site_url=site.url,
        several_url=several_url,
    )


NO_SHELL = HandoutShell(styles=(), scripts=(), language="en", site_url="", several_url=None)
"""A page as it is, without a style sheet."""
