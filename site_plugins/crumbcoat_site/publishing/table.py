"""The one table of what a host sends with each file: headers, cache, types and compression, by the path in the site."""

import re
from collections.abc import Mapping

from crumbcoat_site.publishing.policy import Policy

HEADERS: Mapping[str, str] = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "strict-origin-when-cross-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
    "Cross-Origin-Opener-Policy": "same-origin",
}
"""With every file, beside the policy."""

FOR_EVER = "public, max-age=31536000, immutable"
ASK = "public, max-age=0, must-revalidate"
NEVER = "no-cache"
"""How long a browser keeps a file: one whose name changes with its content for a year without asking; any other until
the host says that it has changed; the service worker not at all without asking, nor in a cache on the way."""

WORKER = "sw.js"

HASHED = r"assets/(.*[./-])?[0-9a-f]{8,64}[./]"
"""A file with a digest of its content in its address, as an expression from the root of the site."""

EMBED = r"(.*/)?embed/(index\.html)?"
"""A card for pages of other sites, as an expression for a whole path."""

TYPES: Mapping[str, str] = {
    "html": "text/html; charset=utf-8",
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "mjs": "text/javascript; charset=utf-8",
    "json": "application/json",
    "map": "application/json",
    "webmanifest": "application/manifest+json",
    "xml": "application/xml",
    "txt": "text/plain; charset=utf-8",
    "yaml": "application/yaml",
    "yml": "application/yaml",
    "csv": "text/csv; charset=utf-8",
    "md": "text/markdown; charset=utf-8",
    "svg": "image/svg+xml",
    "png": "image/png",
    "jpg": "image/jpeg",
    "jpeg": "image/jpeg",
    "webp": "image/webp",
    "avif": "image/avif",
    "gif": "image/gif",
    "ico": "image/vnd.microsoft.icon",
    "woff": "font/woff",
    "woff2": "font/woff2",
    "mp4": "video/mp4",
    "webm": "video/webm",
    "mp3": "audio/mpeg",
    "pdf": "application/pdf",
    "wasm": "application/wasm",
    "bin": "application/octet-stream",
    "zip": "application/zip",
    "gz": "application/gzip",
}
"""The media type of each ending."""

FEEDS: Mapping[str, str] = {"feed.xml": "application/atom+xml", "feed.json": "application/feed+json"}
"""Files whose type does not follow from their ending."""

COMPRESSED = (
    "text/html",
    "text/css",
    "text/javascript",
    "text/plain",
    "text/csv",
    "text/markdown",
    "application/json",
    "application/manifest+json",
    "application/xml",
    "application/atom+xml",
    "application/feed+json",
    "application/yaml",
    "image/svg+xml",
)
"""Types that a host compresses. Pictures and fonts are packed in themselves, and the interpreter by the build."""

_UNKNOWN = "application/octet-stream"


def type_of(path: str) -> str:
    """The media type of a file.

    >>> type_of("feed.json"), type_of("assets/runtime/01234567/pyodide.mjs")
    ('application/feed+json', 'text/javascript; charset=utf-8')
    """
    return FEEDS.get(path) or TYPES.get(path.rpartition(".")[2].lower(), _UNKNOWN)


def bare(kind: str) -> str:
    """A media type without its parameters.

    >>> bare("text/css; charset=utf-8")
    'text/css'
    """
    return kind.partition(";")[0].strip()


def cache_of(path: str) -> str:
    """How long a browser keeps a file.

    >>> cache_of("assets/recipe_cards/ca088d2d303e/reader.js") == FOR_EVER
    True
    >>> cache_of("index.html") == ASK, cache_of("assets/embed.js") == ASK, cache_of("sw.js") == NEVER
    (True, True, True)
    """
    if path == WORKER:
        return NEVER
    return FOR_EVER if is_hashed(path) else ASK


def is_hashed(path: str) -> bool:
    """Whether the address of a file changes with its content."""
    return re.match(HASHED, path) is not None and not path.endswith(".html")


def is_compressed(path: str) -> bool:
    """Whether a host compresses a file."""
    return bare(type_of(path)) in COMPRESSED


def is_embed(path: str) -> bool:
    """Whether a file is a card for pages of other sites."""
    return re.fullmatch(EMBED, path) is not None


def headers_of(path: str, policy: Policy) -> dict[str, str]:
    """All that a host sends with a file beside its length and date.

    Args:
        path: of the file, from the root of the site.
        policy: that of the site.
    """
    return {
        "Content-Security-Policy": policy.text(framed=is_embed(path)),
        **HEADERS,
        "Cache-Control": cache_of(path),
        "Content-Type": type_of(path),
    }
