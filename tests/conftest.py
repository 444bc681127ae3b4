"""Settings for every test, and fixtures for those that look at a built site in Chromium, served from here alone."""

import contextlib
import functools
import http.server
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, ClassVar

import pytest
from crumbcoat_site.calculators.artefacts import PYODIDE, Artefacts, artefacts
from crumbcoat_site.calculators.assets import ASSETS
from crumbcoat_site.calculators.node import node_command, run
from hypothesis import settings
from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import Browser, Page, Request, sync_playwright

ROOT = Path(__file__).parents[1]

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
def runtime() -> Artefacts:
    """The runtime of this tree, made if it is not in the cache."""
    return artefacts(ROOT / ".cache" / "crumbcoat")


@pytest.fixture(scope="session")
def pyodide_answers() -> Callable[..., list[str]]:
    """What worker.js answers to requests under Node, with the files of a folder, begun in one of the two ways."""

    def answers(folder: Path, start: str, requests: list[str], browser: str = "") -> list[str]:
        script = ROOT / "tests" / "site_plugins" / "calculators" / "answer.mjs"
        done = run(
            node_command(), script, PYODIDE, folder, ASSETS / "worker.js", start, browser, input="\n".join(requests)
        )
        assert done.returncode == 0, done.stderr
        return done.stdout.splitlines()

    return answers


@pytest.fixture(scope="session")
def site(serve: Callable[[Path], str], tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """The folder of the demo site, built for the address that it is served at, and that address."""
    folder = tmp_path_factory.mktemp("site")
    address = serve(folder)
    config = load_config(str(ROOT / "mkdocs.yml"), site_dir=str(folder), site_url=address)
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    return folder, address


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The Chromium that is installed; without one the test is skipped, but not in CI."""
    if CHROMIUM is None:
        if os.environ.get("CI"):
            pytest.fail("Chromium is not installed; .ci/chromium installs it")
        pytest.skip("Chromium is not installed")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        yield browser
        browser.close()


@contextlib.contextmanager
def visit(browser: Browser, **context: Any) -> Iterator[Page]:
    """A page of a visitor who was never here. Afterwards: no request went to another host, and no script broke."""
    # What a service worker fetches, no test could hold up; tests/browser/test_offline.py has contexts with one.
    visitor = browser.new_context(service_workers="block", **context)
    foreign: list[str] = []
    broken: list[str] = []

    def look(request: Request) -> None:
        if not request.url.startswith(("http://127.0.0.1:", "data:", "blob:")):
            foreign.append(request.url)

    visitor.on("request", look)
    page = visitor.new_page()
    page.on("pageerror", lambda error: broken.append(str(error)))
    yield page
    visitor.close()
    assert foreign == []
    assert broken == []


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page for one test (see `visit`)."""
    with visit(browser) as page:
        yield page
