"""Settings for every test, and fixtures for those that look at a built site in Chromium, served from here alone."""

import contextlib
import fcntl
import os
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from coverage import Coverage
from crumbcoat_site.calculators.artefacts import PYODIDE, Artefacts, artefacts
from crumbcoat_site.calculators.assets import ASSETS
from crumbcoat_site.calculators.node import node_command, run
from hypothesis import is_hypothesis_test, settings
from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import Browser, Page, Playwright, sync_playwright

from tests.chromium import CHROMIUM, FLAGS, HEADLESS, SharedPage, visit, watched
from tests.hosts import installed, serving
from tests.python_host import serving_python

ROOT = Path(__file__).parents[1]

# No test measures time: a slow machine is not a bug. In CI the same examples are tried each time.
settings.register_profile("crumbcoat", deadline=None, derandomize="CI" in os.environ, max_examples=40)
settings.register_profile("quick", settings.get_profile("crumbcoat"), max_examples=20)
settings.register_profile("full", settings.get_profile("crumbcoat"), max_examples=200)
settings.load_profile("crumbcoat")

Once = Callable[[str, Callable[[Path], object]], Path]
SITE = pytest.StashKey[tuple[Path, str]]()
"""A folder that all workers of a run share, and the address at which its `site` is served."""


# --- which tests


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--full", action="store_true", help="also what is marked `full`: every cell of every matrix")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Marks what needs a browser or the runtime, for `make test-quick`, and leaves out what is marked `full`.

    Coverage pauses while such a test runs: what counts is tried without a browser too, and to measure costs time. It
    pauses in tests of properties too: what makes their examples would be traced as well, and single cases come by the
    same lines.
    """
    for item in items:
        if {"browser", "whole_browser", "engine"} & set(getattr(item, "fixturenames", ())):
            item.add_marker("browser")
            item.add_marker("no_cover")
        if is_hypothesis_test(getattr(item, "obj", None)):
            item.add_marker("no_cover")
        if {"runtime", "pyodide_answers"} & set(getattr(item, "fixturenames", ())):
            item.add_marker("runtime")
    if not config.getoption("full"):
        config.hook.pytest_deselected(items=[item for item in items if item.get_closest_marker("full")])
        items[:] = [item for item in items if not item.get_closest_marker("full")]


@pytest.fixture(scope="session")
def full(pytestconfig: pytest.Config) -> bool:
    """Whether every cell of a matrix is wanted, and not only those that show something of their own."""
    return bool(pytestconfig.getoption("full"))


# --- one run, several workers


def pytest_configure(config: pytest.Config) -> None:
    """The process that starts the workers, or the only one, serves the demo site to all of them."""
    if config.getoption("full"):
        settings.load_profile("full")
    if hasattr(config, "workerinput"):
        folder, address = config.workerinput["site"]
        config.stash[SITE] = Path(folder), address
        return
    stack = contextlib.ExitStack()
    config.add_cleanup(stack.close)
    shared = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="crumbcoat-tests-")))
    config.stash[SITE] = shared, stack.enter_context(serving_python(shared / "site"))


@pytest.hookimpl(optionalhook=True)
def pytest_configure_node(node: Any) -> None:
    """Of pytest-xdist: gives a worker the place of the demo site."""
    folder, address = node.config.stash[SITE]
    node.workerinput["site"] = str(folder), address


@pytest.hookimpl(wrapper=True)
def pytest_collection(session: pytest.Session) -> Iterator[None]:
    """Every worker loads every module; what that runs counts as covered in the first one, and costs others no time."""
    measured = Coverage.current()
    if measured is None or getattr(session.config, "workerinput", {"workerid": "gw0"})["workerid"] == "gw0":
        return (yield)
    measured.stop()
    try:
        return (yield)
    finally:
        measured.start()


@pytest.fixture(scope="session")
def once(pytestconfig: pytest.Config) -> Once:
    """Make a folder of this name, unless another worker has made it; they wait for each other."""
    shared = pytestconfig.stash[SITE][0]

    def made(name: str, make: Callable[[Path], object]) -> Path:
        with (shared / f"{name}.lock").open("a+") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            if not (shared / f"{name}.made").exists():
                make(shared / name)
                (shared / f"{name}.made").touch()
        return shared / name

    return made


# --- sites and the runtime


@pytest.fixture(scope="session")
def serve() -> Iterator[Callable[[Path], str]]:
    """Serve a folder from loopback; gives its address, with a slash at the end."""
    with contextlib.ExitStack() as stack:
        yield lambda folder: stack.enter_context(serving(folder))


@pytest.fixture(scope="session")
def runtime(once: Once) -> Artefacts:
    """The runtime of this tree, made if it is not in the cache."""
    cache = ROOT / ".cache" / "crumbcoat"
    once("runtime", lambda _: artefacts(cache))
    return artefacts(cache)


@pytest.fixture(scope="session")
def site(pytestconfig: pytest.Config, runtime: Artefacts, once: Once) -> tuple[Path, str]:
    """The folder of the demo site, built for the address that it is served at, and that address.

    There the calculators of a page have their answers from the Python of the host: a few tests show in three engines
    that Pyodide gives the same ones, and all others are about the page. At the address `pyodide` it runs.
    """
    address = pytestconfig.stash[SITE][1]

    def make(folder: Path) -> None:
        config = load_config(str(ROOT / "mkdocs.yml"), site_dir=str(folder), site_url=address)
        config.plugins.on_startup(command="build", dirty=False)
        build(config)

    return once("site", make), address


@pytest.fixture(scope="session")
def pyodide(site: tuple[Path, str], serve: Callable[[Path], str]) -> str:
    """Another address of the demo site, at which Pyodide runs."""
    return serve(site[0])


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


# --- Chromium; tests/engines has other browsers


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """There can be only one in a process."""
    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """The Chromium that is installed, without a frame around its pages if there is one."""
    browser = playwright.chromium.launch(executable_path=installed("Chromium", HEADLESS), args=list(FLAGS))
    yield browser
    browser.close()


@pytest.fixture(scope="session")
def whole_browser(playwright: Playwright) -> Iterator[Browser]:
    """The Chromium that readers have, for what the other one cannot do."""
    browser = playwright.chromium.launch(executable_path=installed("Chromium", CHROMIUM), args=list(FLAGS))
    yield browser
    browser.close()


@pytest.fixture(scope="session")
def shared_page(browser: Browser, pytestconfig: pytest.Config) -> SharedPage:
    """See there."""
    return SharedPage(browser, pytestconfig.stash[SITE][1])


@pytest.fixture
def page(request: pytest.FixtureRequest, browser: Browser, pytestconfig: pytest.Config) -> Iterator[Page]:
    """A page as a visitor has it who was never here: the shared one, or of its own for a test marked `newcomer`."""
    if request.node.get_closest_marker("newcomer"):
        with visit(browser, pytestconfig.stash[SITE][1]) as page:
            yield page
        return
    shared = request.getfixturevalue("shared_page")
    with watched(shared.context):
        yield shared.page
        shared.clear()
