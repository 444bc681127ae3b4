"""Addresses within the site."""

import posixpath
from dataclasses import dataclass
from urllib.parse import quote, urlsplit


def relative_address(to: str, start: str) -> str:
    """The address of a page or file as a link on another page has it; what is not a path in the site stays as it is.

    Args:
        to: the path from the root of the site; that of a page ends with `/`, or is empty for the front page.
        start: the path of the page with the link, from the root of the site.

    >>> relative_address("creams/whipped/", "milk-emulsions/veil/"), relative_address("veil/card.json", "")
    ('../../creams/whipped/', 'veil/card.json')
    >>> relative_address("https://fonts.example/serif.css", "milk-emulsions/veil/")
    'https://fonts.example/serif.css'
    """
    parts = urlsplit(to)
    if parts.scheme or parts.netloc or to.startswith("/"):
        return to
    path = posixpath.relpath(to or ".", start or ".")
    return path + "/" if not to or to.endswith("/") else path


@dataclass(frozen=True, slots=True)
class Place:
    """Where the page of a recipe is: the address of the site, empty if that is not known, and the recipe's name.

    Addresses for other programs are absolute; where the site has no address yet they are as a link on the page has it.

    >>> place = Place("https://lantern.example/cards/", "milk/two milks")
    >>> place.part("step-1-1"), place.beside("two milks.jpg")
    ('https://lantern.example/cards/milk/two%20milks/#step-1-1', 'https://lantern.example/cards/milk/two%20milks.jpg')
    >>> Place("", "milk/veil").page, Place("", "milk/veil").beside("veil.jpg")
    ('./', '../veil.jpg')
    """

    site_url: str
    name: str

    @property
    def page(self) -> str:
        """The address of the page."""
        return self.file(f"{self.name}/")

    def part(self, anchor: str) -> str:
        """The address of a part of the page."""
        return f"{self.page}#{anchor}" if self.site_url else f"#{anchor}"

    def beside(self, file: str) -> str:
        """The address of a file beside the recipe file."""
        return self.file(posixpath.join(posixpath.dirname(self.name), file))

    def file(self, path: str) -> str:
        """The address of a file or a page, by its path from the root of the site."""
        return f"{self.site_url}{quote(path)}" if self.site_url else quote(relative_address(path, f"{self.name}/"))
