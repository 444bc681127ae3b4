"""What surrounds a handout."""

import json
from dataclasses import dataclass
from urllib.parse import urlsplit


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoutShell:
    """What surrounds a handout: style sheets and module scripts, the site's language and its address.

    A style sheet or script is a path from the root of the site, or an address elsewhere.
    """

    styles: tuple[str, ...]
    scripts: tuple[str, ...]
    language: str
    site_url: str

    @property
    def key(self) -> str:
        """All of it as one text, for the cache."""
        return json.dumps([self.styles, self.scripts, self.language, self.site_url])


def address_from(up: str, path: str) -> str:
    """The address of a style sheet or script, as a page has it; `up` is the way from the page to the root of the site.

    >>> address_from("../../", "assets/own.css"), address_from("../../", "https://fonts.example/serif.css")
    ('../../assets/own.css', 'https://fonts.example/serif.css')
    """
    parts = urlsplit(path)
    return path if parts.scheme or parts.netloc or path.startswith("/") else up + path
