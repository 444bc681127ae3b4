"""The front matter of a page -> its entry in a feed, and its date in the sitemap."""

import html
import posixpath
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from urllib.parse import quote, urlsplit

from markupsafe import Markup

MOST = 50
"""How many of the newest pages are in a feed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A page in a feed. Addresses are absolute, dates have the year first; the address is the entry's id as well."""

    url: str
    title: str
    summary: str
    published: str
    updated: str
    author: str | None = None
    image: str | None = None
    keywords: tuple[str, ...] = ()

    @property
    def content(self) -> str:
        """The picture and the summary as HTML; without a summary, the title."""
        picture = f'<p><img src="{html.escape(self.image)}" alt="{html.escape(self.title)}"></p>' if self.image else ""
        return f"{picture}<p>{html.escape(self.summary or self.title)}</p>"


class DateProblemError(ValueError):
    """A date in the front matter of a page cannot be used; it says which field, what it has, and what to do."""

    def __init__(self, field: str, written: object) -> None:
        remedy = "write it like `2026-03-31` (ISO 8601)"
        super().__init__(f"{field}: {str(written)!r} is not a date.\n    Fix: {remedy}.")


def entry_of(url: str, title: str, meta: Mapping[str, object], site_url: str) -> Entry | None:
    """The entry of a page; None for one without a date of publication, and for one that is not to be found.

    Args:
        url: its absolute address.
        meta: its front matter.

    Raises:
        DateProblemError: if a date cannot be used.
    """
    published = day_in(meta, "published")
    if published is None or not is_findable(meta):
        return None
    image = meta.get("image")
    keywords = meta.get("keywords")
    return Entry(
        url=url,
        title=title,
        summary=plain(meta.get("description") or ""),
        published=published,
        updated=max(published, day_in(meta, "updated") or published),
        author=plain(meta["author"]) if meta.get("author") else None,
        image=absolute(str(image), site_url) if image else None,
        keywords=tuple([str(word) for word in keywords]) if isinstance(keywords, list) else (),
    )


def newest(entries: Iterable[Entry], today: str) -> list[Entry]:
    """The entries of a feed, the newest first, without those whose day is to come."""
    known = sorted([entry for entry in entries if entry.published <= today], key=lambda entry: entry.url)
    return sorted(known, key=lambda entry: entry.published, reverse=True)[:MOST]


def last_change(meta: Mapping[str, object]) -> str | None:
    """The day of the last change that a page states; None if it states none.

    Raises:
        DateProblemError: if a date cannot be used.
    """
    return max([day for day in (day_in(meta, "published"), day_in(meta, "updated")) if day], default=None)


def is_findable(meta: Mapping[str, object]) -> bool:
    """Whether search engines may list a page: not if its front matter has `robots: noindex`."""
    return "noindex" not in str(meta.get("robots", ""))


def day_in(meta: Mapping[str, object], field: str) -> str | None:
    """The day in a field of the front matter, year first; None without that field.

    >>> day_in({"published": date(2026, 3, 31)}, "published"), day_in({}, "published")
    ('2026-03-31', None)

    Raises:
        DateProblemError: if it is not a date.
    """
    written = meta.get(field)
    if written is None:
        return None
    try:
        found = written if isinstance(written, date) else date.fromisoformat(str(written))
    except ValueError:
        raise DateProblemError(field, written) from None
    return (found.date() if isinstance(found, datetime) else found).isoformat()


def plain(text: object) -> str:
    """A text of a page without the escapes of HTML that another plug-in gave it."""
    return text.unescape() if isinstance(text, Markup) else str(text)


def title_text(title: object) -> str:
    """The title of a page as a browser shows it: one that is found in the text comes as HTML.

    >>> title_text("Tea &amp; story")
    'Tea & story'
    """
    return Markup(title).striptags()


def picture_place(written: str, page: str, files: Collection[str]) -> str | None:
    """The picture of a page from the root of the site; an absolute address stays as it is. None if it is not there.

    >>> picture_place("../figs.jpg", "posts/supper.md", {"figs.jpg"})
    'figs.jpg'

    Args:
        written: the address, or the path of a file from the docs folder or from the page.
        page: the place of the page in the docs folder.
        files: those of the site.
    """
    if urlsplit(written).scheme:
        return written
    beside = posixpath.normpath(posixpath.join(posixpath.dirname(page), written))
    return next((place for place in (written.removeprefix("/"), beside) if place in files), None)


def absolute(address: str, site_url: str) -> str:
    """An address from the root of the site as an absolute one; an absolute one stays as it is.

    >>> absolute("milk/two milks.jpg", "https://lantern.example/cards/")
    'https://lantern.example/cards/milk/two%20milks.jpg'
    """
    return address if urlsplit(address).scheme else site_url + quote(address.removeprefix("/"))
