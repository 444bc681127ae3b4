"""Serves a built site from loopback as its host will: with the table's headers, compressed, and with the 404 page."""

import gzip
import http.server
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from email.utils import formatdate, parsedate_to_datetime
from http import HTTPStatus
from pathlib import Path
from urllib.parse import quote, unquote, urlsplit

from crumbcoat_site.publishing.built_site import policy_of_folder
from crumbcoat_site.publishing.policy import Policy
from crumbcoat_site.publishing.site_files import Allowed
from crumbcoat_site.publishing.table import headers_of, is_compressed

_MARKS = ("", "index.html", "404.html", "sw.js")
_NOT_FOUND_PAGE = "404.html"


@dataclass(frozen=True, slots=True)
class Response:
    """What a host answers."""

    status: HTTPStatus
    headers: Mapping[str, str]
    content: bytes = b""


class PublishedSite:
    """A folder with a built site, below a path of its host; the policy is read again when the site was built again."""

    def __init__(
        self, folder: Path, root: str = "/", allowed: Allowed | None = None, *, compresses: bool = True
    ) -> None:
        self.folder = folder
        self.root = root
        self._compresses = compresses
        self._allowed = allowed
        self._seen: tuple[object, ...] = ()
        self._policy: Policy | None = None

    @property
    def policy(self) -> Policy:
        """That of the site as it is now."""
        found = (self.folder / mark for mark in _MARKS)
        seen = tuple((path.stat().st_mtime_ns, path.stat().st_ino) if path.exists() else None for path in found)
        if self._policy is None or seen != self._seen:
            self._policy, self._seen = policy_of_folder(self.folder, self._allowed), seen
        return self._policy

    def response(self, target: str, asked: Mapping[str, str]) -> Response:
        """The answer to a request.

        Args:
            target: the path, as in the first line of the request.
            asked: the headers of the request, by name in small letters.
        """
        path = unquote(urlsplit(target).path)
        if self.root != "/" and path in ("/", self.root.rstrip("/")):
            return Response(HTTPStatus.FOUND, {"Location": self.root})
        name = path.removeprefix(self.root).lstrip("/")
        parts = name.split("/")
        if not path.startswith(self.root) or any(part.startswith(".") or "\0" in part for part in parts):
            return self._not_found(asked)
        if (self.folder / name).is_dir() and not path.endswith("/"):
            return Response(HTTPStatus.MOVED_PERMANENTLY, {"Location": quote(f"{path}/")})
        name = f"{name}index.html" if path.endswith("/") else name
        return self._file(name, asked) if (self.folder / name).is_file() else self._not_found(asked)

    def _file(self, name: str, asked: Mapping[str, str]) -> Response:
        file = self.folder / name
        headers = headers_of(name, self.policy)
        headers["Last-Modified"] = formatdate(int(file.stat().st_mtime), usegmt=True)
        since = asked.get("if-modified-since", "")
        if since and _is_same(since, headers["Last-Modified"]):
            return Response(HTTPStatus.NOT_MODIFIED, headers)
        return self._with(HTTPStatus.OK, headers, name, asked)

    def _not_found(self, asked: Mapping[str, str]) -> Response:
        headers = headers_of(_NOT_FOUND_PAGE, self.policy)
        headers["Cache-Control"] = "no-store"
        if not (self.folder / _NOT_FOUND_PAGE).is_file():
            return Response(HTTPStatus.NOT_FOUND, headers)
        return self._with(HTTPStatus.NOT_FOUND, headers, _NOT_FOUND_PAGE, asked)

    def _with(self, status: HTTPStatus, headers: dict[str, str], name: str, asked: Mapping[str, str]) -> Response:
        content = (self.folder / name).read_bytes()
        if self._compresses and is_compressed(name):
            headers["Vary"] = "Accept-Encoding"
            if "gzip" in asked.get("accept-encoding", ""):
                headers["Content-Encoding"] = "gzip"
                content = gzip.compress(content, 6, mtime=0)
        return Response(status, headers, content)


class SiteHandler(http.server.BaseHTTPRequestHandler):
    """Hands the requests of a browser to a site."""

    def __init__(self, *args: object, site: PublishedSite) -> None:
        self._site = site
        super().__init__(*args)  # type: ignore[arg-type]

    def do_GET(self) -> None:
        """Answer with head and content."""
        self._answer(with_content=True)

    def do_HEAD(self) -> None:
        """Answer with the head alone."""
        self._answer(with_content=False)

    def log_message(self, *_: object) -> None:
        """Say nothing."""

    def _answer(self, with_content: bool) -> None:
        response = self._site.response(self.path, {name.lower(): value for name, value in self.headers.items()})
        self.send_response(response.status)
        for name, value in response.headers.items():
            self.send_header(name, value)
        if response.status != HTTPStatus.NOT_MODIFIED:
            self.send_header("Content-Length", str(len(response.content)))
        self.end_headers()
        if with_content:
            self.wfile.write(response.content)


class SiteServer(http.server.ThreadingHTTPServer):
    """Passes over a page that is left, which breaks off what it was asking for."""

    daemon_threads = True

    def handle_error(self, request: object, client_address: object) -> None:
        """Print what broke, unless it is the connection."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


def _is_same(since: str, modified: str) -> bool:
    try:
        return parsedate_to_datetime(since) >= parsedate_to_datetime(modified)
    except (TypeError, ValueError):
        return False
