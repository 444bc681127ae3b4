"""Marks in prose: Python, which prints a page, and the browser's script find the same in any text."""

import json
import random
from pathlib import Path

import pytest
from crumbcoat_calc.values.marks import Marked, marks_in
from crumbcoat_site.calculators.node import node_command, run

SCRIPT = Path(__file__).parents[2] / "site_plugins/crumbcoat_site/calculators/theme/assets/calculators/prose.js"
PIECES = (
    "*", "**", "_", "__", "`", "[", "](", ")", "\\", " ", "a", "é", "7", ".", "\n", "<b>", "&", "(", "https://x.example/",
    "javascript:", "mailto:a", "../b/", "#", "//", "ſ", "½", "²", "ß", "日", "́",
)  # fmt: skip
SEED = 20261127


def as_lists(parts: tuple[str | Marked, ...]) -> list[object]:
    return [part if isinstance(part, str) else [part.kind, as_lists(part.parts), part.href] for part in parts]


@pytest.mark.no_cover
def test_python_and_the_script_find_the_same_marks(tmp_path: Path) -> None:
    draws = random.Random(SEED)
    texts = ["".join(draws.choices(PIECES, k=draws.randrange(1, 16))) for _ in range(20000)]
    (tmp_path / "texts.json").write_text(json.dumps(texts), encoding="utf-8")
    (tmp_path / "find.mjs").write_text(
        f"""
        import {{ readFileSync, writeFileSync }} from "node:fs";
        import {{ marksIn }} from {json.dumps(SCRIPT.as_uri())};
        const asLists = (parts) => parts.map((part) =>
          typeof part === "string" ? part : [part.kind, asLists(part.parts), part.href ?? ""]);
        const texts = JSON.parse(readFileSync("texts.json", "utf-8"));
        writeFileSync("found.json", JSON.stringify(texts.map((text) => asLists(marksIn(text)))));
        """,
        encoding="utf-8",
    )
    done = run(node_command(), "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON", Path("find.mjs"), cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    found = json.loads((tmp_path / "found.json").read_text(encoding="utf-8"))
    expected = [[part for part in as_lists(marks_in(text)) if part] for text in texts]
    assert sum(any(isinstance(part, list) for part in parts) for parts in expected) > 1000
    assert [pair for pair in zip(texts, expected, found, strict=True) if pair[1] != pair[2]][:3] == []
