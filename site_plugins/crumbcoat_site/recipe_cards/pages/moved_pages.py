"""Pages at addresses that cards had before: each leads on, with what a link carries; and a list of them for hosts."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from pathlib import PurePosixPath
from typing import Protocol
from urllib.parse import quote, urlsplit

from markupsafe import Markup

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.assets import Assets
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.kept_files import CARD_JSON
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage
from crumbcoat_site.recipe_cards.source.source_errors import SourceError

REDIRECTS = "_redirects"
"""The list for static hosts that read one: a line for each old address, with the new one and the status."""

_OF_A_SITE = (
    "404.html", "offline.html", "robots.txt", "sitemap.xml", "sitemap.xml.gz", "feed.xml", "feed.json", "sw.js",
    "site.webmanifest", "search/search_index.json",
)  # fmt: skip
"""What a build may write besides cards and the files of docs_dir, however it comes about."""

_OF_A_CARD = ("index.html", CARD_JSON, "handout/index.html", "embed/index.html")

_PAGE = Markup("""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
{found}
<title>{title} has moved</title>
<script src="{script}" data-to="{to}"></script>
<meta http-equiv="refresh" content="0; url={to}">
</head>
<body><p>This page has moved: <a href="{to}">{title}</a>.</p></body>
</html>
""")


_CANONICAL = Markup('<link rel="canonical" href="{}">')
_NOT_LISTED = Markup('<meta name="robots" content="noindex">')
"""As a handout and a card for other sites have it, where a page leads to one; others name the address of the card."""


def moved_files(
    pages: Iterable[RecipePage], cache: PageCache, assets: Assets, site_url: str, theirs: Collection[str]
) -> dict[str, str | bytes]:
    """What is at old addresses, by its place in the site: a page that leads on, and card.json itself.

    Args:
        assets: among them is the script that leads on with what a link carries.
        theirs: the places of other files of the site, which stay as they are.
    """
    found: dict[str, str | bytes] = {}
    lines = []
    script = assets.place("moved.js")
    start = urlsplit(site_url).path.rstrip("/")
    for page in pages:
        for old in page.moved_from:
            for place, to in _ways(page, old):
                found[place] = cache.path(page.key, CARD_JSON).read_bytes() if to.endswith(".json") else ""
                found[place] = found[place] or _page(page.title, place, to, script, site_url)
                lines.append(f"{start}/{quote(place.removesuffix('index.html'))} {start}/{quote(to)} 301\n")
    if lines:
        found[REDIRECTS] = "".join(lines)
    return {place: content for place, content in found.items() if place not in theirs}


class Moved(Protocol):
    """A recipe whose card may have moved: its name, its title, its earlier addresses and where they are written."""

    @property
    def name(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def moved_from(self) -> Sequence[str]: ...
    @property
    def moved_line(self) -> int: ...
    @property
    def shown(self) -> str: ...


def moved_problems(pages: Iterable[Moved], theirs: Iterable[str]) -> Iterator[SourceError]:
    """Old addresses at which there is something else now.

    Args:
        theirs: the places of all other files of the site.
    """
    pages = list(pages)
    taken = {
        **dict.fromkeys([*_OF_A_SITE, *theirs], "a page or file of the site"),
        **{f"{one.name}/{place}": one.title for one in pages for place in _OF_A_CARD},
    }
    for page in pages:
        for old in page.moved_from:
            place = f"{old}index.html" if old.endswith("/") else old
            around = {place, *map(str, PurePosixPath(place).parents)} & taken.keys()
            inside = [other for other in taken if other.startswith(f"{place}/")]
            if around or inside:
                what = taken[next(iter([*around, *inside]))]
                problem = f"{old!r} in `moved_from` is where {what} is now"
                yield SourceError(page.shown, page.moved_line, problem, "take the address out of the list")
            taken[place] = f"the old address of {page.title}"


def _ways(page: RecipePage, old: str) -> Iterator[tuple[str, str]]:
    """The places at an old address, and the address in the site that each leads to."""
    if not old.endswith("/"):
        yield old, page.url
        return
    yield f"{old}index.html", page.url
    yield f"{old}card.json", f"{page.url}card.json"
    if page.handout:
        yield f"{old}handout/index.html", f"{page.url}handout/"
    if page.embed:
        yield f"{old}embed/index.html", f"{page.url}embed/"


def _page(title: str, place: str, to: str, script: str, site_url: str) -> str:
    folder = place.rpartition("/")[0]
    start = f"{folder}/" if folder else ""
    way = relative_address(quote(to), start)
    is_listed = not to.endswith(("/handout/", "/embed/"))
    found = _CANONICAL.format(f"{site_url}{quote(to)}" if site_url else way) if is_listed else _NOT_LISTED
    return _PAGE.format(title=title, to=way, script=relative_address(script, start), found=found)
