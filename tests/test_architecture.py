"""The shape of the code base, read from its imports and files: DEVELOPERS.md tells the reasons."""

import ast
import csv
import re
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

from calc.calculators import CALCULATORS
from calc.tables import citations

ROOT = Path(__file__).parents[1]

LAYERS = (
    ("calc.errors", "calc.exact", "calc.draws", "calc.drawing"),
    ("calc.fields", "calc.tables", "calc.display"),
    ("calc.units",),
    ("calc.components", "calc.stated_composition", "calc.foods"),
    ("calc",),
    ("calc.calculators.*",),
    ("calc.calculators",),
    ("calc.bridge",),
)
"""From the ground up; a module knows its own layer and those below. `calc` stands for every subject not named."""

ALONE = {
    "calc.science": ("calc.recipe", "calc.label", "calc.cakes", "calc.pictures", "calc.figures"),
    "calc.cakes": ("calc.recipe", "calc.label", "calc.science", "calc.foods", "calc.pictures"),
    "calc.recipe": ("calc.label", "calc.science", "calc.cakes", "calc.pictures", "calc.figures"),
    "calc.label": ("calc.science", "calc.cakes", "calc.pictures"),
}
"""Subjects that do not know of each other, whatever layer they are in."""

NO_HOST = {
    "os",
    "time",
    "random",
    "secrets",
    "socket",
    "subprocess",
    "threading",
    "urllib",
    "http",
    "sqlite3",
    "shutil",
}
FILE_READERS = {"calc.tables", "calc.units"}
EMPTY_NAMES = {"utils", "util", "helpers", "helper", "common", "base", "manager", "misc", "core", "tools"}


@cache
def files() -> tuple[Path, ...]:
    """Every file that git knows of or would take in."""
    command = ["git", "ls-files", "--cached", "--others", "--exclude-standard"]
    listed = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    return tuple(path for line in listed.splitlines() if (path := ROOT / line).is_file())


def modules(*packages: str) -> list[Path]:
    return [path for path in files() if path.suffix == ".py" and path.relative_to(ROOT).parts[0] in packages]


def name_of(path: Path) -> str:
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


@cache
def imports(path: Path) -> frozenset[str]:
    """The modules that a module imports, wherever in it; `from a import b` is a.b where that is a module."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: a relative import"
            module = str(node.module)
            inner = {f"{module}.{alias.name}" for alias in node.names}
            known = {name for name in inner if ROOT.joinpath(*name.split(".")).with_suffix(".py").is_file()}
            found |= known
            if known != inner:
                found.add(module)
    return frozenset(found)


def within(module: str, package: str) -> bool:
    return module == package or module.startswith(f"{package}.")


def layer(module: str) -> int:
    if module.startswith("calc.calculators."):
        return LAYERS.index(("calc.calculators.*",))
    found = [number for number, names in enumerate(LAYERS) if module in names]
    return found[0] if found else LAYERS.index(("calc",))


CALC = modules("calc")
PLUGINS = modules("site_plugins")
every_calc_module = pytest.mark.parametrize("path", CALC, ids=name_of)
every_module = pytest.mark.parametrize("path", [*CALC, *PLUGINS, *modules("bench")], ids=name_of)


@every_calc_module
def test_calc_imports_the_standard_library_and_itself_and_units_pint(path: Path) -> None:
    outside = {name.split(".")[0] for name in imports(path)} - sys.stdlib_module_names - {"calc"}
    assert outside == ({"pint"} if name_of(path) == "calc.units" else set())


@every_calc_module
def test_calc_knows_no_host_no_clock_and_no_chance(path: Path) -> None:
    assert not {name.split(".")[0] for name in imports(path)} & NO_HOST
    tree = ast.parse(path.read_text(encoding="utf-8"))
    assert not {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)} & {"now", "today", "utcnow"}
    if name_of(path) not in FILE_READERS:
        assert not any(within(name, "pathlib") for name in imports(path))
        assert not any(isinstance(node, ast.Name) and node.id == "open" for node in ast.walk(tree))


@every_calc_module
def test_a_module_knows_its_layer_and_those_below(path: Path) -> None:
    for name in imports(path):
        if within(name, "calc"):
            assert layer(name) <= layer(name_of(path)), f"{name_of(path)} imports {name}"


@every_calc_module
def test_subjects_that_stand_alone_do(path: Path) -> None:
    for subject, strangers in ALONE.items():
        if within(name_of(path), subject):
            assert not [name for name in imports(path) for stranger in strangers if within(name, stranger)]


def test_no_modules_import_each_other_in_a_circle() -> None:
    graph = {name_of(path): {name for name in imports(path) if within(name, "calc")} for path in CALC}
    assert len(list(TopologicalSorter(graph).static_order())) >= len(CALC)


@every_calc_module
def test_one_calculator_never_imports_another(path: Path) -> None:
    if name_of(path).startswith("calc.calculators."):
        assert not [name for name in imports(path) if within(name, "calc.calculators")]


@every_module
def test_only_the_hooks_and_options_of_a_plugin_know_mkdocs(path: Path) -> None:
    if not (within(name_of(path), "site_plugins") and path.name in ("plugin.py", "config.py")):
        assert not any(within(name, "mkdocs") for name in imports(path))


SHARED_BY_PLUGINS = {"site_plugins.minified"}
"""Beside the plugins, not in one; it is among PLUGINS itself, and so may import none of them."""


@pytest.mark.parametrize("path", PLUGINS, ids=name_of)
def test_the_plugins_ignore_each_other(path: Path) -> None:
    own = name_of(path).split(".")[:2]
    others = [name for name in imports(path) if within(name, "site_plugins") and name.split(".")[:2] != own]
    assert [name for name in others if name not in SHARED_BY_PLUGINS] == []


@every_module
def test_a_module_is_small_and_its_name_says_what_it_knows(path: Path) -> None:
    assert path.read_text(encoding="utf-8").count("\n") <= 300
    assert not set(name_of(path).split(".")) & EMPTY_NAMES


@every_module
def test_no_error_is_swallowed_whole(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ExceptHandler):
            assert node.type is not None, f"line {node.lineno}"
            caught = {part.id for part in ast.walk(node.type) if isinstance(part, ast.Name)}
            assert not caught & {"Exception", "BaseException"}, f"line {node.lineno}"


@every_module
def test_a_module_and_what_it_offers_have_docstrings(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    assert ast.get_docstring(tree) or not tree.body, name_of(path)
    for node in tree.body:
        # What these functions are for is told once, by the calculators' package, by MkDocs, and by what stands in.
        protocol = within(name_of(path), "calc.calculators") or path.name == "plugin.py" or "standins" in path.parts
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_") and not protocol:
            assert ast.get_docstring(node), f"{name_of(path)}.{node.name}"


@pytest.mark.parametrize("name", CALCULATORS)
def test_a_calculator_has_its_functions_and_its_tests(name: str) -> None:
    module = CALCULATORS[name]
    for function in ("read", "keep", "calculate", "show"):
        assert callable(getattr(module, function, None)), function
    last = module.__name__.rpartition(".")[2]
    assert (ROOT / "tests" / "calc" / "calculators" / f"test_{last}.py").is_file()


def test_every_calculator_module_is_listed() -> None:
    listed = {module.__name__ for module in CALCULATORS.values()}
    assert listed == {name_of(path) for path in CALC if name_of(path).startswith("calc.calculators.")}


TABLES = [path for path in files() if path.parent == ROOT / "calc" / "data" and path.suffix == ".csv"]


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.name)
def test_every_row_of_a_table_has_a_known_source_and_no_blank_cell(path: Path) -> None:
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert rows
    for number, row in enumerate(rows, 2):
        assert None not in row, f"row {number} has a cell too many"
        assert all(cell and cell.strip() for cell in row.values()), f"row {number} has a blank cell"
        if path.name != "sources.csv":
            assert row["source"] in citations(), f"row {number}"
    first = [next(iter(row.values())) for row in rows]
    assert first == sorted(first)


def test_every_source_is_used() -> None:
    texts = [path.read_text(encoding="utf-8") for path in [*CALC, *files()] if within_calc(path)]
    unused = [key for key in citations() if not any(re.search(rf"\b{re.escape(key)}\b", text) for text in texts)]
    assert unused == []


def within_calc(path: Path) -> bool:
    return path.is_relative_to(ROOT / "calc") and path.name != "sources.csv" and path.suffix in (".py", ".csv", ".txt")


def texts() -> Iterator[tuple[Path, str]]:
    for path in files():
        try:
            yield path, path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue  # a picture, or a golden file that is wrong on purpose


def test_no_file_names_a_package_registry_or_a_place_on_one_machine() -> None:
    hosts = ("npmjs" + ".org", "pypi" + ".org", "python" + "hosted.org", "jsdel" + "ivr.net", "unpkg" + ".com")
    places = re.compile(r"(?<![\w.~*-])/(?:" + "root|work|home|tmp/wt|Users" + r")/\w")
    for path, text in texts():
        assert not [host for host in hosts if host in text], path
        assert not places.search(text), (path, places.search(text))
