"""Bytes that a visitor's browser fetches: until the page is read, and from the first touch until it is live."""

import gzip
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Response

from bench.host import FOLDER, RECIPE
from bench.start import BARE, OURS, SAVING


def measure(browser: Browser, address: str) -> dict[str, dict[str, float]]:
    """Bytes by what is fetched when: as they lie on the host, and as a host that compresses text would send them."""
    page, live = _fetched(browser, f"{address}site/{RECIPE}", OURS)
    _, bare = _fetched(browser, f"{address}bare/", BARE)
    plugin = [path for path in page if "/assets/calculators/" in path.as_posix()]
    table = {
        "page before the first touch": _sizes(page),
        "of which calculators": _sizes(plugin),
        "from touch to live": _sizes(live),
        "bare Pyodide": _sizes(bare),
    }
    ratio = {
        kind: round(table["from touch to live"][kind] / table["bare Pyodide"][kind], 3) for kind in ("as is", "gzip")
    }
    return {**table, "ratio": ratio}


def _fetched(browser: Browser, url: str, script: str) -> tuple[list[Path], list[Path]]:
    """The files behind what one page fetches, before and after the script of `bench.start` begins it."""
    context = browser.new_context()
    context.add_init_script(SAVING)
    page = context.new_page()
    seen: list[str] = []

    def look(response: Response) -> None:
        if response.url.startswith("http") and response.url not in seen:
            seen.append(response.url)

    context.on("response", look)
    page.goto(url, wait_until="networkidle")
    before = len(seen)
    page.evaluate(script)
    page.wait_for_load_state("networkidle")
    context.close()
    return [_file(one) for one in seen[:before]], [_file(one) for one in seen[before:]]


def _file(url: str) -> Path:
    path = FOLDER / urlsplit(url).path.lstrip("/")
    return path / "index.html" if path.is_dir() else path


def _sizes(paths: list[Path]) -> dict[str, float]:
    contents = [path.read_bytes() for path in paths if path.is_file()]
    return {
        "files": len(contents),
        "as is": sum(map(len, contents)),
        "gzip": sum(min(len(content), len(gzip.compress(content, 9))) for content in contents),
    }
