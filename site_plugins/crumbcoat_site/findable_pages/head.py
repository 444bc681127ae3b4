"""What the head of a page says of the site around it: its feeds, its place, and whether it is to be found."""

import html
import json
from collections.abc import Mapping, Sequence

from crumbcoat_site.findable_pages.entries import is_findable
from crumbcoat_site.findable_pages.feeds import Site


def feed_links(title: str, atom: str, json_feed: str) -> str:
    """The links to both feeds.

    Args:
        title: the title of the site.
        atom: the address of one of them.
        json_feed: that of the other one.
    """
    kinds = (("application/atom+xml", atom), ("application/feed+json", json_feed))
    return "".join(
        [f'<link rel="alternate" type="{kind}" title="{html.escape(title)}" href="{href}">' for kind, href in kinds]
    )


def robots_meta(meta: Mapping[str, object], page: str) -> str:
    """The element that keeps a page out of search engines, if its front matter asks for that and it has none yet."""
    wanted = not is_findable(meta) and '<meta name="robots"' not in page
    return '<meta name="robots" content="noindex">' if wanted else ""


def breadcrumbs(way: Sequence[tuple[str, str]]) -> str:
    """The pages that lead to a page, and that page itself; nothing for one that no page leads to.

    Args:
        way: title and absolute address of each, the front page first.

    Source:
        schema.org, BreadcrumbList.
    """
    if len(way) < 2:
        return ""
    crumbs = [
        {"@type": "ListItem", "position": place, "name": title, "item": url}
        for place, (title, url) in enumerate(way, 1)
    ]
    return _script({"@context": "https://schema.org", "@type": "BreadcrumbList", "itemListElement": crumbs})


def website(site: Site) -> str:
    """The site itself, for its front page.

    Source:
        schema.org, WebSite.
    """
    data = {
        "@context": "https://schema.org",
        "@type": "WebSite",
        "url": site.url,
        "name": site.title,
        "description": site.description,
        "inLanguage": site.language,
    }
    return _script({name: value for name, value in data.items() if value})


def with_head(page: str, more: str) -> str:
    """The page with more at the end of its head."""
    return page.replace("</head>", f"{more}</head>", 1)


def _script(data: Mapping[str, object]) -> str:
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    return f'<script type="application/ld+json">{text}</script>'
