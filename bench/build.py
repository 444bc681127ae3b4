"""Building: against plain MkDocs with Material building the Markdown that our plugin produced, CPU time and memory."""

import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median

from site_plugins.recipe_cards.cache import PageCache
from site_plugins.recipe_cards.islands import whole
from site_plugins.recipe_cards.page import ISLANDS, page_files

ROOT = Path(__file__).parents[1]
SIZES = (10, 100, 1000)
FOLDER = 50
"""Recipes in one folder of the measured sites."""


def measure(sizes: tuple[int, ...] = SIZES, runs: int = 3) -> dict[str, dict[str, float]]:
    """By number of recipes: s of CPU time (medians), the ratio, what is not computed again, and memory in MB."""
    return {f"{size:,} recipes": _measured(size, runs if size < 1000 else 1) for size in sizes}


def _measured(size: int, runs: int) -> dict[str, float]:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        _write_sites(folder, size)
        ours, plain, again, memory = [], [], [], {}
        for _ in range(runs):
            shutil.rmtree(folder / "ours" / ".cache", ignore_errors=True)
            taken, memory["ours"] = _build(folder / "ours")
            ours.append(taken)
            taken, memory["plain"] = _build(folder / "plain")
            plain.append(taken)
            again.append(_build(folder / "ours")[0])
        return {
            "ours, s": round(median(ours), 2),
            "plain, s": round(median(plain), 2),
            "ratio": round(median(ours) / median(plain), 3),
            "unchanged again, s": round(median(again), 2),
            "ratio again": round(median(again) / median(plain), 3),
            "ours, ms a recipe": round(1000 * median(ours) / size, 1),
            "ours, MB": memory["ours"],
            "plain, MB": memory["plain"],
        }


def _write_sites(folder: Path, size: int) -> None:
    """`ours` holds recipe files, `plain` the Markdown that they become; nothing else differs."""
    demo = [path.read_text(encoding="utf-8") for path in sorted((ROOT / "recipes").rglob("*.yaml"))]
    cache = PageCache(folder / "none")
    for number in range(size):
        name = f"shelf-{number // FOLDER}/recipe-{number}"
        source = folder / "ours" / "docs" / f"{name}.yaml"
        source.parent.mkdir(parents=True, exist_ok=True)
        text = re.sub(r"^title: .*$", f"title: Recipe {number}", demo[number % len(demo)], count=1, flags=re.MULTILINE)
        source.write_text(text, encoding="utf-8")
        page = folder / "plain" / "docs" / f"{name}.md"
        page.parent.mkdir(parents=True, exist_ok=True)
        made = page_files(source, str(source), name, {}, None, None, cache)
        markdown = whole(made.markdown, cache.path(made.key, ISLANDS).read_text(encoding="utf-8"))
        page.write_text(re.sub(r"^(template|json_ld): .*\n", "", markdown, flags=re.MULTILINE), encoding="utf-8")
    config = {
        "site_name": "Measured",
        "docs_dir": "docs",
        "theme": {"name": "material", "font": False, "features": ["navigation.instant", "navigation.prune"]},
        "markdown_extensions": ["attr_list", {"toc": {"permalink": True}}],
        "validation": {"links": {"not_found": "ignore", "absolute_links": "ignore"}},
    }
    for which, plugins in (("ours", ["search", "recipe_cards"]), ("plain", ["search"])):
        (folder / which / "docs" / "index.md").write_text("# Home\n")
        (folder / which / "mkdocs.yml").write_text(json.dumps({**config, "plugins": plugins}))


def _build(folder: Path) -> tuple[float, float]:
    """CPU time in s, and the largest memory in MB, of one build in a process of its own."""
    script = (
        "import resource, runpy, sys; sys.argv = ['mkdocs', 'build', '-q']\n"
        "try:\n    runpy.run_module('mkdocs', run_name='__main__')\n"
        "finally:\n    used = resource.getrusage(resource.RUSAGE_SELF)\n"
        "    print(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), "NO_MKDOCS_2_WARNING": "1"},
        capture_output=True,
        text=True,
    )
    if done.returncode:
        raise SystemExit(f"bench: the build in {folder.name} failed\n{done.stderr}")
    seconds, megabytes = done.stderr.split()[-2:]
    return float(seconds), round(float(megabytes), 1)
