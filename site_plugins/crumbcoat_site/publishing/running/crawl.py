"""Walks through a site that is published: every page, every file that one needs, and every link within the site."""

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from urllib.parse import unquote, urldefrag, urljoin, urlsplit

from crumbcoat_site.publishing.page_parts import PageParts, page_parts
from crumbcoat_site.publishing.running.fetch import Fetched, fetch
from crumbcoat_site.publishing.running.findings import Finding
from crumbcoat_site.publishing.running.host_rules import header_findings, policy_findings
from crumbcoat_site.publishing.table import WORKER

_NO_PAGE = "no-such-page-as-this/"
_ALL_OF_IT = "upload all files of the site again"


@dataclass(slots=True)
class Walk:
    """What was seen of a site so far."""

    root: str
    findings: list[Finding] = field(default_factory=list)
    fetched: dict[str, Fetched] = field(default_factory=dict)
    pages: dict[str, PageParts] = field(default_factory=dict)
    waiting: list[tuple[str, str, str]] = field(default_factory=list)
    """Addresses, each with the place that names it and what it is there."""
    anchors: list[tuple[str, str, str]] = field(default_factory=list)
    """Pages, each with the part of it that a place links to."""


def check_published(address: str, get: Callable[[str], Fetched] = fetch) -> tuple[list[Finding], int]:
    """What is wrong with a site that is published, and how many files were looked at.

    Args:
        address: where the site begins.
        get: fetches a file.
    """
    root = address if address.endswith("/") else f"{address}/"
    walk = Walk(root)
    home = get(root)
    if home.status != 200 or home.kind != "text/html":
        answer = f"status {home.status}" if home.status else home.reason
        problem = f"there is no page here ({answer})"
        return [Finding(root, problem, "give the address at which the site begins, with its path")], 1
    walk.root = root = home.url if home.url.endswith("/") else root
    walk.waiting += [(root, root, "the address"), (f"{root}sitemap.xml", root, "the sitemap")]
    walk.waiting.append((f"{root}{WORKER}", root, "the service worker"))
    while walk.waiting:
        url, place, what = walk.waiting.pop(0)
        if url not in walk.fetched:
            walk.fetched[url] = get(url)
            _look(walk, url, place, what)
    _anchors(walk)
    walk.findings += _not_found_page(root, get(f"{root}{_NO_PAGE}"))
    return walk.findings, len(walk.fetched)


def _look(walk: Walk, url: str, place: str, what: str) -> None:
    fetched = walk.fetched[url]
    path = _path(walk.root, url)
    if fetched.status != 200:
        if path != WORKER or fetched.status != 404:  # A site can do without one.
            answer = f"status {fetched.status}" if fetched.status else fetched.reason
            remedy = f"put the address right, or {_ALL_OF_IT}" if what.startswith("a ") else _ALL_OF_IT
            walk.findings.append(Finding(place, f"{what} leads to {url}, which is not there ({answer})", remedy))
        return
    walk.findings += header_findings(path, fetched)
    if fetched.kind == "text/html":
        page = page_parts(fetched.text)
        walk.pages[url] = page
        walk.findings += policy_findings(path, fetched, page)
        _follow(walk, url, page)
    elif path.endswith(".css"):
        for found in re.findall(r"url\(\s*['\"]?(?!data:|#)([^'\")]+)", fetched.text):
            _ask(walk, urljoin(url, found), url, "a style sheet")
    elif path == "sitemap.xml":
        for found in re.findall(r"<loc>([^<]+)</loc>", fetched.text):
            _ask(walk, found.strip(), url, "the sitemap")
    elif path == WORKER:
        for name in _kept_files(fetched.text):
            _ask(walk, urljoin(walk.root, name), url, "the list of what is kept offline")


def _follow(walk: Walk, url: str, page: PageParts) -> None:
    for found in page.addresses:
        address = found.address.strip()
        if urlsplit(address).scheme not in ("", "http", "https") or not address:
            continue
        target, part = urldefrag(urljoin(walk.fetched[url].url, address))
        place = f"{url}:{found.line}"
        if not target.startswith(walk.root):
            continue
        target = target.partition("?")[0]
        _ask(walk, target, place, f"a link ({found.attribute})")
        if part and "=" not in part and not part.startswith(":~:"):
            walk.anchors.append((target, unquote(part), place))


def _ask(walk: Walk, url: str, place: str, what: str) -> None:
    if url.startswith(walk.root) and url not in walk.fetched:
        walk.waiting.append((url, place, what))


def _anchors(walk: Walk) -> None:
    for target, part, place in walk.anchors:
        page = walk.pages.get(target)
        if page is not None and part not in page.ids:
            problem = f"a link leads to #{part} of {target}, and nothing there has that id"
            walk.findings.append(Finding(place, problem, "put the link right, or give a heading that id"))


def _not_found_page(root: str, fetched: Fetched) -> Iterator[Finding]:
    if fetched.status != 404:
        problem = f"a page that is not there has the status {fetched.status or fetched.reason}"
        yield Finding(fetched.url, problem, "let the host answer 404, with 404.html of the site")
    elif 'id="__config"' not in fetched.text:
        problem = "a page that is not there does not look like the site"
        yield Finding(fetched.url, problem, "let the host show 404.html of the site", is_warning=True)


def _kept_files(worker: str) -> list[str]:
    """The files that the service worker keeps, from its first line."""
    found = re.match(r"const SITE = (\{.*\});\n", worker)
    kept = json.loads(found[1]) if found else {}
    return [*kept.get("shell", ()), *kept.get("later", ())]


def _path(root: str, url: str) -> str:
    """The path of a file from the root of the site."""
    path = unquote(url.removeprefix(root).partition("?")[0])
    return f"{path}index.html" if not path or path.endswith("/") else path
