"""`make profile` finds out which functions of the interpreter are entered, and writes runtime/entered.json.

Every calculator is asked what readers and authors could ask, in Node and in each browser's worker, and Python's own
types are put through everything (torture.py). What any of these runs entered is kept. It takes about six minutes
without the tests that `make profile` runs afterwards, and needs all three browsers.
"""

import gzip
import hashlib
import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack, closing
from pathlib import Path
from typing import Any

from crumbcoat_site.calculators.artefacts import PYODIDE, TRIMMED, WHOLE, Artefacts, artefacts
from crumbcoat_site.calculators.assets import ASSETS
from crumbcoat_site.calculators.node import node_command, run
from crumbcoat_site.calculators.trimmed import ENTERED, ranges_of
from playwright.sync_api import sync_playwright

from tests.chromium import CHROMIUM, FLAGS
from tests.engines.drivers import Engine, OfPlaywright, firefox, until, webkit
from tests.hosts import installed, serving
from tests.interpreter.marked import marked
from tests.interpreter.page_forms import forms_of
from tests.interpreter.reader_requests import reader_requests

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
SEED = 1
"""Of the requests in training; those of the gate have another one."""

COUNT = 4_000
IN_BROWSERS = 160
"""The number of requests that each browser answers."""

IPHONE = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko)"
CARD = "buttercreams/custard-buttercream/"
IS_THERE = "document.querySelector('recipe-calculator')?.state !== undefined"
CLIENT = """(() => {
  const script = document.querySelector("script[src$='/calculator.js']").src;
  return import(script.replace("calculator.js", "client.js"));
})()"""
ASKED = """(async () => {
  const { ask, status } = await CLIENT;
  for (const { content, context, ...request } of REQUESTS)
    await ask({ digest: context, content: JSON.stringify(content) }, request);
  return status.way === "snapshot";
})()"""


def main() -> None:
    """Take the profile and write it."""
    with tempfile.TemporaryDirectory() as temporary:
        work = Path(temporary)
        site = work / "site"
        command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--strict", "--site-dir", str(site)]
        subprocess.run(command, cwd=ROOT, check=True)
        runtime = artefacts(ROOT / ".cache" / "crumbcoat")
        folder = _marked_runtime(runtime, work / "runtime")
        requests = [*training_requests(site), *recorded_requests(work)]
        entered = _tortured(folder, work)
        _show("Python's own types", entered, set())
        for browser in ("", "iPhone"):
            entered |= _show(f"Node {browser}", _in_node(folder, browser, requests, work), entered)
        _mark_site(site, runtime, folder)
        for name, engine in _engines(site):
            entered |= _show(name, _in_browser(engine, requests[:IN_BROWSERS]), entered)
    _write(entered)


def training_requests(site: Path) -> Iterator[str]:
    """What readers could send from the pages of a built site."""
    return reader_requests(list(forms_of(site)), SEED, COUNT)


def recorded_requests(work: Path) -> list[str]:
    """What the tests of the calculations ask."""
    file = work / "recorded.jsonl"
    # What Pyodide answers is left out: with the old profile it may fail, which is why a new one is made.
    options = ["-q", "-p", "no:cacheprovider", "-p", "tests.interpreter.record", "--hypothesis-profile=quick"]
    options += ["-k", "not pyodide"]
    command = [sys.executable, "-m", "pytest", *options, "tests/calc", "tests/parity"]
    ran = subprocess.run(command, cwd=ROOT, env={**os.environ, "REQUESTS": str(file)})
    if ran.returncode > 1:  # A test that fails has asked all the same.
        sys.exit(ran.returncode)
    return file.read_text(encoding="utf-8").splitlines()


def _marked_runtime(runtime: Artefacts, folder: Path) -> Path:
    """A copy of the runtime whose fast start takes a file that notes what is entered."""
    shutil.copytree(runtime.folder, folder)
    content = gzip.compress(marked((PYODIDE / WHOLE).read_bytes()), 1)
    for name in (TRIMMED, _interpreter(runtime)):
        (folder / name).write_bytes(content)
    return folder


def _interpreter(runtime: Artefacts) -> str:
    """The file of the fast start: the whole one where the present list does not fit."""
    return next(name for name in runtime.manifest["starts"]["snapshot"] if name.endswith(".wasm"))


def _tortured(folder: Path, work: Path) -> set[int]:
    return _entered_by(work, HERE / "torture.mjs", folder)


def _in_node(folder: Path, browser: str, requests: list[str], work: Path) -> set[int]:
    script = ROOT / "tests" / "site_plugins" / "calculators" / "answer.mjs"
    worker = ASSETS / "worker.js"
    return _entered_by(work, script, PYODIDE, folder, worker, "snapshot", browser, input="\n".join(requests))


def _entered_by(work: Path, *command: str | Path, **options: Any) -> set[int]:
    """The functions that a process of Node enters."""
    file = work / "entered.json"
    hook = f'--import="{(HERE / "entered_in_node.mjs").as_uri()}"'
    environment = {**os.environ, "NODE_OPTIONS": hook, "ENTERED": str(file)}
    # The marked interpreter takes more of the machine's stack, and an iPhone's way has frames of JavaScript in between.
    done = run(node_command(), "--stack-size=3900", *command, env=environment, **options)
    if done.returncode:
        raise SystemExit(f"profile: {command[0]} failed\n{done.stderr[-2000:]}")
    return set(json.loads(file.read_text()))


def _mark_site(site: Path, runtime: Artefacts, folder: Path) -> None:
    """Put the marked file into a built site, and let its worker say with each answer what was entered."""
    name = _interpreter(runtime)
    shutil.copyfile(folder / name, site / runtime.uri / name)
    (worker,) = site.glob("assets/calculators/*/worker.js")
    says = 'addEventListener("message", ({ data }) => data.id && postMessage({ entered: entered() }));'
    worker.write_text((HERE / "entered.js").read_text() + worker.read_text() + says)


def _engines(site: Path) -> Iterator[tuple[str, Engine]]:
    with ExitStack() as stack:
        playwright = stack.enter_context(sync_playwright())
        path = installed("Chromium", CHROMIUM)
        chromium = stack.enter_context(closing(playwright.chromium.launch(executable_path=path, args=list(FLAGS))))
        engines = {
            "Chromium": lambda: closing(OfPlaywright(chromium)),
            "Chromium as an iPhone": lambda: closing(OfPlaywright(chromium, user_agent=IPHONE)),
            "Firefox": lambda: firefox(playwright),
            "WebKit": webkit,
        }
        for name, opened in engines.items():
            with opened() as engine, serving(site) as address:
                engine.open(address + CARD)
                yield name, engine


def _in_browser(engine: Engine, requests: list[str]) -> set[int]:
    until(engine, IS_THERE)
    whole = [json.loads(request) for request in requests if '"content"' in request]
    for first in range(0, len(whole), 20):
        script = ASKED.replace("CLIENT", CLIENT).replace("REQUESTS", json.dumps(whole[first : first + 20]))
        assert engine.js(script), "the memory image failed"
    found = until(engine, f"(async () => (await {CLIENT}).status.entered)()")
    return set(found)


def _show(run_name: str, found: set[int], before: set[int]) -> set[int]:
    print(f"{run_name:24} entered {len(found):5} functions, {len(found - before):4} of them new", flush=True)
    return found


def _write(entered: set[int]) -> None:
    ranges = ranges_of(entered).split()
    profile = {
        "about": "The functions of Pyodide's interpreter that are kept; written by `make profile`.",
        "sha256": hashlib.sha256((PYODIDE / WHOLE).read_bytes()).hexdigest(),
        "functions": [" ".join(ranges[first : first + 16]) for first in range(0, len(ranges), 16)],
    }
    ENTERED.write_text(json.dumps(profile, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
