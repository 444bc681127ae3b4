"""What surrounds a handout."""

import json
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoutShell:
    """What surrounds a handout: style sheets and module scripts, the site's language and its address.

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
