"""Settings for every test, and fixtures for those that look at a built site in Chromium, served from here alone."""

import functools
import http.server
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import ClassVar

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, Page, Request, sync_playwright

# No test measures time: a slow machine is no bug. In CI the same examples are tried each time.
settings.register_profile("crumbcoat", deadline=None, derandomize="CI" in os.environ)
settings.load_profile("crumbcoat")

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)


class _Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves files as a plain web host does: no compression, a date to ask about, no log."""

    extensions_map: ClassVar = {**http.server.SimpleHTTPRequestHandler.extensions_map, ".mjs": "text/javascript"}

    def log_message(self, *_: object) -> None:
        pass


@pytest.fixture(scope="session")
def serve() -> Iterator[Callable[[Path], str]]:
    """Serve a folder from loopback; gives its address, with a slash at the end."""
    servers = []

    def start(folder: Path) -> str:
        server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Quiet, directory=str(folder)))
        server.daemon_threads = True
        threading.Thread(target=server.serve_forever, daemon=True).start()
        servers.append(server)
        return f"http://127.0.0.1:{server.server_port}/"

    yield start
    for server in servers:
        server.shutdown()
        server.server_close()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The Chromium that is installed; without one the test is skipped, but not in CI."""
    if CHROMIUM is None:
        if os.environ.get("CI"):
            pytest.fail("Chromium is not installed; .ci/run installs it")
        pytest.skip("Chromium is not installed")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        yield browser
        browser.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page of a visitor who was never here. Afterwards: no request went to another host, and no script broke."""
    context = browser.new_context()
    foreign: list[str] = []
    broken: list[str] = []

    def look(request: Request) -> None:
        if not request.url.startswith(("http://127.0.0.1:", "data:", "blob:")):
            foreign.append(request.url)

    context.on("request", look)
    page = context.new_page()
    page.on("pageerror", lambda error: broken.append(str(error)))
    yield page
    context.close()
    assert foreign == []
    assert broken == []
