"""From a saved recipe file to its page, on a served site of 100 recipes: `crumbcoat serve`, compared with
`mkdocs serve` on the same site, which renders every page again. Beside them, `crumbcoat check` of the demo."""

import os
import re
import signal
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median

from bench.build import ROOT, recipe_name, write_recipes

RECIPES, SAVES = 100, 7
PORT = 8431
COMMANDS = {
    "crumbcoat serve": ["-m", "crumbcoat_site.command", "serve"],
    "mkdocs serve": ["-m", "mkdocs", "serve"],
}


def measure() -> dict[str, dict[str, float]]:
    """Seconds, medians of `SAVES`, and their ratio."""
    table: dict[str, dict[str, float]] = {}
    with tempfile.TemporaryDirectory() as name:
        write_recipes(Path(name), RECIPES)
        site = Path(name) / "ours"
        (site / "docs" / "index.md").write_text("# Home\n\n<!-- crumbcoat: recipe list -->\n")
        for what, command in COMMANDS.items():
            with _serving(site, command) as address:
                times = [_save(site, address, f"{what} {number}") for number in range(SAVES)]
            table[what] = {"median, s": round(median(times), 2), "longest, s": round(max(times), 2)}
    ratio = table["crumbcoat serve"]["median, s"] / table["mkdocs serve"]["median, s"]
    table["crumbcoat serve"]["of mkdocs serve"] = round(ratio, 2)
    with tempfile.TemporaryDirectory() as bytecode:
        checks = [_check(bytecode) for _ in range(1 + SAVES)][1:]
    table["crumbcoat check, 13 recipes"] = {"median, s": round(median(checks), 2), "longest, s": round(max(checks), 2)}
    return table


@contextmanager
def _serving(site: Path, command: list[str]) -> Iterator[str]:
    address = f"http://127.0.0.1:{PORT}/"
    line = [sys.executable, *command, "--dev-addr", f"127.0.0.1:{PORT}"]
    quiet = subprocess.DEVNULL
    with subprocess.Popen(line, cwd=site, stdout=quiet, stderr=quiet, start_new_session=True) as process:
        try:
            _until(address, "Recipe 7")
            yield address
        finally:
            os.killpg(process.pid, signal.SIGTERM)


def _save(site: Path, address: str, words: str) -> float:
    """The time from a save to a page with the words, which are new as its author."""
    name = recipe_name(7)
    source = site / "docs" / name
    text = source.read_text(encoding="utf-8")
    time.sleep(3)  # The build before is over, and so is what it set off.
    begun = time.perf_counter()
    source.write_text(re.sub("author: .*", f"author: {words}", text, count=1), encoding="utf-8")
    _until(f"{address}{name.removesuffix('.yaml')}/", words)
    taken = time.perf_counter() - begun
    source.write_text(text, encoding="utf-8")
    return taken


def _check(bytecode: str) -> float:
    """The time of a check where modules are compiled already, as those of an installed package are after the first."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment = {**kept, "PYTHONPYCACHEPREFIX": bytecode}
    command = [sys.executable, "-m", "crumbcoat_site.command", "check", str(ROOT / "recipes")]
    begun = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True, env=environment)
    return time.perf_counter() - begun


def _until(address: str, words: str) -> None:
    for _ in range(6000):
        try:
            with urllib.request.urlopen(address, timeout=30) as answer:
                if words in answer.read().decode():
                    return
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            pass
        time.sleep(0.02)
    raise RuntimeError(f"{address} never had {words!r}")
