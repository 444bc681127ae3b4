"""Building, CPU time and memory: against plain MkDocs with Material on the Markdown and HTML of the cards that our
build made (`plain`), and on no more of them than the headings and words that we let MkDocs read (`lean`)."""

import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from decimal import Decimal
from pathlib import Path
from statistics import median

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.kept_files import ISLANDS

from bench.baselines import BASELINES, baseline_markdown

ROOT = Path(__file__).parents[1]
SIZES = (10, 100, 1000, 5000)
FOLDER = 50
"""The number of recipes per folder of the measured sites."""
LONGEST_S = 3600
"""The time after which a build is stopped."""
_CACHE = Path(".cache/recipe_cards")
_TITLE = re.compile(r"^title: .*$", re.MULTILINE)
_GRAMS = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?) g\b(?!/)")


def measure(sizes: tuple[int, ...] = SIZES, runs: int = 3) -> dict[str, dict[str, float]]:
    """By number of recipes: CPU time in s (medians), its ratios, what a change recomputes, and memory in MB."""
    return {f"{size:,} recipes": _measured(size, runs if size < 1000 else 1) for size in sizes}


def _measured(size: int, runs: int) -> dict[str, float]:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_recipes(folder, size)
        taken: dict[str, list[float]] = {which: [] for which in ("ours", *BASELINES, "again", "edited")}
        memory: dict[str, float] = {}
        computed = []
        for run in range(runs):
            shutil.rmtree(folder / "ours" / ".cache", ignore_errors=True)
            _build("ours", folder / "ours", taken, memory)
            if not run:
                _write_baselines(folder)
            for which in BASELINES:
                _build(which, folder / which, taken, memory)
            _build("again", folder / "ours", taken, memory)
            before = _computed(folder)
            edit(folder / "ours" / "docs" / recipe_name(size // 2), f"Edited {run}")
            _build("edited", folder / "ours", taken, memory)
            computed.append(len(_computed(folder) - before))
        middle = {which: median(times) for which, times in taken.items()}
        return {
            **{f"{which}, s": round(time_s, 2) for which, time_s in middle.items()},
            **{f"ours / {which}": round(middle["ours"] / middle[which], 2) for which in BASELINES},
            **{f"again / {which}": round(middle["again"] / middle[which], 2) for which in BASELINES},
            "ours, ms a recipe": round(1000 * middle["ours"] / size, 1),
            "computed after one edit": max(computed),
            **{f"{which}, MB": memory[which] for which in ("ours", "again", *BASELINES)},
        }


def write_recipes(folder: Path, size: int) -> None:
    """The demo's recipes repeated, each with its own title and amounts, so that each must be computed."""
    demo = [path.read_text(encoding="utf-8") for path in sorted((ROOT / "recipes").glob("*/*.yaml"))]
    for number in range(size):
        source = folder / "ours" / "docs" / recipe_name(number)
        source.parent.mkdir(parents=True, exist_ok=True)
        more = 1 + Decimal(number // len(demo)) / 1000  # A decimal, so that the portions still add up.
        text = _GRAMS.sub(
            lambda mass, more=more: f"{(Decimal(mass[1]) * more).normalize():f} g", demo[number % len(demo)]
        )
        source.write_text(text, encoding="utf-8")
        edit(source, f"Recipe {number}")
    shutil.copy(ROOT / "recipes" / "prices.csv", folder / "ours" / "docs")
    _write_site(folder / "ours", ["search", "recipe_cards"])


def recipe_name(number: int) -> str:
    """The place of a recipe in docs_dir."""
    return f"shelf-{number // FOLDER}/recipe-{number}.yaml"


def edit(source: Path, title: str) -> None:
    """Give a recipe another title."""
    source.write_text(_TITLE.sub(f"title: {title}", source.read_text(encoding="utf-8"), count=1), encoding="utf-8")


def _write_baselines(folder: Path) -> None:
    """The sites that plain MkDocs builds."""
    cache = PageCache(folder / "ours" / _CACHE)
    for key in _computed(folder):
        facts = cache.get(key)
        assert facts is not None
        number = int(facts["title"].rpartition(" ")[2])
        for which, text in baseline_markdown(cache, key).items():
            page = (folder / which / "docs" / recipe_name(number)).with_suffix(".md")
            page.parent.mkdir(parents=True, exist_ok=True)
            page.write_text(text, encoding="utf-8")
    for which in BASELINES:
        _write_site(folder / which, ["search"])


def _computed(folder: Path) -> set[str]:
    """The keys of the recipes that were computed."""
    return {file.name.partition(".")[0] for file in (folder / "ours" / _CACHE).rglob(f"*.{ISLANDS}")}


def _write_site(folder: Path, plugins: list[str]) -> None:
    config = {
        "site_name": "Measured",
        "docs_dir": "docs",
        "theme": {"name": "material", "font": False, "features": ["navigation.instant", "navigation.prune"]},
        "markdown_extensions": ["attr_list", {"toc": {"permalink": True}}],
        "validation": {"links": {"not_found": "ignore", "absolute_links": "ignore"}},
        "plugins": plugins,
    }
    (folder / "docs" / "index.md").write_text("# Home\n")
    (folder / "mkdocs.yml").write_text(json.dumps(config))


def _build(what: str, folder: Path, taken: dict[str, list[float]], memory: dict[str, float]) -> None:
    """Note CPU time in s, and the largest memory in MB, of one build in its own process; print it as progress."""
    script = (
        "import resource, runpy, sys; sys.argv = ['mkdocs', 'build', '-q']\n"
        "try:\n    runpy.run_module('mkdocs', run_name='__main__')\n"
        "finally:\n    used = resource.getrusage(resource.RUSAGE_SELF)\n"
        "    print(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, file=sys.stderr)"
    )
    try:
        done = subprocess.run(
            [sys.executable, "-c", script],
            cwd=folder,
            env={**os.environ, "PYTHONPATH": str(ROOT), "NO_MKDOCS_2_WARNING": "1"},
            capture_output=True,
            text=True,
            timeout=LONGEST_S,
        )
    except subprocess.TimeoutExpired:
        raise SystemExit(f"bench: the build {what!r} took longer than {LONGEST_S} s") from None
    if done.returncode:
        raise SystemExit(f"bench: the build {what!r} failed\n{done.stderr}")
    seconds, megabytes = (float(word) for word in done.stderr.split()[-2:])
    taken[what].append(seconds)
    memory[what] = round(megabytes, 1)
    pages = sum(1 for _ in (folder / "site").rglob("index.html"))
    print(f"build: {what}, {pages:,} files of HTML: {seconds:.2f} s, {megabytes:.0f} MB", file=sys.stderr, flush=True)
