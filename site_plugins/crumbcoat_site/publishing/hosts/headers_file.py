"""`_headers`, as several hosts of static sites read it: paths, and below each the headers of what it fits.

Such a host compresses, shows 404.html, knows the usual types, and lets browsers ask again for a file without a rule. Of
two rules that fit one file, both count at some hosts, and at others the closer one where both have a header: so no
header is in two rules that do, except the policy of a card for pages of other sites, which is right in both ways.
"""

from collections.abc import Iterable, Iterator
from urllib.parse import quote

from crumbcoat_site.publishing.policy import Policy
from crumbcoat_site.publishing.table import (
    FEEDS,
    FOR_EVER,
    HEADERS,
    NEVER,
    TYPES,
    WORKER,
    is_embed,
    is_hashed,
)

NAME = "_headers"

MOST_EMBEDS = 60
"""For as many cards there are rules of their own: some hosts read no more than 100 rules in all (as they document)."""

_KNOWN_TO_HOSTS = {
    "html",
    "css",
    "js",
    "json",
    "map",
    "png",
    "jpg",
    "jpeg",
    "svg",
    "ico",
    "txt",
    "xml",
    "gz",
    "gif",
    "pdf",
}
"""Endings that need no rule."""


def headers_file(policy: Policy, files: Iterable[str], root: str) -> str:
    """The file's text.

    Cards for pages of other sites are in frames there. A rule cannot take back what another one says, so a site with
    such cards forbids frames by `X-Frame-Options`, which has no effect on a page whose policy has `frame-ancestors`:
    that of a card has. With more such cards than rules that hosts read, all pages may be shown in frames.

    Args:
        policy: that of the site.
        files: of the site, by path.
        root: the path of the site on its host, with a slash at both ends.

    Source:
        HTML Standard, "The `X-Frame-Options` header": a policy with frame-ancestors comes first.
    """
    names = list(files)
    embeds = [name.removesuffix("index.html") for name in names if is_embed(name)]
    rules: list[tuple[str, dict[str, str]]] = [
        (f"{root}*", {**_policy(policy, len(embeds)), **HEADERS}),
        (f"{root}{WORKER}", {"Cache-Control": NEVER}),
    ]
    for name in embeds if len(embeds) <= MOST_EMBEDS else ():
        rules.append((f"{root}{quote(name)}", {"Content-Security-Policy": policy.text(framed=True)}))
    rules += [(f"{root}{quote(place, safe='/*')}", {"Cache-Control": FOR_EVER}) for place in hashed_places(names)]
    for name in names:
        ending = name.rpartition(".")[2]
        kind = FEEDS.get(name) or (TYPES.get(ending) if ending not in _KNOWN_TO_HOSTS else None)
        if kind and not name.startswith("assets/pictures/"):
            rules.append((f"{root}{quote(name)}", {"Content-Type": kind}))
    parts = ["\n".join((path, *(f"  {name}: {value}" for name, value in headers.items()))) for path, headers in rules]
    return "\n".join(parts) + "\n"


def _policy(policy: Policy, embeds: int) -> dict[str, str]:
    """What every page has: how strict it can be follows from the number of cards for pages of other sites."""
    if 0 < embeds <= MOST_EMBEDS:
        return {"Content-Security-Policy": policy.text_in_pages, "X-Frame-Options": "DENY"}
    return {"Content-Security-Policy": policy.text(framed=embeds > 0)}


def hashed_places(files: Iterable[str]) -> list[str]:
    """The files whose address has a digest, as few patterns: a folder that has no other files is one.

    >>> hashed_places(["assets/a/0123abcd/b.js", "assets/a/0123abcd/c.js", "assets/c.0123abcd.js", "assets/d.js"])
    ['assets/a/*', 'assets/c.0123abcd.js']
    """
    names = list(files)
    plain = {folder for name in names if not is_hashed(name) for folder in _folders(name)}
    found: list[str] = []
    for name in names:
        if is_hashed(name):
            alike = (folder for folder in _folders(name) if folder not in plain)
            found.append(next((f"{folder}/*" for folder in alike), name))
    return sorted(set(found))


def _folders(name: str) -> Iterator[str]:
    """The folders around a file, the outermost first."""
    parts = name.split("/")[:-1]
    for count in range(1, len(parts) + 1):
        yield "/".join(parts[:count])
