"""The shape of the code base, read from its imports and files: DEVELOPERS.md gives the reasons."""

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
from crumbcoat_calc.calculators import CALCULATORS
from crumbcoat_calc.tables import citations

pytestmark = pytest.mark.no_cover  # Files are read here; what runs is tested elsewhere.

ROOT = Path(__file__).parents[1]

SOURCES = {"calc": "crumbcoat_calc", "site_plugins": "crumbcoat_site", "bench": "bench"}
"""The folders with Python code, and the import name of each."""

ROOMS: tuple[tuple[str, ...], ...] = (
    ("errors", "tables"),
    ("values",),
    ("foods",),
    ("kitchen",),
    ("recipe",),
    ("science", "cakes", "formulation", "label", "purchasing"),
    ("lesson",),
    ("forms",),
    ("pictures",),
    ("texts",),
    ("trials",),
    ("calculators",),
    ("bridge",),
)
"""The rooms of calc, from the ground up. A room imports only rooms on lower floors."""

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
FILE_READERS = {"crumbcoat_calc.tables", "crumbcoat_calc.values.units"}
EMPTY_NAMES = {"utils", "util", "helpers", "helper", "common", "base", "manager", "misc", "core", "tools"}


@cache
def files() -> tuple[Path, ...]:
    """Every file that git tracks or would add."""
    command = ["git", "ls-files", "--cached", "--others", "--exclude-standard"]
    listed = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    return tuple(path for line in listed.splitlines() if (path := ROOT / line).is_file())


def modules(*folders: str) -> list[Path]:
    """Our modules in these folders; their tests are in a separate folder, or beside a component."""
    found = [path for path in files() if path.suffix == ".py" and path.relative_to(ROOT).parts[0] in folders]
    return [path for path in found if not path.name.startswith("test_")]


@cache
def name_of(path: Path) -> str:
    """The import name of a module."""
    folder, *parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join([folder, *parts] if folder == "bench" else parts).removesuffix(".__init__")


@cache
def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def imports(path: Path) -> frozenset[str]:
    """All modules that a module imports; `from a import b` counts as a.b if that is a module."""
    found = set()
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: a relative import"
            module = str(node.module)
            inner = {f"{module}.{alias.name}" for alias in node.names}
            known = {name for name in inner if name in OURS}
            found |= known
            if known != inner:
                found.add(module)
    return frozenset(found)


def within(module: str, package: str) -> bool:
    return module == package or module.startswith(f"{package}.")


def room_of(module: str) -> str:
    """The room of a calc module, or the module's own name if it is on the doorstep."""
    return module.split(".")[1] if "." in module else ""


CALC = modules("calc")
PLUGINS = modules("site_plugins")
ALL = [*CALC, *PLUGINS, *modules("bench")]
OURS = {name_of(path) for path in ALL}
SCRIPTS = [path for path in files() if path.suffix in (".js", ".mjs") and path.is_relative_to(ROOT / "site_plugins")]
FLOOR = {room: floor for floor, rooms in enumerate(ROOMS) for room in rooms}


def test_calc_imports_the_standard_library_and_itself_and_units_pint() -> None:
    wrong = {}
    for path in CALC:
        outside = {name.split(".")[0] for name in imports(path)} - sys.stdlib_module_names - {"crumbcoat_calc"}
        if outside != ({"pint"} if name_of(path) == "crumbcoat_calc.values.units" else set()):
            wrong[name_of(path)] = outside
    assert wrong == {}


def test_calc_knows_no_host_no_clock_and_no_chance() -> None:
    wrong = []
    for path in CALC:
        wrong += [(name_of(path), name) for name in imports(path) if name.split(".")[0] in NO_HOST]
        for node in ast.walk(tree_of(path)):
            if isinstance(node, ast.Attribute) and node.attr in {"now", "today", "utcnow"}:
                wrong.append((name_of(path), node.attr))
            if name_of(path) not in FILE_READERS and isinstance(node, ast.Name) and node.id == "open":
                wrong.append((name_of(path), "open"))
        if name_of(path) not in FILE_READERS:
            wrong += [(name_of(path), name) for name in imports(path) if within(name, "pathlib")]
    assert wrong == []


def test_a_room_of_calc_imports_only_rooms_on_lower_floors() -> None:
    wrong = []
    for path in CALC:
        room = room_of(name_of(path))
        for name in imports(path):
            other = room_of(name) if within(name, "crumbcoat_calc") else ""
            if other and other != room and FLOOR[other] >= FLOOR[room]:
                wrong.append(f"{name_of(path)} imports {name}")
    assert wrong == []


def test_every_module_of_calc_is_in_a_room() -> None:
    assert {room_of(name_of(path)) for path in CALC} == {"", *FLOOR}


@pytest.mark.parametrize("folder", SOURCES)
def test_no_modules_import_each_other_in_a_circle(folder: str) -> None:
    paths = modules(folder)
    graph = {name_of(path): {name for name in imports(path) if name in OURS} for path in paths}
    assert len(list(TopologicalSorter(graph).static_order())) >= len(paths) > 3


def test_one_calculator_never_imports_another() -> None:
    calculators = [path for path in CALC if name_of(path).startswith("crumbcoat_calc.calculators.")]
    assert len(calculators) >= len(CALCULATORS)
    wrong = [(name_of(path), name) for path in calculators for name in imports(path) if room_of(name) == "calculators"]
    assert wrong == []


def test_only_the_hooks_and_options_of_a_plugin_know_mkdocs() -> None:
    hosts = [path for path in PLUGINS if path.name in ("plugin.py", "config.py")]
    assert len(hosts) >= 6
    others = [path for path in ALL if path not in hosts]
    assert [name_of(path) for path in others if any(within(name, "mkdocs") for name in imports(path))] == []


RECIPE_CARDS: tuple[tuple[str, ...], ...] = (
    ("build",),
    ("pictures",),
    ("source", "contrast"),
    ("wording",),
    ("card", "handout"),
    ("embed",),
    ("pages",),
    ("serving", "rendering"),
    ("config",),
    ("plugin",),
)
"""The rooms of recipe_cards from the ground up, like ROOMS; the last two are on the doorstep."""


def test_a_room_of_recipe_cards_imports_only_rooms_on_lower_floors() -> None:
    floor = {room: number for number, rooms in enumerate(RECIPE_CARDS) for room in rooms}
    inside = "crumbcoat_site.recipe_cards."
    wrong = []
    for path in PLUGINS:
        module = name_of(path)
        for name in imports(path) if module.startswith(inside) else ():
            room, other = module.split(".")[2], name.split(".")[2] if name.startswith(inside) else ""
            if other and other != room and floor[other] >= floor[room]:
                wrong.append(f"{module} imports {name}")
    assert wrong == []


STARTED_BY_NAME = {
    "recipe_reader.js",
    "handout.js",
    "calculator.js",
    "moved.js",
    "register.js",
    "embedded_card.js",
    "host.js",
    "worker.js",
    "take_down.js",
    "snapshot.mjs",
    "start_in_node.mjs",
}
"""The scripts started by a page, a browser or the build; each of the others is imported by one of them."""

SCRIPT_IMPORT = re.compile(r"""(?:\bfrom |\bimport |\bimport\()["'](\.[^"']+)["']""")


@cache
def scripts_imported_by(path: Path) -> frozenset[Path]:
    """The scripts that a script imports, at its start, later, or for a type; manifest.js is written by the build."""
    names = SCRIPT_IMPORT.findall(path.read_text(encoding="utf-8"))
    return frozenset({(path.parent / name).resolve() for name in names} - {path.with_name("manifest.js")})


def test_no_scripts_import_each_other_in_a_circle() -> None:
    graph = {path: scripts_imported_by(path) for path in SCRIPTS}
    assert len(list(TopologicalSorter(graph).static_order())) == len(SCRIPTS) > 20


def test_a_script_is_started_by_name_or_imported_and_never_both() -> None:
    imported = {path for script in SCRIPTS for path in scripts_imported_by(script)}
    assert imported <= set(SCRIPTS)
    assert {path.name for path in SCRIPTS if path not in imported} == STARTED_BY_NAME
    assert [path.name for path in imported if path.name in STARTED_BY_NAME] == []


def test_a_script_is_small() -> None:
    assert [path.name for path in SCRIPTS if path.read_text(encoding="utf-8").count("\n") > 300] == []


FOOD_TABLES = "crumbcoat_site.food_tables"
SHARED_BY_PLUGINS = {
    "crumbcoat_site.minified",
    "crumbcoat_site.plugin_options.config",
    f"{FOOD_TABLES}.kinds",
    f"{FOOD_TABLES}.rows",
}
USE_THEM = ("crumbcoat_site.reference", "crumbcoat_site.command", "crumbcoat_site.bring_in")
"""Beside the plug-ins, not in one; it is itself in PLUGINS, so it may not import any of them."""


def test_the_plugins_ignore_each_other() -> None:
    wrong = []
    for path in [path for path in PLUGINS if not any(within(name_of(path), user) for user in USE_THEM)]:
        own = name_of(path).split(".")[:2]
        others = [name for name in imports(path) if within(name, "crumbcoat_site") and name.split(".")[:2] != own]
        wrong += [(name_of(path), name) for name in others if name not in SHARED_BY_PLUGINS]
    assert wrong == []


def test_a_module_is_small_and_its_name_says_what_it_knows() -> None:
    assert [name_of(path) for path in ALL if path.read_text(encoding="utf-8").count("\n") > 300] == []
    assert [name_of(path) for path in ALL if set(name_of(path).split(".")) & EMPTY_NAMES] == []


def test_no_error_is_swallowed_whole() -> None:
    wrong = []
    for path in ALL:
        for node in ast.walk(tree_of(path)):
            if isinstance(node, ast.ExceptHandler):
                caught = {part.id for part in ast.walk(node.type) if isinstance(part, ast.Name)} if node.type else {""}
                if caught & {"", "Exception", "BaseException"}:
                    wrong.append(f"{name_of(path)}, line {node.lineno}")
    assert wrong == []


def test_a_module_and_what_it_offers_have_docstrings() -> None:
    wrong = []
    for path in ALL:
        tree = tree_of(path)
        if not ast.get_docstring(tree) and tree.body:
            wrong.append(name_of(path))
        # The calculators' package, MkDocs, and the module that a stub replaces document these functions.
        if within(name_of(path), "crumbcoat_calc.calculators") or path.name == "plugin.py" or "stubs" in path.parts:
            continue
        public = [node for node in tree.body if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")]
        wrong += [f"{name_of(path)}.{node.name}" for node in public if not ast.get_docstring(node)]
    assert wrong == []


def referred_to(path: Path) -> Iterator[tuple[str, str]]:
    """The module and name of everything a module uses: its own names outside their definitions, imports, and `a.b`."""
    modules_by_alias = {}
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.ImportFrom):
            yield from ((str(node.module), alias.name) for alias in node.names)
            modules_by_alias |= {alias.asname or alias.name: f"{node.module}.{alias.name}" for alias in node.names}
    for statement in tree_of(path).body:
        own = defined_by(statement)
        for node in ast.walk(statement):
            if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load) and node.id not in own:
                yield name_of(path), node.id
            elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
                yield modules_by_alias.get(node.value.id, ""), node.attr


def defined_by(statement: ast.stmt) -> set[str]:
    """The names that a statement defines."""
    if isinstance(statement, ast.FunctionDef | ast.ClassDef):
        return {statement.name}
    targets = statement.targets if isinstance(statement, ast.Assign) else [getattr(statement, "target", None)]
    return {node.id for target in targets if target for node in ast.walk(target) if isinstance(node, ast.Name)}


CALLED_BY_NAME = ("read", "apply_edit", "form_state", "calculate", "texts")
"""What `calculators.solve` calls on the module of each calculator, and `later_texts` and LATER where it has them."""


def test_nothing_public_in_calc_is_without_a_caller_in_the_product() -> None:
    used = {pair for path in [*CALC, *PLUGINS] for pair in referred_to(path)}
    used |= {("crumbcoat_calc.bridge", name) for name in ("answer", "warm")}  # called from JavaScript
    dead = []
    for path in CALC:
        public = {name for statement in tree_of(path).body for name in defined_by(statement) if name[0] != "_"}
        if within(name_of(path), "crumbcoat_calc.calculators"):
            public -= {*CALLED_BY_NAME, "later_texts", "LATER"}
        dead += [f"{name_of(path)}.{name}" for name in sorted(public) if (name_of(path), name) not in used]
    assert dead == []


def test_no_public_method_of_calc_is_without_a_caller_in_the_product() -> None:
    templates = [path.read_text(encoding="utf-8") for path in files() if path.suffix == ".jinja"]
    used = set(re.findall(r"\.(\w+)", "\n".join(templates)))
    used |= {
        node.attr for path in [*CALC, *PLUGINS] for node in ast.walk(tree_of(path)) if isinstance(node, ast.Attribute)
    }
    dead = []
    for path in CALC:
        for node in tree_of(path).body:
            methods = [part.name for part in getattr(node, "body", []) if isinstance(part, ast.FunctionDef)]
            if isinstance(node, ast.ClassDef):
                dead += [
                    f"{name_of(path)}.{node.name}.{name}" for name in methods if name[0] != "_" and name not in used
                ]
    assert dead == []


def test_every_table_is_read() -> None:
    read = "\n".join([path.read_text(encoding="utf-8") for path in CALC])
    assert [path.name for path in TABLES if f'"{path.stem}"' not in read and path.name != "sources.csv"] == []


@pytest.mark.parametrize("name", CALCULATORS)
def test_a_calculator_has_its_functions_and_its_tests(name: str) -> None:
    module = CALCULATORS[name]
    for function in CALLED_BY_NAME:
        assert callable(getattr(module, function, None)), function
    last = module.__name__.rpartition(".")[2]
    assert (ROOT / "tests" / "calc" / "calculators" / f"test_{last}.py").is_file()


def test_every_calculator_module_is_listed() -> None:
    listed = {module.__name__ for module in CALCULATORS.values()}
    assert listed == {name_of(path) for path in CALC if name_of(path).startswith("crumbcoat_calc.calculators.")}


TABLES = [
    path for path in files() if path.parent == ROOT / "calc" / "crumbcoat_calc" / "data" and path.suffix == ".csv"
]


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
            continue  # a picture, or a golden file that is deliberately wrong


def test_no_file_names_a_package_registry_or_a_place_on_one_machine() -> None:
    hosts = ("npmjs" + ".org", "pypi" + ".org", "python" + "hosted.org", "jsdel" + "ivr.net", "unpkg" + ".com")
    places = re.compile(r"(?<![\w.~*-])/(?:" + "root|work|home|tmp/wt|Users" + r")/\w")
    for path, text in texts():
        assert not [host for host in hosts if host in text], path
        assert not places.search(text), (path, places.search(text))
