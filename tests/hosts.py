"""What a test needs of this machine: browsers that are installed, and a plain web host."""

import contextlib
import functools
import http.server
import os
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest


def installed(browser: str, path: str | None) -> str:
    """The path of a browser; without one the test is skipped, but not in CI."""
    if path is None:
        if os.environ.get("CI"):
            pytest.fail(f"{browser} is not installed; .ci/browsers installs it")
        pytest.skip(f"{browser} is not installed")
    return path


_TYPES = {**http.server.SimpleHTTPRequestHandler.extensions_map, ".mjs": "text/javascript"}


class PlainHost(http.server.SimpleHTTPRequestHandler):
    """Serves files as a plain web host does: no compression, a date to ask about, no log."""

    extensions_map = _TYPES

    def log_message(self, *_: object) -> None:
        pass


class _Host(http.server.ThreadingHTTPServer):
    """Passes over a page that is left, which breaks off what it was asking for."""

    daemon_threads = True

    def handle_error(self, request: object, client_address: object) -> None:
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


@contextlib.contextmanager
def serving(folder: Path, handler: Callable[..., PlainHost] = PlainHost) -> Iterator[str]:
    """Serves a folder from loopback; gives its address, with a slash at the end."""
    with _Host(("127.0.0.1", 0), functools.partial(handler, directory=str(folder))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()
