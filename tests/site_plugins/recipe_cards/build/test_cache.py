"""What was computed is found only while all that it depends on is as it was; `serve` computes what was edited."""

import json
import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from itertools import cycle, product
from pathlib import Path

import pytest
from crumbcoat_site.calculators.artefacts import Artefacts
from crumbcoat_site.recipe_cards.build import cache as cache_module
from crumbcoat_site.recipe_cards.build.cache import PageCache, code_digest
from crumbcoat_site.recipe_cards.pages.kept_files import CARD_JSON, HANDOUT, ISLANDS, MARKDOWN
from crumbcoat_site.recipe_cards.source.prices import load_prices
from mkdocs.commands.build import build
from mkdocs.config import load_config

pytestmark = pytest.mark.no_cover  # Whole sites are built here; what is measured is tested part by part.

ROOT = Path(__file__).parents[4]
NAMES = ("everyday-milk-frosting", "silk-milk-frosting")
LONGEST_S = 120
"""A page that has not come by then will not come."""


def make_site(tmp_path: Path) -> Path:
    """A folder with mkdocs.yml, two recipes, prices, and a page with the list of recipes and a form."""
    docs = tmp_path / "docs"
    docs.mkdir()
    for name in NAMES:
        shutil.copy(ROOT / "recipes" / "milk-emulsions" / f"{name}.yaml", docs)
    shutil.copy(ROOT / "recipes" / "prices.csv", docs)
    marks = ("recipe list", "fat chart", f"formulate from {NAMES[0]}")
    (docs / "index.md").write_text("# Home\n\n" + "\n\n".join(f"<!-- crumbcoat: {mark} -->" for mark in marks) + "\n")
    config = {
        "site_name": "Kept",
        "docs_dir": "docs",
        "theme": {"name": "material", "font": False},
        "plugins": [{"recipe_cards": {"show_cost": True}}],
        "markdown_extensions": ["attr_list"],
    }
    (tmp_path / "mkdocs.yml").write_text(json.dumps(config))
    return tmp_path


@pytest.fixture(scope="module")
def computed_before(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What a build of it keeps."""
    folder = make_site(tmp_path_factory.mktemp("computed"))
    built(folder)
    return folder / ".cache"


@pytest.fixture
def site(tmp_path: Path, computed_before: Path) -> Path:
    """A folder with mkdocs.yml, two recipes that were computed before, prices, and a page with a list and a form."""
    shutil.copytree(computed_before, tmp_path / ".cache")
    return make_site(tmp_path)


def built(folder: Path) -> dict[str, bytes]:
    """Every page, card.json and handout of the site by its place."""
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"))
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    return {
        str(path.relative_to(folder / "site")): path.read_bytes()
        for path in (folder / "site").rglob("*")
        if path.name in ("index.html", "card.json")
    }


def computed(folder: Path) -> set[str]:
    """The keys of the recipes that were computed so far."""
    return {path.name.partition(".")[0] for path in (folder / ".cache").rglob(f"*.{ISLANDS}")}


def edit(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


# --- serve


@pytest.fixture
def served(site: Path) -> Iterator[Callable[[str, str], str]]:
    """`mkdocs serve` in a process of its own; gives what fetches a page once it holds a text."""
    shutil.rmtree(site / ".cache")  # It serves the site at an address of its own.
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{free.getsockname()[1]}"
    with (site / "serve.log").open("w+") as log:
        command = [sys.executable, "-m", "mkdocs", "serve", "--dev-addr", address]
        environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
        process = subprocess.Popen(command, cwd=site, stdout=log, stderr=subprocess.STDOUT, env=environment)

        def page_with(place: str, text: str) -> str:
            end = time.monotonic() + LONGEST_S
            shown = ""
            while time.monotonic() < end and process.poll() is None:
                try:
                    with urllib.request.urlopen(f"http://{address}/{place}", timeout=LONGEST_S) as reply:
                        shown = reply.read().decode()
                except (urllib.error.URLError, ConnectionError):
                    shown = ""
                if text in shown:
                    return shown
                time.sleep(0.1)
            log.seek(0)
            raise AssertionError(f"{text!r} has not come to {place!r}\n{log.read()}")

        try:
            yield page_with
        finally:
            process.terminate()
            process.wait()


def test_serve_shows_an_edited_recipe_and_computes_no_other(site: Path, served: Callable[[str, str], str]) -> None:
    served(f"{NAMES[0]}/", "Everyday milk frosting")
    before = computed(site)
    assert len(before) == 2
    edit(site / "docs" / f"{NAMES[0]}.yaml", "title: Everyday milk frosting", "title: Sunday milk frosting")
    page = served(f"{NAMES[0]}/", "Sunday milk frosting")
    assert "Everyday milk frosting" not in page
    assert len(computed(site) - before) == 1
    assert "Sunday milk frosting" in served("", "Sunday milk frosting")
    edit(site / "docs" / f"{NAMES[0]}.yaml", "title: Sunday milk frosting", "title: Everyday milk frosting")
    served(f"{NAMES[0]}/", "Everyday milk frosting")
    assert len(computed(site) - before) == 1


# --- what is loaded


def test_a_build_that_finds_everything_does_not_even_load_what_computes(site: Path) -> None:
    shutil.rmtree(site / ".cache")
    (site / "docs" / f"{NAMES[1]}.yaml").unlink()  # One recipe loads it all.
    script = (
        "import runpy, sys; sys.argv = ['mkdocs', 'build', '-q']\n"
        "try:\n    runpy.run_module('mkdocs', run_name='__main__')\n"
        "finally:\n    names = {'pint', 'segno', 'crumbcoat_calc.recipe', 'crumbcoat_calc.calculators'}\n"
        "    print(*sorted(names & set(sys.modules)))"
    )
    loaded = []
    for _ in range(2):
        environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
        done = subprocess.run([sys.executable, "-c", script], cwd=site, env=environment, capture_output=True, text=True)
        assert done.returncode == 0, done.stderr
        loaded.append(done.stdout.split())
    assert loaded == [["crumbcoat_calc.calculators", "crumbcoat_calc.recipe", "pint", "segno"], []]


# --- keys


def test_a_new_price_is_counted_and_the_old_one_is_found_again(site: Path) -> None:
    first = built(site)
    keys = computed(site)
    prices = site / "docs" / "prices.csv"
    old = prices.read_text(encoding="utf-8")
    row = next(line for line in old.splitlines() if line.startswith("butter_unsalted,"))
    item, pack, price, *rest = row.split(",")
    prices.write_text(old.replace(row, ",".join((item, pack, str(2 * float(price)), *rest))), encoding="utf-8")
    second = built(site)
    for name in NAMES:
        cost = [json.loads(made[f"{name}/card.json"])["cost"]["batch"] for made in (first, second)]
        assert float(cost[1]) > float(cost[0])
    assert len(computed(site) - keys) == 2
    prices.write_text(old, encoding="utf-8")
    assert built(site) == first
    assert len(computed(site) - keys) == 2


@pytest.mark.parametrize(
    "changed",
    [
        "calc/crumbcoat_calc/values/units.py",
        "calc/crumbcoat_calc/data/foods.csv",
        "calc/crumbcoat_calc/data/units.txt",
        "calc/crumbcoat_calc/science/syrup.py",
        "site_plugins/crumbcoat_site/recipe_cards/card/card.py",
        "site_plugins/crumbcoat_site/recipe_cards/components/label/label.jinja",
    ],
)
def test_a_change_of_code_tables_or_templates_is_another_key(
    changed: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for part in ("calc/crumbcoat_calc", "site_plugins/crumbcoat_site/recipe_cards"):
        ignored = shutil.ignore_patterns("__pycache__")
        shutil.copytree(ROOT / part, tmp_path / part, ignore=ignored)
    before = code_digest()
    monkeypatch.setattr(cache_module, "_CALC", tmp_path / "calc" / "crumbcoat_calc")
    monkeypatch.setattr(cache_module, "_PLUGIN", tmp_path / "site_plugins" / "crumbcoat_site" / "recipe_cards")
    assert code_digest() == before
    with (tmp_path / changed).open("a") as file:
        file.write("\n")
    assert code_digest() != before


@pytest.mark.parametrize("library", ["jinja2", "markupsafe", "pint", "pyyaml", "segno"])
def test_another_version_of_a_library_is_another_key(library: str, monkeypatch: pytest.MonkeyPatch) -> None:
    before, version = code_digest(), cache_module.version
    monkeypatch.setattr(cache_module, "version", lambda name: "0.0" if name == library else version(name))
    assert code_digest() != before


def test_every_kind_of_file_that_calc_reads_is_in_the_digest() -> None:
    """`calc` reads data with these endings alone; README.md is for people."""
    kinds = {path.suffix for path in (ROOT / "calc").rglob("*") if path.is_file() and "__pycache__" not in path.parts}
    assert kinds - {".md"} == {".py", ".csv", ".txt"}


def test_code_that_changes_under_a_running_serve_leaves_nothing_to_find(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    key = PageCache(tmp_path).key(b"milk")
    assert PageCache(tmp_path).key(b"milk") == key
    monkeypatch.setattr(cache_module, "code_digest", lambda: "changed since")
    others = [PageCache(tmp_path).key(b"milk") for _ in range(2)]
    assert len({key, *others}) == 3


def test_no_two_inputs_run_together(tmp_path: Path) -> None:
    cache = PageCache(tmp_path)
    inputs = [(b"ab", "c"), (b"a", "bc"), (b"ab", "c", ""), (b"ab", "", "c"), (b'ab["c"]',), (b"", "ab", "c")]
    assert len({cache.key(content, *texts) for content, *texts in inputs}) == len(inputs)


# --- files


def flipped(content: bytes, place: int) -> bytes:
    return content[:place] + bytes([content[place] ^ 1]) + content[place + 1 :]


SPOILT: dict[str, Callable[[bytes], bytes | None]] = {
    "cut short": lambda content: content[: len(content) // 2],
    "empty": lambda content: b"",
    "a bit changed within": lambda content: flipped(content, len(content) // 3),
    "a bit changed near the end": lambda content: flipped(content, len(content) - 9),
    "longer": lambda content: content + b" ",
    "gone": lambda content: None,
}


def spoil(file: Path, way: str) -> None:
    content = SPOILT[way](file.read_bytes())
    file.unlink()
    if content is not None:
        file.write_bytes(content)


def test_a_spoilt_file_of_the_cache_is_never_shown(site: Path, full: bool) -> None:
    """One file of each recipe is spoilt, each in another way, and each form in one: every file, and in every way."""
    endings = (MARKDOWN, ISLANDS, CARD_JSON, HANDOUT, "json")
    ways = list(product(endings, SPOILT)) if full else list(zip(cycle(endings), SPOILT, strict=False))
    text = (ROOT / "tests" / "golden" / "good-smallest" / "recipe.yaml").read_text(encoding="utf-8")
    for number in range(len(ways)):
        recipe = text.replace("title: Whipped cream", f"title: Number {number} is whipped cream")
        (site / "docs" / f"number-{number}.yaml").write_text(recipe, encoding="utf-8")
    marks = "\n".join(f"<!-- crumbcoat: formulate from number-{number} -->\n" for number, _ in enumerate(SPOILT))
    (site / "docs" / "forms.md").write_text(f"# Forms\n\n{marks}")
    shutil.rmtree(site / ".cache")  # What is kept of another front page.
    first = built(site)
    cached = {path: path.read_text(encoding="utf-8") for path in (site / ".cache" / "recipe_cards").glob("??/*.*")}
    pages = {path: text for path, text in cached.items() if path.name.endswith(f".{MARKDOWN}")}
    for number, (ending, way) in enumerate(ways):
        (page,) = [path for path, text in pages.items() if f"Number {number} is" in text]
        spoil(page.with_name(page.name.replace(MARKDOWN, ending)), way)
    forms = [path for path, text in cached.items() if path.suffix == ".json" and "data-rows" in text]
    for form, way in zip(forms, [*SPOILT, "gone"], strict=True):  # One is on the front page.
        spoil(form, way)
    second = built(site)
    assert second.keys() == first.keys()
    assert [name for name, content in first.items() if second[name] != content] == []


@pytest.mark.parametrize("way", SPOILT)
def test_spoilt_prices_are_read_again(tmp_path: Path, way: str) -> None:
    cache, prices = PageCache(tmp_path), ROOT / "recipes" / "prices.csv"
    first = load_prices(prices, "prices.csv", cache)
    (kept,) = tmp_path.rglob("*.json")
    spoil(kept, way)
    assert load_prices(prices, "prices.csv", cache) == first


# --- the same bytes


@pytest.mark.full
def test_two_builds_of_the_whole_site_in_different_folders_give_the_same_bytes(
    tmp_path: Path, runtime: Artefacts, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One folder for the runtime, since `test_artefacts.py` makes two; a fixed date, since sitemap.xml contains it."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1767225600")
    sites = []
    for name in ("here", "elsewhere/deeper"):
        folder = tmp_path / name
        shutil.copytree(ROOT / "recipes", folder / "recipes")
        text = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
        text = text.replace("  - calculators\n", f"  - calculators:\n      cache: {runtime.folder.parent}\n")
        (folder / "mkdocs.yml").write_text(text, encoding="utf-8")
        config = load_config(str(folder / "mkdocs.yml"))
        config.plugins.on_startup(command="build", dirty=False)
        build(config)
        files = (path for path in (folder / "site").rglob("*") if path.is_file())
        sites.append({str(path.relative_to(folder / "site")): path.read_bytes() for path in files})
    here, elsewhere = sites
    assert len(here) > 100
    assert here.keys() == elsewhere.keys()
    assert [name for name, content in here.items() if content != elsewhere[name]] == []
