"""Compares what a host sends with a file with what the table says."""

import re
from collections.abc import Iterator, Mapping, Sequence

from crumbcoat_site.publishing.page_parts import PageParts
from crumbcoat_site.publishing.policy import DIRECTIVES, NOT_IN_PAGES, SELF, digests, sources_in
from crumbcoat_site.publishing.running.fetch import Fetched
from crumbcoat_site.publishing.running.findings import Finding
from crumbcoat_site.publishing.table import HEADERS, WORKER, bare, is_compressed, is_embed, is_hashed, type_of

_FILES = "let `crumbcoat build` write the host's files: the option `host` of `publishing`"
_LEAST_COMPRESSED_BYTES = 1500
_LONG_S = 7 * 24 * 3600
_SHORT_S = 3600
_AS_GOOD = {
    "text/javascript": {"application/javascript", "application/x-javascript"},
    "application/xml": {"text/xml"},
    "application/atom+xml": {"application/xml", "text/xml"},
    "application/feed+json": {"application/json"},
    "application/yaml": {"text/yaml", "text/x-yaml", "application/x-yaml", "text/plain"},
    "application/zip": {"application/x-zip-compressed"},
    "application/gzip": {"application/x-gzip"},
    "image/vnd.microsoft.icon": {"image/x-icon"},
}
_NEEDED = {"text/html", "text/css", "text/javascript", "application/wasm", "image/svg+xml"}
"""Types without which a browser does not use a file."""


def header_findings(path: str, fetched: Fetched) -> Iterator[Finding]:
    """What is wrong with the headers of a file.

    Args:
        path: of the file, from the root of the site; a folder's is that of its index.html.
        fetched: what the host sent.
    """
    wanted = bare(type_of(path))
    if fetched.kind != wanted and fetched.kind not in _AS_GOOD.get(wanted, set()):
        ending = path.rpartition(".")[2]
        yield Finding(
            fetched.url,
            f"it comes as {fetched.kind or 'nothing'}, and is {wanted}",
            f"let the host send .{ending} as {wanted}, or {_FILES}",
            is_warning=wanted not in _NEEDED,
        )
    if (
        is_compressed(path)
        and len(fetched.content) > _LEAST_COMPRESSED_BYTES
        and "content-encoding" not in fetched.headers
    ):
        yield Finding(fetched.url, "it is not compressed", f"turn compression on, or {_FILES}", is_warning=True)
    yield from _cache(path, fetched)
    for name, value in HEADERS.items():
        if name.lower() not in fetched.headers:
            yield Finding(fetched.url, f"the header {name} is missing", f"send `{name}: {value}`, or {_FILES}", True)


def policy_findings(path: str, fetched: Fetched, page: PageParts) -> Iterator[Finding]:
    """What is wrong with the security policy of a page, and what in the page it refuses."""
    sent = fetched.headers.get("content-security-policy", "")
    if not sent and not page.policy:
        yield Finding(fetched.url, "it has no security policy", f"{_FILES}; `pages` puts it into the pages themselves")
        return
    policies = [sources_in(text) for text in (*sent.split(","), page.policy) if text.strip()]
    yield from _frames(path, fetched, policies)
    for directive, wanted in DIRECTIVES.items():
        if directive in NOT_IN_PAGES and not sent:
            continue
        if directive == "frame-ancestors":
            continue
        given = [policy[directive] for policy in policies if directive in policy]
        fallback = "default-src" if directive.endswith("-src") else directive
        given = given or [policy[fallback] for policy in policies if fallback in policy]
        loose = {"*", "'unsafe-inline'", "'unsafe-eval'", "data:", "http:", "https:", "blob:"} - set(wanted)
        if not given:
            yield Finding(fetched.url, f"its security policy has no {directive}", _FILES)
        elif all(loose & set(sources) for sources in given):
            yield Finding(fetched.url, f"its security policy allows {directive} {' '.join(given[0])[:60]}", _FILES)
    for policy in policies:
        for directive, texts in (("script-src", page.scripts), ("style-src", page.styles | page.style_attributes)):
            sources = policy.get(directive, policy.get("default-src"))
            refused = set(digests(texts)) - set(sources or ())
            if sources is not None and refused and "'unsafe-inline'" not in sources:
                what = "inline script" if directive == "script-src" else "inline style"
                yield Finding(
                    fetched.url,
                    f"its security policy refuses an {what} of the page",
                    "build and upload the whole site again",
                )
    for line, attribute in page.handlers:
        yield Finding(f"{fetched.url}:{line}", f"its security policy blocks `{attribute}`", "move it to a script file")


def _frames(path: str, fetched: Fetched, policies: Sequence[Mapping[str, Sequence[str]]]) -> Iterator[Finding]:
    """Whether pages of other sites can show a card, and only a card; or this site alone, as our files say it.

    Source:
        HTML Standard, "The `X-Frame-Options` header": it counts only where no policy in a header has frame-ancestors.
    """
    given = [sources for policy in policies if (sources := policy.get("frame-ancestors")) is not None]
    by_option = fetched.headers.get("x-frame-options", "")
    if not is_embed(path):
        if fetched.headers.get("content-security-policy") and not given and not by_option:
            yield Finding(fetched.url, "its security policy has no frame-ancestors", _FILES)
    elif given != [(SELF,)] and any("*" not in sources for sources in given):
        yield Finding(fetched.url, "its security policy keeps other sites from showing this card in a frame", _FILES)
    elif by_option and not given:
        remedy = f"send no X-Frame-Options with it, or {_FILES}"
        yield Finding(fetched.url, "its X-Frame-Options keeps other sites from showing this card in a frame", remedy)


def _cache(path: str, fetched: Fetched) -> Iterator[Finding]:
    """A page that is kept too long outlives its files; a file that is kept too short is fetched again and again."""
    kept = fetched.headers.get("cache-control", "")
    found = re.search(r"max-age=(\d+)", kept)
    seconds = int(found[1]) if found and "no-cache" not in kept and "no-store" not in kept else 0
    if path == WORKER:
        if seconds:
            yield Finding(
                fetched.url, f"the service worker is kept for {seconds} s", f"send no-cache, or {_FILES}", True
            )
    elif is_hashed(path):
        if seconds < _LONG_S:
            problem = f"its name changes with its content, and it is kept for {seconds} s only"
            yield Finding(fetched.url, problem, f"let it be kept for a year, or {_FILES}", is_warning=True)
    elif seconds > _SHORT_S:
        yield Finding(fetched.url, f"it is kept for {seconds} s, and may change", f"send max-age=0, or {_FILES}", True)
