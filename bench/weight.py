"""Bytes that a visitor's browser fetches for a card: until it is read, and from the first touch until it is live.

`gzip` is what a host that compresses sends. The baselines are pages of plain MkDocs with Material: one holds the card's
own HTML (`plain`), one only its headings and words (`lean`)."""

import gzip
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Request, Response

from bench.baselines import BASELINES, build_baselines
from bench.host import FOLDER, RECIPE
from bench.start import BARE, OURS, SAVING

KINDS = ("as is", "gzip")
SEARCH = "/search_index.json"
"""Not counted: Material fetches the search index of the whole site with every page, ours and plain."""


def measure(browser: Browser, address: str) -> dict[str, dict[str, float]]:
    """Bytes by what is fetched when: as stored on the host, and as sent by a host that compresses text."""
    build_baselines()
    page, ahead, live = _fetched(browser, f"{address}site/{RECIPE}", OURS)
    _, _, bare = _fetched(browser, f"{address}bare/", BARE)
    table = {"page before the first touch": _sizes(page)}
    for which in BASELINES:
        plain, _, _ = _fetched(browser, f"{address}{which}/site/{RECIPE}", "null")
        table[f"{which} Material page"] = _sizes(plain)
        table[f"page over {which}"] = _over(table["page before the first touch"], table[f"{which} Material page"])
    table["kept ahead for use without a network"] = _sizes(ahead)
    table["from touch to live"] = _sizes(live)
    table["bare Pyodide"] = _sizes(bare)
    ratio = {kind: round(table["from touch to live"][kind] / table["bare Pyodide"][kind], 3) for kind in KINDS}
    return {**table, "live over bare": ratio}


def _over(one: dict[str, float], other: dict[str, float]) -> dict[str, float]:
    return {column: one[column] - other[column] for column in one}


def _fetched(browser: Browser, url: str, script: str) -> tuple[list[Path], list[Path], list[Path]]:
    """The files of one visit: of the page, of its service worker in advance, and of a script."""
    context = browser.new_context()
    context.add_init_script(SAVING)
    page = context.new_page()
    seen: dict[str, Request] = {}

    def look(response: Response) -> None:
        if response.url.startswith("http") and not response.url.endswith(SEARCH):
            seen.setdefault(response.url, response.request)

    context.on("response", look)
    page.goto(url, wait_until="networkidle")
    page.wait_for_timeout(1000)
    before = list(seen)
    page.evaluate(script)
    page.wait_for_load_state("networkidle")
    by_worker = {one for one in before if seen[one].service_worker}
    after = [one for one in seen if one not in before]
    context.close()
    return (
        [_file(one) for one in before if one not in by_worker],
        [_file(one) for one in by_worker],
        [_file(one) for one in after],
    )


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
