"""What every measurement in a browser needs: the built site, a bare Pyodide for comparison, a web host, Chromium."""

import functools
import gzip
import http.server
import shutil
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO, ClassVar

from crumbcoat_site.calculators.artefacts import PYODIDE
from playwright.sync_api import Browser, Playwright

ROOT = Path(__file__).parents[1]
FOLDER = ROOT / ".cache" / "bench"
RECIPE = "buttercreams/custard-buttercream/"
"""The page of the demo site that is measured."""

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
BARE = """<!doctype html><title>bare</title><script type="module">
globalThis.begin = async () => {
  const { loadPyodide } = await import("./pyodide.mjs");
  const pyodide = await loadPyodide();
  return pyodide.runPython("1+1");
};
</script>"""
CORE = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")


class _Host(http.server.SimpleHTTPRequestHandler):
    """A plain web host: it keeps connections open, allows caching for an hour, and sends packed versions of files."""

    protocol_version = "HTTP/1.1"
    extensions_map: ClassVar = {**http.server.SimpleHTTPRequestHandler.extensions_map, ".mjs": "text/javascript"}

    def send_head(self) -> BinaryIO | None:
        packed = Path(self.translate_path(self.path) + ".gz")
        if not packed.is_file():
            return super().send_head()
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(self.path))
        self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(packed.stat().st_size))
        self.end_headers()
        return packed.open("rb")

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "max-age=3600")
        super().end_headers()

    def log_message(self, *_: object) -> None:
        pass


@contextmanager
def hosted() -> Iterator[str]:
    """Serve `site/` (the demo site) and `bare/` from loopback while the block runs; yields the address."""
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Host, directory=str(FOLDER)))
    server.daemon_threads = True
    threading.Thread(target=server.serve_forever, daemon=True).start()
    address = f"http://127.0.0.1:{server.server_port}/"
    shutil.rmtree(FOLDER, ignore_errors=True)
    (FOLDER / "bare").mkdir(parents=True)
    for name in CORE:
        content = (PYODIDE / name).read_bytes()
        (FOLDER / "bare" / name).write_bytes(content)
        # The bare page is sent as a compressing host would send it; ours does not need one.
        (FOLDER / "bare" / f"{name}.gz").write_bytes(gzip.compress(content, 9))
    (FOLDER / "bare" / "index.html").write_text(BARE, encoding="utf-8")
    mkdocs = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--strict", "--site-dir", str(FOLDER / "site")]
    subprocess.run(mkdocs, cwd=ROOT, check=True)
    try:
        yield address
    finally:
        server.shutdown()
        server.server_close()


def chromium_path() -> str:
    """The path of the installed Chromium."""
    path = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if path is None:
        raise SystemExit("bench: Chromium is not installed\n    Fix: install it (on Debian: apt install chromium)")
    return path


@contextmanager
def chromium(playwright: Playwright) -> Iterator[Browser]:
    """The installed Chromium."""
    browser = playwright.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
    try:
        yield browser
    finally:
        browser.close()
