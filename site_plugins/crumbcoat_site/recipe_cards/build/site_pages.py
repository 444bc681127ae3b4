"""What all pages of a site have in common, whoever put it there."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SitePages:
    """The style sheets and module scripts of every page, and the language, name and address of the site.

    A style sheet or script is a path from the root of the site, or an address elsewhere; `url` may be empty.
    """

    styles: tuple[str, ...]
    modules: tuple[str, ...]
    language: str
    name: str
    url: str
