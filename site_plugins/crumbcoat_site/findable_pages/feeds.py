"""Entries -> the two feeds of a site: Atom, and JSON Feed."""

import html
import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from feedgenerator import Atom1Feed

from crumbcoat_site.findable_pages.entries import Entry

ATOM, JSON_FEED = "feed.xml", "feed.json"
"""Their places in the site."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """What a feed says of the whole site."""

    url: str
    title: str
    description: str
    author: str
    language: str


def atom_feed(site: Site, entries: Sequence[Entry]) -> str:
    """The feed in the Atom format. It changes only when an entry does.

    Source:
        RFC 4287.
    """
    feed = Atom1Feed(
        title=site.title,
        link=site.url,
        description=None,
        subtitle=site.description,
        language=site.language,
        author_name=site.author,
        feed_url=site.url + ATOM,
        feed_guid=site.url,
    )
    for entry in entries:
        feed.add_item(
            title=entry.title,
            link=entry.url,
            unique_id=entry.url,
            description=html.escape(entry.summary),
            content=entry.content,
            author_name=entry.author,
            pubdate=_midnight(entry.published),
            updateddate=_midnight(entry.updated),
            categories=entry.keywords,
        )
    return str(feed.writeString("utf-8"))


def json_feed(site: Site, entries: Sequence[Entry]) -> str:
    """The feed in the JSON Feed format, version 1.1.

    Source:
        jsonfeed.org, version 1.1 (2020).
    """
    content = {
        "version": "https://jsonfeed.org/version/1.1",
        "title": site.title,
        "home_page_url": site.url,
        "feed_url": site.url + JSON_FEED,
        "description": site.description,
        "authors": [{"name": site.author}],
        "language": site.language,
        "items": [_item(entry) for entry in entries],
    }
    return json.dumps({name: value for name, value in content.items() if value or name == "items"}, ensure_ascii=False)


def _item(entry: Entry) -> dict[str, object]:
    content: dict[str, object] = {
        "id": entry.url,
        "url": entry.url,
        "title": entry.title,
        "content_html": entry.content,
        "summary": entry.summary,
        "image": entry.image,
        "date_published": _midnight(entry.published).isoformat(),
        "date_modified": _midnight(entry.updated).isoformat(),
        "authors": [{"name": entry.author}] if entry.author else [],
        "tags": list(entry.keywords),
    }
    return {name: value for name, value in content.items() if value}


def _midnight(day: str) -> datetime:
    return datetime.fromisoformat(day).replace(tzinfo=UTC)
