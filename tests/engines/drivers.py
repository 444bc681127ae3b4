"""A browser with one page, whichever engine it has: the little that the tests in this folder need of one."""

import contextlib
import json
import os
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager
from typing import Any, Protocol
from urllib.error import HTTPError
from urllib.request import Request, urlopen

from playwright.sync_api import Browser, Playwright

from tests.hosts import installed

PATIENCE_S = 120
"""A busy machine is not a bug."""

SIZE = (900, 740)

CONTROL = "\ue009"
"""The control key, in WebDriver."""


class Engine(Protocol):
    """What is done to a page. A script is one expression; if it gives a promise, its outcome is awaited."""

    prints: bool

    def open(self, address: str) -> None: ...
    def js(self, script: str) -> Any: ...
    def click(self, selector: str) -> None: ...
    def type(self, selector: str, text: str) -> None: ...
    def pdf(self) -> bytes: ...


def until(engine: Engine, script: str) -> Any:
    """Wait until a script gives something that is true, and give that."""
    end = time.monotonic() + PATIENCE_S
    while not (found := engine.js(script)):
        assert time.monotonic() < end, f"this has not become true: {script}"
        time.sleep(0.05)
    return found


class OfPlaywright:
    """Chromium or Firefox."""

    prints = True

    def __init__(self, browser: Browser, **context: Any) -> None:
        width, height = SIZE
        self._page = browser.new_context(viewport={"width": width, "height": height}, **context).new_page()

    def open(self, address: str) -> None:
        self._page.goto(address)

    def js(self, script: str) -> Any:
        return self._page.evaluate(f"() => {script}")

    def click(self, selector: str) -> None:
        self._page.locator(selector).click()

    def type(self, selector: str, text: str) -> None:
        self._page.locator(selector).fill(text)

    def close(self) -> None:
        self._page.context.close()

    def pdf(self) -> bytes:
        # What Playwright 1.64 gives Firefox as inches, Firefox takes as centimetres.
        is_firefox = self._page.context.browser.browser_type.name == "firefox"  # type: ignore[union-attr]
        return self._page.pdf(width="21in", height="29.7in") if is_firefox else self._page.pdf(format="A4")


class OfWebDriver:
    """WebKit, by W3C's WebDriver: JSON over HTTP. It does not print."""

    prints = False

    def __init__(self, driver: str) -> None:
        self._root = driver
        self._root += f"/session/{self._send('session', capabilities={})['sessionId']}"
        self._send("window/rect", width=SIZE[0], height=SIZE[1])
        self._send("timeouts", script=1000 * PATIENCE_S)

    def _send(self, what: str, method: str = "POST", **body: Any) -> Any:
        request = Request(f"{self._root}/{what}", json.dumps(body).encode(), method=method)
        try:
            with urlopen(request) as response:
                return json.load(response)["value"]
        except HTTPError as error:
            with error:
                raise AssertionError(error.read().decode()) from None

    def _element(self, selector: str) -> str:
        # Controls are shown only once the calculators' script has run.
        is_shown = "element?.getClientRects().length && getComputedStyle(element).visibility === 'visible'"
        until(self, f"(element => Boolean({is_shown}))(document.querySelector({json.dumps(selector)}))")
        return f"element/{next(iter(self._send('element', using='css selector', value=selector).values()))}"

    def open(self, address: str) -> None:
        self._send("url", url=address)

    def js(self, script: str) -> Any:
        return self._send("execute/async", script=f"Promise.resolve({script}).then(arguments[0])", args=[])

    def click(self, selector: str) -> None:
        self._send(f"{self._element(selector)}/click")

    def type(self, selector: str, text: str) -> None:
        field = self._element(selector)
        self._send(f"{field}/value", text=f"{CONTROL}a")
        self._send(f"{field}/value", text=text)

    def pdf(self) -> bytes:
        raise NotImplementedError

    def close(self) -> None:
        self._send("window", method="DELETE")


@contextmanager
def firefox(playwright: Playwright) -> Iterator[Engine]:
    """The Firefox that is installed."""
    path = installed("Firefox", shutil.which("firefox-esr") or shutil.which("firefox"))
    browser = playwright.firefox.launch(channel="moz-firefox", executable_path=path)
    yield OfPlaywright(browser)
    browser.close()


@contextmanager
def webkit() -> Iterator[Engine]:
    """WebKitGTK's own small browser, on a screen that nobody sees."""
    driver, xvfb = (installed(name, shutil.which(name)) for name in ("WebKitWebDriver", "Xvfb"))
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    with ExitStack() as stack:
        command = [xvfb, "-displayfd", "1", "-screen", "0", "1280x1024x24", "-nolisten", "tcp"]
        screen = stack.enter_context(_running(command, os.environ))
        display = f":{screen.stdout.readline().decode().strip()}"
        stack.enter_context(_running([driver, f"--port={port}"], {**os.environ, "DISPLAY": display}))
        _wait_for(port)
        engine = OfWebDriver(f"http://127.0.0.1:{port}")
        stack.callback(engine.close)
        yield engine


@contextmanager
def _running(command: list[str], environment: Mapping[str, str]) -> Iterator[Any]:
    with subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as process:
        try:
            yield process
        finally:
            process.terminate()


def _wait_for(port: int) -> None:
    """Until something listens there."""
    end = time.monotonic() + PATIENCE_S
    while True:
        with contextlib.suppress(ConnectionRefusedError), socket.create_connection(("127.0.0.1", port)):
            return
        assert time.monotonic() < end, "WebKit's driver has not started"
        time.sleep(0.05)
