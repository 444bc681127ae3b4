"""`python -m bench [start weight slow …]`: prints tables, writes bench/results; without names, everything."""

import json
import os
import platform
import sys
from collections.abc import Mapping
from pathlib import Path

from playwright.sync_api import sync_playwright

from bench import build, memory, pictures, repaint, saving, slow, start, untouched, weight
from bench.host import chromium, hosted

RESULTS = Path(__file__).parent / "results"
IN_THE_BROWSER = {
    "start": start,
    "weight": weight,
    "slow": slow,
    "untouched": untouched,
    "repaint": repaint,
    "memory": memory,
    "pictures": pictures,
}
IN_THE_TERMINAL = {"saving": saving, "build": build}
ALL = (*IN_THE_BROWSER, *IN_THE_TERMINAL)


def main(names: list[str]) -> None:
    """Run the named measurements, or all of them."""
    wrong = [name for name in names if name not in ALL]
    if wrong:
        raise SystemExit(f"bench: unknown measurement {wrong[0]!r}\n    Fix: choose from {', '.join(ALL)}")
    names = names or list(ALL)
    for name in [name for name in names if name in IN_THE_TERMINAL]:
        table = IN_THE_TERMINAL[name].measure()
        show(str(IN_THE_TERMINAL[name].__doc__), table)
        keep(name, str(IN_THE_TERMINAL[name].__doc__), table, "")
    wanted = [name for name in names if name in IN_THE_BROWSER]
    if not wanted:
        return
    with hosted() as address, sync_playwright() as playwright, chromium(playwright) as browser:
        for name in wanted:
            module = IN_THE_BROWSER[name]
            # Only the start is measured in other engines than Chromium too.
            table = start.measure(browser, address, playwright) if module is start else module.measure(browser, address)
            show(str(module.__doc__), table)
            keep(name, str(module.__doc__), table, browser.version)


def show(title: str, table: Mapping[str, Mapping[str, float]]) -> None:
    """Print a Markdown table."""
    columns = list(dict.fromkeys(column for row in table.values() for column in row))
    print(f"\n{title}\n\n| | {' | '.join(columns)} |\n|---|{'---:|' * len(columns)}")
    for name, row in table.items():
        print(f"| {name} | {' | '.join(f'{row[column]:,}' if column in row else '' for column in columns)} |")


def keep(name: str, title: str, table: Mapping[str, Mapping[str, float]], chromium_version: str) -> None:
    """Write a table beside the earlier ones, with the machine that it was measured on."""
    machine = {"python": platform.python_version(), "cores": os.cpu_count()}
    if chromium_version:
        machine["chromium"] = chromium_version
    RESULTS.mkdir(exist_ok=True)
    written = json.dumps({"what": title, "machine": machine, "table": table}, indent=1)
    (RESULTS / f"{name}.json").write_text(written + "\n", encoding="utf-8")


main(sys.argv[1:])
