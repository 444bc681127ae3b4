"""Addresses within the site."""

import posixpath


def relative_address(to: str, start: str) -> str:
    """The address of a page or file as a link on another page has it.

    Args:
        to: the address from the root of the site; that of a page ends with `/`, or is empty for the front page.
        start: the address of the page with the link, from the root of the site.

    >>> relative_address("creams/whipped/", "low-fat/veil/"), relative_address("veil/card.json", "")
    ('../../creams/whipped/', 'veil/card.json')
    """
    path = posixpath.relpath(to or ".", start or ".")
    return path + "/" if not to or to.endswith("/") else path
