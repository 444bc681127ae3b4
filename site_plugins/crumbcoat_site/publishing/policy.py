"""The security policy of a built site: the strictest that its pages pass, with a digest for what is inline."""

import base64
import hashlib
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import urlsplit

from crumbcoat_site.publishing.page_parts import PageParts

SELF = "'self'"
NONE = "'none'"

DIRECTIVES: Mapping[str, tuple[str, ...]] = {
    "default-src": (NONE,),
    "script-src": (SELF, "'wasm-unsafe-eval'"),
    "style-src": (SELF,),
    "img-src": (SELF, "data:"),
    "media-src": (SELF,),
    "font-src": (SELF,),
    "connect-src": (SELF,),
    "worker-src": (SELF,),
    "manifest-src": (SELF,),
    "base-uri": (NONE,),
    "form-action": (NONE,),
    "frame-ancestors": (NONE,),
}
"""Of every page, before the digests of a site. Python in the browser is WebAssembly, which `'wasm-unsafe-eval'` lets
a browser compile; the theme's icons are `data:` addresses in its style sheets."""

NOT_IN_PAGES = ("frame-ancestors",)
"""What a browser reads in a header only."""


@dataclass(frozen=True, slots=True)
class Policy:
    """The sources that each directive allows, in the order of DIRECTIVES; `around` are those of pages around a card."""

    sources: Mapping[str, tuple[str, ...]]
    around: str = "*"

    def text(self, framed: bool = False) -> str:
        """As a header.

        Args:
            framed: whether the page is a card for a frame.
        """
        return _text({**self.sources, "frame-ancestors": (self.around,)} if framed else self.sources)

    @property
    def text_in_pages(self) -> str:
        """As a page itself can name it, for a host that sends no headers."""
        return _text({name: values for name, values in self.sources.items() if name not in NOT_IN_PAGES})


def policy_of(
    pages: Iterable[PageParts], allowed: Mapping[str, Sequence[str]] | None = None, around: str = "*"
) -> Policy:
    """The policy of a site with these pages.

    It is one for the whole site: where the theme swaps pages in place, inline scripts of one page run in another.

    Args:
        pages: all of them.
        allowed: further sources by directive, as the author of the site names them.
        around: where the pages are from that may show a card in a frame.
    """
    frames = False
    scripts: set[str] = set()
    styles: set[str] = set()
    attributes: set[str] = set()
    for page in pages:
        scripts |= page.scripts
        styles |= page.styles
        attributes |= page.style_attributes
        frames = frames or any(
            found.directive == "frame-src" and not urlsplit(found.address).netloc for found in page.addresses
        )
    sources = dict(DIRECTIVES)
    sources["script-src"] += digests(scripts)
    sources["style-src"] += digests(styles)
    if attributes:
        sources["style-src"] += ("'unsafe-hashes'", *digests(attributes))
    if frames:
        sources["frame-src"] = (SELF,)
    for directive, more in (allowed or {}).items():
        usual = tuple(source for source in sources.get(directive, ()) if source != NONE)
        sources[directive] = (*usual, *more)
    return Policy(sources, around)


def allow_problem(allowed: Mapping[str, object]) -> str:
    """What is wrong with further sources as an author names them, with the fix; nothing if they can be used.

    >>> allow_problem({"frame-src": ["https://video.example"]})
    ''
    >>> allow_problem({"frame-src": ["video"]})
    "'video' is not the address of a host. Fix: write one, such as https://video.example"
    """
    for directive, sources in allowed.items():
        if not re.fullmatch(r"(img|media|font|connect|frame|script|style)-src", directive):
            return f"there is no directive {directive!r}. Fix: write img-src, media-src, frame-src or another"
        if not isinstance(sources, list):
            return f"{directive} is not a list. Fix: write `{directive}: [https://video.example]`"
        for source in sources:
            if not re.fullmatch(r"https?://[\w.*:-]+(/[\w./~-]*)?", str(source)):
                return f"{str(source)!r} is not the address of a host. Fix: write one, such as https://video.example"
    return ""


def digests(texts: Iterable[str]) -> tuple[str, ...]:
    """The sources that allow inline texts.

    Source:
        W3C, Content Security Policy Level 3, section 2.3.1 (hash-source).

    >>> digests(["alert('Hello, world.');"])
    ("'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='",)
    """
    hashed = (base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode() for text in texts)
    return tuple(sorted(f"'sha256-{digest}'" for digest in hashed))


def sources_in(text: str) -> dict[str, tuple[str, ...]]:
    """The directives of a policy as a header has it; of one that is there twice, the first counts.

    >>> sources_in("default-src 'none'; img-src 'self' data:")
    {'default-src': ("'none'",), 'img-src': ("'self'", 'data:')}
    """
    found: dict[str, tuple[str, ...]] = {}
    for directive in text.split(";"):
        name, *values = directive.split() or [""]
        if name:
            found.setdefault(name.lower(), tuple(values))
    return found


def _text(sources: Mapping[str, tuple[str, ...]]) -> str:
    return "; ".join(" ".join((name, *values)) for name, values in sources.items())
