"""The unit tests of the scripts, which run in Node without a browser: every `*.test.js` of this folder."""

import re
from pathlib import Path

from crumbcoat_site.calculators.node import node_command, run

HERE = Path(__file__).parent


def test_the_scripts_pass_their_unit_tests() -> None:
    files = sorted(path for path in HERE.rglob("*.test.js") if "node_modules" not in path.parts)
    # No package.json says that a page's scripts are modules; Node sees it by their imports, and would say so each time.
    options = ("--test", "--test-reporter=tap", "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON")
    done = run(node_command(), *options, *files, cwd=HERE)
    assert done.returncode == 0, done.stdout
    counts = {name: int(number) for name, number in re.findall(r"^# (\w+) (\d+)$", done.stdout, re.MULTILINE)}
    assert counts["pass"] == counts["tests"] > len(files) > 0, done.stdout
