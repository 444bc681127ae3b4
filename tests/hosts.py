"""What a test needs of this machine: browsers that are installed, and a web host."""

import contextlib
import functools
import os
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from crumbcoat_site.publishing.server import PublishedSite, SiteHandler, SiteServer


def installed(browser: str, path: str | None) -> str:
    """The path of a browser; without one the test is skipped, but not in CI."""
    if path is None:
        if os.environ.get("CI"):
            pytest.fail(f"{browser} is not installed; .ci/browsers installs it")
        pytest.skip(f"{browser} is not installed")
    return path


class PlainHost(SiteHandler):
    """Serves files as a published site is served, with the same headers and so under the same security policy."""


@contextlib.contextmanager
def serving(site: Path | PublishedSite, handler: Callable[..., PlainHost] = PlainHost) -> Iterator[str]:
    """Serves a folder or a site from loopback; gives its address, with a slash at the end."""
    site = PublishedSite(site, compresses=False) if isinstance(site, Path) else site
    with SiteServer(("127.0.0.1", 0), functools.partial(handler, site=site)) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()
