"""Addresses within the site."""

import posixpath
from urllib.parse import urlsplit


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
