"""From the wheel to a live site: what a blogger does who has no copy of this repository, no network and no Node.js."""

import ast
import json
import os
import re
import shutil
import subprocess
import sys
import time
import tomllib
import urllib.error
import urllib.request
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib import metadata
from pathlib import Path

import pytest
from crumbcoat_site.calculators.artefacts import Artefacts
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from playwright.sync_api import Page

from tests.conftest import Once

ROOT = Path(__file__).parents[1]
LARGEST_WHEEL, LARGEST_INSTALLATION = 12_000_000, 200_000_000
"""In bytes."""

pytestmark = [pytest.mark.runtime, pytest.mark.no_cover]


@pytest.fixture(scope="session")
def wheel(once: Once, runtime: Artefacts) -> Path:
    """The wheel of this tree, made in a copy of it, with the runtime that is in the cache."""

    def make(folder: Path) -> None:
        listed = ["git", "ls-files", "--cached", "--others", "--exclude-standard"]
        names = subprocess.run(listed, cwd=ROOT, capture_output=True, text=True, check=True).stdout.splitlines()
        for name in names:
            if (ROOT / name).is_file():
                (folder / "copy" / name).parent.mkdir(parents=True, exist_ok=True)
                shutil.copyfile(ROOT / name, folder / "copy" / name)
        copy = folder / "copy"
        shutil.copytree(runtime.folder, copy / ".cache" / "crumbcoat" / runtime.folder.name)
        paths = os.pathsep.join([str(copy / "calc"), str(copy / "site_plugins")])
        environment = {**os.environ, "PYTHONPATH": paths}
        for command in (
            ["-m", "crumbcoat_site.calculators", "--for-wheel"],
            [
                "-m",
                "pip",
                "wheel",
                "--quiet",
                "--no-deps",
                "--no-build-isolation",
                "--no-index",
                "--wheel-dir",
                str(folder),
                ".",
            ],
        ):
            subprocess.run([sys.executable, *command], cwd=copy, env=environment, check=True)

    return next(once("wheel", make).glob("crumbcoat-*.whl"))


@pytest.fixture(scope="session")
def crumbcoat(once: Once, wheel: Path) -> Path:
    """The command in an environment of its own, which has the wheel and what it requires, and nothing else."""

    def make(folder: Path) -> None:
        subprocess.run([sys.executable, "-m", "venv", "--without-pip", folder / "env"], check=True)
        python = folder / "env" / "bin" / "python"
        site = Path(
            subprocess.run(
                [python, "-c", "import site; print(site.getsitepackages()[0])"],
                capture_output=True,
                text=True,
                check=True,
            ).stdout.strip()
        )
        for name in required(wheel):
            for file in metadata.files(name) or ():
                if ".." not in file.parts and "__pycache__" not in file.parts:
                    (site / file).parent.mkdir(parents=True, exist_ok=True)
                    shutil.copyfile(file.locate(), site / file)
        install = ["-m", "pip", "--python", python, "install", "--quiet", "--no-deps", "--no-index", wheel]
        subprocess.run([sys.executable, *install], check=True)

    return once("installed", make) / "env" / "bin" / "crumbcoat"


def required(wheel: Path) -> set[str]:
    """The distributions that a wheel needs, and those that they need, without extras."""
    with zipfile.ZipFile(wheel) as content:
        head = next(name for name in content.namelist() if name.endswith(".dist-info/METADATA"))
        lines = re.findall("^Requires-Dist: (.*)$", content.read(head).decode(), re.MULTILINE)
    found: set[str] = set()
    waiting = [Requirement(line) for line in lines]
    while waiting:
        needed = waiting.pop()
        if needed.name in found or (needed.marker and not needed.marker.evaluate({"extra": ""})):
            continue
        found.add(needed.name)
        waiting += [Requirement(line) for line in metadata.requires(needed.name) or ()]
    return found


def without_network() -> list[str]:
    """What runs a command in a network of its own, in which there is nothing."""
    alone = ["unshare", "--map-root-user", "--net"]
    can = shutil.which("unshare") and subprocess.run([*alone, "true"], capture_output=True, check=False).returncode == 0
    if not can and "CI" in os.environ:
        pytest.fail("this machine cannot take the network away from a command")
    return alone if can else []


@pytest.fixture
def run(crumbcoat: Path, tmp_path: Path) -> Callable[..., str]:
    """Run the command in a folder, as a user with no Node.js on the PATH; its exit code must be the one expected."""
    environment = {"PATH": f"{crumbcoat.parent}:/usr/bin:/bin", "HOME": str(tmp_path), "LANG": "C.UTF-8"}

    def command(folder: Path, *arguments: str, code: int = 0) -> str:
        line = [*without_network(), str(crumbcoat), *arguments]
        done = subprocess.run(line, cwd=folder, env=environment, capture_output=True, text=True, check=False)
        assert done.returncode == code, done.stdout + done.stderr
        return done.stdout + done.stderr

    return command


def test_a_wheel_and_what_it_installs_are_small(wheel: Path, crumbcoat: Path) -> None:
    assert wheel.stat().st_size <= LARGEST_WHEEL
    installed = sum(path.stat().st_size for path in crumbcoat.parents[1].rglob("*") if path.is_file())
    assert installed <= LARGEST_INSTALLATION


def test_a_wheel_has_every_file_that_a_site_needs_and_no_test(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as content:
        names = set(content.namelist())
    for folder, package in (("calc", "crumbcoat_calc"), ("site_plugins", "crumbcoat_site")):
        for path in (ROOT / folder / package).rglob("*"):
            place = path.relative_to(ROOT / folder).as_posix()
            is_left_out = path.name.startswith(("test_", "conftest")) or {
                "__pycache__",
                "node_modules",
                "prepared",
            } & set(path.parts)
            if path.is_file() and path.suffix != ".pyc":
                assert (place in names) != bool(is_left_out), place
    assert "crumbcoat_site/calculators/prepared/memory.bin" in names


def test_all_that_our_packages_import_is_required(wheel: Path) -> None:
    """Nothing is there only because the tests bring it. Handouts as PDF need a browser, two other things an extra."""
    modules = {**metadata.packages_distributions(), "crumbcoat_calc": ["crumbcoat"], "crumbcoat_site": ["crumbcoat"]}
    needed = {canonicalize_name(name) for name in required(wheel)} | {"crumbcoat"}
    with zipfile.ZipFile(wheel) as content:
        sources = {name: content.read(name) for name in content.namelist() if name.endswith(".py")}
    missing = set()
    for place, source in sources.items():
        for node in ast.walk(ast.parse(source)):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [str(node.module)] if isinstance(node, ast.ImportFrom) else []
            for top in {name.partition(".")[0] for name in names} - sys.stdlib_module_names:
                if "/runtime/" not in place and not {canonicalize_name(name) for name in modules.get(top, [])} & needed:
                    missing.add((place, top))
    statistics = {(place, top) for place, top in missing if place.startswith("crumbcoat_site/trial_statistics/")}
    assert {top for _, top in statistics} == {"numpy", "scipy"}
    assert missing - statistics == {
        ("crumbcoat_site/shortest_plans/shortest.py", "ortools"),
        ("crumbcoat_site/recipe_cards/handout/pdf.py", "playwright"), ("crumbcoat_site/bring_in/html_page.py", "lxml"),
    }  # fmt: skip


def test_the_version_is_that_of_the_project(run: Callable[..., str], tmp_path: Path) -> None:
    version = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["version"]
    assert run(tmp_path, "--version") == f"crumbcoat, version {version}\n"


def test_an_empty_folder_becomes_a_live_site(
    run: Callable[..., str], tmp_path: Path, page: Page, serve: Callable[[Path], str]
) -> None:
    run(tmp_path, "new-site", "kitchen", "--title", "Blue Door bakes", "--voice", "class", "--yes")
    site = tmp_path / "kitchen"
    for title, family in (("Quince cream", "whipped cream"), ("Milk frosting", "emulsified milk frosting")):
        run(site, "new-recipe", title, "--family", family)
    assert "Drafts, not in this site: recipes/milk-frosting, recipes/quince-cream" in run(site, "build")
    for path in (site / "docs" / "recipes").glob("*.yaml"):
        path.write_text(re.sub("draft: .*\n", "", path.read_text(encoding="utf-8")), encoding="utf-8")
    assert "4 files, no problems" in run(site, "check", "--no-warnings")
    run(site, "build", "--strict")
    published = {path.relative_to(site / "site").as_posix() for path in (site / "site").rglob("*") if path.is_file()}
    assert "recipes/quince-cream/index.html" in published
    assert not [name for name in published if name.endswith((".yaml", ".csv", ".schema.json"))]
    manifest = json.loads(next((site / "site").rglob("manifest.json")).read_text())
    assert "snapshot" in manifest["starts"]

    # A failed build leaves the site.
    recipe = site / "docs" / "recipes" / "quince-cream.yaml"
    good = recipe.read_text(encoding="utf-8")
    recipe.write_text(good.replace("400 g", "400 gx"), encoding="utf-8")
    said = run(site, "build", code=1)
    assert re.search(r"quince-cream\.yaml:\d+: unknown unit 'gx'", said)
    assert "The site in site is as it was." in said
    assert {
        path.relative_to(site / "site").as_posix() for path in (site / "site").rglob("*") if path.is_file()
    } == published
    recipe.write_text(good, encoding="utf-8")
    (site / "site" / ".kept").write_text("hidden files of a host stay")
    run(site, "build")
    assert (site / "site" / ".kept").is_file()

    page.goto(f"{serve(site / 'site')}recipes/quince-cream/")
    page.get_by_label("Number of batches").fill("2")
    page.locator("recipe-calculator[name=batch][data-state=live]").wait_for(state="attached", timeout=60_000)
    page.wait_for_function("document.querySelector('[data-text=finished_mass]').textContent.includes('880\u00a0g')")


ESPRESSO = """\
title: Espresso meringue buttercream
summary: Coffee in a cloud of egg white and butter.
author: Blue Door bakes
family: swiss meringue buttercream
yield: 12 cupcakes
ingredients:
  egg whites: {kind: egg white, amount: 4 large}
  sugar: {kind: caster sugar, amount: 200 g}
  butter: {kind: butter, amount: 250 g, temperature: 20 C}
  espresso: {kind: espresso, amount: 2 tbsp}
  salt: {kind: salt, amount: a pinch}
stages:
  - title: Meringue
    steps:
      - do: Whisk whites, sugar and salt over simmering water.
        add: [egg whites, sugar, salt]
        time: 5-8 min
        heat_to: 72 C
      - do: Whip until cool.
        speed: fast
        time: 10 minutes
  - title: Butter
    steps:
      - do: Beat in the butter, then the espresso.
        add: [butter, espresso]
        checkpoint:
          passes: It is smooth.
          troubles:
            - {sign: It looks curdled., remedy: Keep beating.}
storage:
  - {where: fridge, up_to: 3 days}
"""
MASCARPONE = """\
title: Mascarpone cream
summary: Mascarpone and whipped cream, set with a little gelatine.
author: Blue Door bakes
family: whipped cream
yield: 10 slices
ingredients:
  mascarpone: {kind: mascarpone, amount: 250 g}
  cream: {kind: whipping cream, amount: 300 ml}
  icing_sugar: {kind: icing sugar, amount: 50 g}
  gelatine: {kind: gelatine leaves, amount: 3 sheets}
  water: {kind: water, amount: 2 tbsp}
stages:
  - title: Soften the gelatine
    makes: gelatine
    steps:
      - do: Soak the leaves in cold water, then melt them gently.
        add: [gelatine, water]
        heat_to: 50 °C
  - title: Whip
    steps:
      - do: Whip cream, mascarpone and sugar to soft peaks.
        add: [cream, mascarpone, icing_sugar]
        time: 2-3 min
      - do: Fold in the gelatine.
        add: gelatine
"""
YOGHURT = """\
title: Yoghurt emulsion
summary: A sharp, light emulsion of yoghurt and butter.
author: Blue Door bakes
family: emulsified milk frosting
yield: 12 cupcakes
ingredients:
  yoghurt: {kind: greek yoghurt, amount: 300 g}
  cornflour: {kind: cornflour, amount: 2 tsp}
  icing sugar: {kind: icing sugar, amount: 150 g}
  butter: {kind: unsalted butter, amount: 200 g}
  cream: {kind: double cream, amount: 0 g, kept_back: {rescue: 50 g}}
stages:
  - title: Base
    makes: base
    steps:
      - do: Cook yoghurt and cornflour.
        add: [yoghurt, cornflour]
        time: 1/2 h
        heat_to: 90
  - title: Emulsion
    steps:
      - do: Beat the butter with the sugar.
        add: [butter, icing sugar]
        time: 5 min
      - do: Beat in the base.
        add: base
        checkpoint:
          passes: [It holds its tracks.]
          troubles:
            - {sign: It splits., remedy: Beat in the cream kept back., add: cream/rescue}
"""
NEWCOMER = {
    "espresso": (
        ESPRESSO,
        [
            (
                "'swiss meringue buttercream' is not an option here",
                "write one of: `meringue buttercream`",
                "swiss ",
                "",
            ),
            (
                "'butter' is the name of several kinds",
                "`butter_unsalted` (butter, unsalted)",
                "kind: butter,",
                "kind: butter_unsalted,",
            ),
            ("'a pinch' has no weight", "such as `0.3 g`", "a pinch", "0.5 g"),
        ],
    ),
    "mascarpone": (
        MASCARPONE,
        [
            (
                "'whipping cream' is the name of several kinds",
                "`cream_whipping_uk` (cream, whipping, UK, 40 % fat)",
                "whipping cream",
                "cream_whipping_uk",
            ),
            ("no weight is known for 'sheets'", "write grams", "3 sheets", "6 g"),
            ("the name 'gelatine' is already taken", "choose another name", "makes: gelatine", "makes: melted"),
        ],
    ),
    "yoghurt": (
        YOGHURT,
        [
            ("'0 g' adds nothing", "leave it out", "amount: 0 g, ", ""),
            ("'90' has no unit", "write `90 °C` or `90 °F`", "heat_to: 90", "heat_to: 90 °C"),
        ],
    ),
}
"""Three recipes as someone writes them who has read the README once; each mistake, its answer, and the correction."""


def test_three_recipes_of_a_newcomer_need_three_corrections_at_most(run: Callable[..., str], tmp_path: Path) -> None:
    run(tmp_path, "new-site", "kitchen", "--region", "UK", "--yes")
    site = tmp_path / "kitchen"
    for name, (text, mistakes) in NEWCOMER.items():
        recipe = site / "docs" / "recipes" / f"{name}.yaml"
        recipe.write_text(text, encoding="utf-8")
        said = run(site, "check", "--no-warnings", code=1)
        assert f"{len(mistakes)} problem" in said
        assert len(mistakes) <= 3
        for problem, remedy, wrong, right in mistakes:
            assert re.search(rf"{name}\.yaml:\d+: {re.escape(problem)}.*\n    Fix: .*{re.escape(remedy)}", said), said
            assert wrong in text
            text = text.replace(wrong, right, 1)
        if name == "mascarpone":  # The name of what a stage makes is used once more.
            text = text.replace("add: gelatine\n", "add: melted\n")
        recipe.write_text(text, encoding="utf-8")
        run(site, "check", "--no-warnings")
    run(site, "build")
    page = (site / "site" / "recipes" / "yoghurt" / "index.html").read_text(encoding="utf-8")
    assert "kept back" in page


@contextmanager
def serving(crumbcoat: Path, site: Path) -> Iterator[str]:
    """`crumbcoat serve` on a free port, until the block ends."""
    port = 8300 + os.getpid() % 500
    environment = {"PATH": f"{crumbcoat.parent}:/usr/bin:/bin", "HOME": str(site), "LANG": "C.UTF-8"}
    command = [crumbcoat, "serve", "--dev-addr", f"127.0.0.1:{port}"]
    with subprocess.Popen(
        command, cwd=site, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True
    ) as process:
        try:
            yield f"http://127.0.0.1:{port}/"
        finally:
            os.killpg(process.pid, 15)


def until(address: str, words: str, *, is_there: bool = True) -> str:
    """The page at an address once it has these words, or has them no more."""
    for _ in range(600):
        try:
            text = str(urllib.request.urlopen(address, timeout=10).read().decode())
            if (words in text) == is_there:
                return text
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            pass
        time.sleep(0.1)
    raise AssertionError(f"{address} never {'had' if is_there else 'lost'} {words!r}")


def test_serve_starts_with_a_broken_file_and_follows_what_is_saved(
    run: Callable[..., str], crumbcoat: Path, tmp_path: Path
) -> None:
    run(tmp_path, "new-site", "kitchen", "--yes")
    site = tmp_path / "kitchen"
    run(site, "new-recipe", "Quince cream", "--family", "whipped cream")
    recipe = site / "docs" / "recipes" / "quince-cream.yaml"
    good = recipe.read_text(encoding="utf-8")
    recipe.write_text(good.replace("400 g", "400 gx"), encoding="utf-8")
    with serving(crumbcoat, site) as address:
        assert "quince-cream.yaml:" in until(f"{address}recipes/quince-cream/", "cc-problems")
        assert "quince-cream.yaml:" in until(address, "cc-problems")
        recipe.write_text(good, encoding="utf-8")
        assert 'data-text="fat.percent"' in until(f"{address}recipes/quince-cream/", "cc-problems", is_there=False)
        recipe.write_text(good.replace("summary: ", "summary: Pink. "), encoding="utf-8")
        until(f"{address}recipes/quince-cream/", "Pink.")
        until(address, "Pink.")
