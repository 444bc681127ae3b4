"""Prints every handout of a built site to PDF, with the Chromium on this machine.

python -m crumbcoat_site.recipe_cards.handout.pdf --paper Letter --large
"""

import argparse
import functools
import http.server
import shutil
import sys
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
_FLAGS = ("--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking")
_CHOOSE = """([paper, print]) => {
  const chosen = { paper, print };
  for (const name in chosen) document.querySelector(`[name=${name}]`).value = chosen[name];
}"""


def handouts_in(site: Path) -> list[str]:
    """The addresses of the handouts in a built site, from its root."""
    return sorted(page.parent.relative_to(site).as_posix() + "/" for page in site.rglob("handout/index.html"))


def print_handouts(site: Path, out: Path, paper: str = "A4", large: bool = False) -> list[Path]:
    """Print each handout of the site to a file named for its recipe.

    Args:
        paper: `A4` or `Letter`.

    Raises:
        SystemExit: if there is no site, no handout in it, or no browser.
    """
    addresses = handouts_in(site)
    if not addresses:
        raise SystemExit(f"{site}: there are no handouts.\n    Fix: build the site first, with `make build`.")
    browser_path = next(filter(None, map(shutil.which, BROWSERS)), None)
    if browser_path is None:
        known = f"{', '.join(BROWSERS[:-1])} or {BROWSERS[-1]}"
        raise SystemExit(f"handouts: there is no {known} on this machine.\n    Fix: install Chromium.")
    out.mkdir(parents=True, exist_ok=True)
    made = []
    with _served(site) as root, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_path, args=list(_FLAGS))
        page = browser.new_page()
        for address in addresses:
            made.append(out / f"{address.removesuffix('/handout/').replace('/', '-')}.pdf")
            _print(page, root + address, made[-1], paper, large)
        browser.close()
    return made


def _print(page: Page, address: str, file: Path, paper: str, large: bool) -> None:
    page.goto(address)
    page.evaluate(_CHOOSE, [paper, "large" if large else "normal"])
    page.pdf(path=file, prefer_css_page_size=True)


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        pass


@contextmanager
def _served(site: Path) -> Iterator[str]:
    """Serve the site on this machine, because a page's module scripts do not load from files."""
    handler = functools.partial(_Quiet, directory=str(site))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


def main(arguments: Sequence[str] | None = None) -> None:
    """The command."""
    parser = argparse.ArgumentParser(description="Print every handout of a built site to PDF.")
    parser.add_argument("--site", type=Path, default=Path("site"), help="the built site")
    parser.add_argument("--out", type=Path, default=Path("build/handouts"), help="where the files go")
    parser.add_argument("--paper", choices=("A4", "Letter"), default="A4")
    parser.add_argument("--large", action="store_true", help="large print")
    chosen = parser.parse_args(arguments)
    for file in print_handouts(chosen.site, chosen.out, chosen.paper, chosen.large):
        print(file)


if __name__ == "__main__":
    main(sys.argv[1:])
