"""No-break spaces: Python, which prints a page, and the browser's script put them into the same places of any text."""

import json
import random
from pathlib import Path

import pytest
from crumbcoat_calc.values.spacing import unbroken
from crumbcoat_site.calculators.node import node_command, run

SCRIPT = Path(__file__).parents[2] / "site_plugins/crumbcoat_site/calculators/theme/assets/calculators/spacing.js"
PIECES = (
    " ", " ", "\u00a0", "3", "½", "1\u202f795", "°C", "°F", "%", "g", "kg", "mL", "µm", "in", "in the", "min", "h", "s",
    "US cups", "metric", "tsp", "fl oz", "US", "EUR", "days", "large", "mPa s", "(", ")", ",", ".", "to", "grain", "é",
    "\n",
)  # fmt: skip
SEED = 20261127


@pytest.mark.no_cover
def test_python_and_the_script_give_the_same_text(tmp_path: Path) -> None:
    draws = random.Random(SEED)
    texts = [draws.choice(("", " ")).join(draws.choices(PIECES, k=draws.randrange(1, 16))) for _ in range(20000)]
    (tmp_path / "texts.json").write_text(json.dumps(texts), encoding="utf-8")
    (tmp_path / "space.mjs").write_text(
        f"""
        import {{ readFileSync, writeFileSync }} from "node:fs";
        import {{ unbroken }} from {json.dumps(SCRIPT.as_uri())};
        writeFileSync("spaced.json", JSON.stringify(JSON.parse(readFileSync("texts.json", "utf-8")).map(unbroken)));
        """,
        encoding="utf-8",
    )
    done = run(node_command(), "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON", Path("space.mjs"), cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    spaced = json.loads((tmp_path / "spaced.json").read_text(encoding="utf-8"))
    expected = [unbroken(text) for text in texts]
    assert sum(text != other for text, other in zip(texts, expected, strict=True)) > 1000
    assert [pair for pair in zip(texts, expected, spaced, strict=True) if pair[1] != pair[2]][:3] == []
    assert [unbroken(text) for text in expected] == expected
