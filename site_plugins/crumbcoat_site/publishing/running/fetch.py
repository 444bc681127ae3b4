"""Asks a host for a file as a browser does."""

import gzip
import http.client
import urllib.error
import urllib.request
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field

from crumbcoat_site.publishing.table import bare

_TIMEOUT_S = 30
_ASKED = {"Accept-Encoding": "gzip", "User-Agent": "crumbcoat check"}


@dataclass(frozen=True, slots=True)
class Fetched:
    """An answer; `status` is 0 if there was none, and `reason` says why. `url` is where redirects led."""

    url: str
    status: int
    headers: Mapping[str, str] = field(default_factory=dict)
    content: bytes = b""
    reason: str = ""

    @property
    def kind(self) -> str:
        """The media type, without its parameters."""
        return bare(self.headers.get("content-type", "")).lower()

    @property
    def text(self) -> str:
        """The content as text."""
        return self.content.decode("utf-8", errors="replace")


def fetch(url: str) -> Fetched:
    """Get a file, whatever the host answers."""
    try:
        with urllib.request.urlopen(urllib.request.Request(url, headers=_ASKED), timeout=_TIMEOUT_S) as answer:
            return _read(url, answer)
    except urllib.error.HTTPError as answer:
        with answer:
            return _read(url, answer)
    except (OSError, http.client.HTTPException) as error:
        return Fetched(url, 0, reason=str(getattr(error, "reason", "") or error))


def _read(url: str, answer: http.client.HTTPResponse | urllib.error.HTTPError) -> Fetched:
    names = {name.lower() for name in answer.headers}
    headers = {name: ", ".join(answer.headers.get_all(name, ())) for name in names}
    content = answer.read()
    if headers.get("content-encoding") == "gzip":
        try:
            content = gzip.decompress(content)
        except (OSError, EOFError, zlib.error) as error:
            return Fetched(url, 0, headers, reason=f"its compression is broken: {error}")
    return Fetched(answer.geturl() or url, answer.status or 0, headers, content)
