"""Chromium for the tests: one browser a worker, one page that every test gets as good as new, and first visits."""

import contextlib
import shutil
import time
from collections.abc import Iterator
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Error, Frame, Page, Request, ViewportSize, WebError, expect

from tests.python_host import workers_of

CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
HEADLESS = shutil.which("chromium-headless-shell") or CHROMIUM
"""The same engine without the frame around a page, which costs as much as the page; Debian alone has it."""

FLAGS = (
    "--no-sandbox",
    # A page of a test is gone before it has used what the optimizing compiler makes of Python, and uses a part of it.
    "--js-flags=--liftoff-only --wasm-lazy-compilation",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
SIZE: ViewportSize = {"width": 1280, "height": 720}
"""Of the window, as Playwright opens it."""
LOOPBACK = ("http://127.0.0.1:", "data:", "blob:")

# A busy machine is not a bug: an expectation may take as long as the start of Python.
expect.set_options(timeout=30_000)


@contextlib.contextmanager
def watched(context: BrowserContext) -> Iterator[None]:
    """Afterwards: no request went to another host, and no script broke."""
    foreign: list[str] = []
    broken: list[str] = []

    def look(request: Request) -> None:
        if not request.url.startswith(LOOPBACK):
            foreign.append(request.url)

    def note(error: WebError) -> None:
        broken.append(str(error.error))

    context.on("request", look)
    context.on("weberror", note)
    try:
        yield
    finally:
        context.remove_listener("request", look)
        context.remove_listener("weberror", note)
    assert foreign == []
    assert broken == []


@contextlib.contextmanager
def visit(browser: Browser, host: str = "", **context: Any) -> Iterator[Page]:
    """A page of a visitor who was never here; `host` is the address of one that answers for Pyodide."""
    # A test cannot see what a service worker fetches; tests/browser/test_offline.py has contexts with one.
    visitor = browser.new_context(service_workers="block", **context)
    visitor.add_init_script(workers_of(host))
    with watched(visitor), contextlib.closing(visitor):
        yield visitor.new_page()


class SharedPage:
    """One page for many tests: opening a new one takes more time than most tests do.

    What a test leaves behind is cleared: storage, permissions, routes, scripts that run before those of the page, the
    window's size, the media that are emulated. What would stay is refused: a clock that the test turns. A test that
    needs it is marked `newcomer` and gets a page of its own, and so does one in which a first visit matters.

    With `clock=True` it is a page whose clock each test turns; it is not set back, and goes on from where it is.

    Python starts at the first touch here, as it does for a visitor who saves data, and not in every page that is idle.
    It is the Python of `host` on the pages that are served there, and Pyodide on those of other hosts.
    """

    def __init__(self, browser: Browser, host: str, *, clock: bool = False, **context: Any) -> None:
        self.context = browser.new_context(service_workers="block", **context)
        self.context.add_init_script(workers_of(host))
        self.page = self.context.new_page()
        self._size = self.page.viewport_size or SIZE
        self._origins: set[str] = set()
        self.page.on("framenavigated", self._note)
        self._chromium = self.context.new_cdp_session(self.page)
        self._chromium.send("Emulation.setDataSaverOverride", {"dataSaverEnabled": True})
        self._chromium.send("Page.enable")  # Without this it runs no scripts of ours.
        self._scripts: list[str] = []
        self.page.add_init_script = self._add_script  # type: ignore[assignment, method-assign]
        if clock:
            self.page.clock.install()
        self.page.clock.install = _refuse  # type: ignore[method-assign]

    def _add_script(self, script: str) -> None:
        """Playwright's own cannot be taken back."""
        added = self._chromium.send("Page.addScriptToEvaluateOnNewDocument", {"source": script})
        self._scripts.append(added["identifier"])

    def _note(self, frame: Frame) -> None:
        if frame.url.startswith("http:"):
            self._origins.add("/".join(frame.url.split("/")[:3]))

    def clear(self) -> None:
        """Back to an empty page, as a visitor has it who was never here."""
        page = self.page
        page.unroute_all(behavior="ignoreErrors")
        if page.url.startswith("http:"):
            page.evaluate("localStorage.clear(), sessionStorage.clear()")  # What is on its way to the disk too.
        while self._scripts:
            self._chromium.send("Page.removeScriptToEvaluateOnNewDocument", {"identifier": self._scripts.pop()})
        page.goto("about:blank")
        for origin in self._origins:
            self._chromium.send("Storage.clearDataForOrigin", {"origin": origin, "storageTypes": "all"})
        self._origins.clear()
        self.context.clear_permissions()
        self.context.set_offline(False)
        page.emulate_media(media="null", color_scheme="null", reduced_motion="null")
        page.set_viewport_size(self._size)


def _wait_for_function(page: Page | Frame, expression: str, *, arg: Any = None, timeout: float = 30_000) -> None:
    """Waits until an expression is true in a page, or a function in it gives what is.

    Playwright's own evaluates the text again and again from a script in the page, which a strict policy refuses.
    """
    until = time.monotonic() + timeout / 1000
    value = f"const it = ({expression}); return Boolean(await (it instanceof Function ? it(arg) : it));"
    while True:
        try:
            if page.evaluate(f"async (arg) => {{ {value} }}", arg):
                return
        except Error as error:
            if "Execution context was destroyed" not in str(error):
                raise
        if time.monotonic() > until:
            raise TimeoutError(f"not true in {timeout / 1000:g} s: {expression}")
        page.wait_for_timeout(20)


Page.wait_for_function = _wait_for_function  # type: ignore[assignment, method-assign]
Frame.wait_for_function = _wait_for_function  # type: ignore[assignment, method-assign]


def _refuse(*_: object, **__: object) -> None:
    raise AssertionError("the next test would have this too: mark this one `newcomer`")
