"""What surrounds a handout."""

import json
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoutShell:
    """What surrounds a handout: style sheets and module scripts as paths in the site, its language and its address."""

    styles: tuple[str, ...]
    scripts: tuple[str, ...]
    language: str
    site_url: str

    @property
    def key(self) -> str:
        """All of it as one text, for the cache."""
        return json.dumps([self.styles, self.scripts, self.language, self.site_url])
