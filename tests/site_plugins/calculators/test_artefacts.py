"""The runtime's files: made once, found again, the same bytes each time, and they answer as CPython does."""

import ast
import hashlib
import json
import shutil
from collections.abc import Callable
from pathlib import Path

import crumbcoat_calc
import pytest
from crumbcoat_calc.bridge import Session
from crumbcoat_site.calculators import artefacts as module
from crumbcoat_site.calculators import prepared as brought
from crumbcoat_site.calculators.artefacts import PYODIDE, STARTS, ArtefactError, Artefacts, artefacts
from crumbcoat_site.calculators.bundle import BROWSER
from crumbcoat_site.calculators.generations import UNSTARTED
from crumbcoat_site.calculators.node import NodeError, node_command, run

HERE = Path(__file__).parent

OTHER_TABLE = f'--import="{(HERE / "other_table.mjs").as_uri()}"'
"""An option of Node.js."""


@pytest.fixture(scope="module")
def requests(content: dict[str, object]) -> list[str]:
    """The first without its context, as a page asks; then edits, each of a page that shows the reply before."""
    plain: dict[str, object] = {"calculator": "batch", "context": "plain", "state": {}, "edit": {}}
    edits = [{}, {"factor": "2"}, {"factor": "no"}, {"amount.cream": "1 US cup"}, {"amount.sugar": "-1"}]
    asked = [plain, plain | {"content": content}]
    asked += [plain | {"edit": edit, "shown": shown} for shown, edit in enumerate(edits)]
    lines = [json.dumps(request, ensure_ascii=False) for request in asked]
    return [*lines, "not JSON", json.dumps(plain | {"calculator": "none"})]


def answers_here(requests: list[str]) -> list[str]:
    session = Session()
    return [session.answer(request) for request in requests]


@pytest.mark.parametrize(
    "start",
    # The ordinary one answers the same requests further down, as a wheel without Node starts.
    [pytest.param(start, marks=pytest.mark.full if start == "ordinary" else ()) for start in STARTS],
)
def test_pyodide_answers_as_cpython_does(
    runtime: Artefacts,
    requests: list[str],
    start: str,
    pyodide_answers: Callable[..., list[str]],
) -> None:
    assert pyodide_answers(runtime.folder, start, requests) == answers_here(requests)


@pytest.mark.parametrize(("browser", "option"), [("iPhone", ""), ("", OTHER_TABLE)])
def test_a_snapshot_answers_where_the_engine_calls_functions_in_another_way(
    runtime: Artefacts,
    requests: list[str],
    pyodide_answers: Callable[..., list[str]],
    monkeypatch: pytest.MonkeyPatch,
    browser: str,
    option: str,
) -> None:
    # On iOS, Pyodide adds no trampoline to the table of functions; in WebKit it has another place there. A snapshot
    # with the pointer of the Node that made it stops at the first call: "table index is out of bounds" on iOS, and in
    # WebKit "call_indirect to a signature that does not match".
    monkeypatch.setenv("NODE_OPTIONS", option)
    assert pyodide_answers(runtime.folder, "snapshot", requests, browser) == answers_here(requests)


@pytest.mark.parametrize("fact", ["functions", "checksum"])
def test_an_image_for_another_pyodide_is_refused_before_anything_runs_on_it(
    runtime: Artefacts, pyodide_answers: Callable[..., list[str]], tmp_path: Path, fact: str
) -> None:
    folder = shutil.copytree(runtime.folder, tmp_path / "runtime")
    image = bytearray((folder / "memory.bin").read_bytes())
    image[4 * {"functions": 2, "checksum": 4}[fact]] ^= 1
    (folder / "memory.bin").write_bytes(image)
    with pytest.raises(AssertionError, match="the memory image is of another Pyodide"):
        pyodide_answers(folder, "snapshot", ["{}"])


def test_hundreds_of_answers_leave_its_memory_whole(
    runtime: Artefacts, content: dict[str, object], pyodide_answers: Callable[..., list[str]]
) -> None:
    # The snapshot lands in a memory that this host has begun to use in its own way: an allocator that meets a trace of
    # that gives wrong answers or none, though seldom at once.
    edits = [{"factor": f"{number}/7"} for number in range(1, 250)] + [{"amount.cream": "x" * 10**4}, {"factor": "2"}]
    requests = [
        json.dumps(
            {"calculator": "batch", "context": "plain", "state": {"amount.sugar": f"{number}"}, "edit": edit}
            | ({"content": content} if number % 50 == 1 else {"shown": number - 1})
        )
        for number, edit in enumerate(edits, start=1)
    ]
    assert pyodide_answers(runtime.folder, "snapshot", requests) == answers_here(requests)


def test_a_second_build_finds_the_first_and_an_other_input_is_another_digest(
    runtime: Artefacts, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    before = {path: path.stat().st_mtime_ns for path in runtime.files.values()}
    assert artefacts(runtime.folder.parent) == runtime
    assert {path: path.stat().st_mtime_ns for path in runtime.files.values()} == before
    package = tmp_path / "crumbcoat_calc"
    shutil.copytree(Path(crumbcoat_calc.__file__).parent, package)
    (package / "data" / "units.txt").write_text((package / "data" / "units.txt").read_text() + "\n# changed\n")
    other = module._digest(module.bundled(package, "pint"))
    assert other != runtime.digest
    assert module._digest(module.bundled(Path(crumbcoat_calc.__file__).parent, "pint")) == runtime.digest


@pytest.mark.full
def test_two_builds_give_the_same_bytes(runtime: Artefacts, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    # The second is made by a copy elsewhere: no path of the machine may be in what readers fetch. It is made with other
    # places in the table of functions: these differ between browsers, and none may be in the image.
    monkeypatch.setenv("NODE_OPTIONS", OTHER_TABLE)
    elsewhere = tmp_path / "an_installation_elsewhere"
    shutil.copytree(module.HERE, elsewhere, ignore=shutil.ignore_patterns("node_modules"))
    (elsewhere / "runtime" / "node_modules").symlink_to(PYODIDE.parent)
    monkeypatch.setattr(module, "HERE", elsewhere)
    monkeypatch.setattr(module, "RUNTIME", elsewhere / "runtime")
    other = artefacts(tmp_path / "cache")
    assert other.folder != runtime.folder
    assert other.manifest == runtime.manifest
    assert {path.name: path.read_bytes() for path in other.files.values()} == {
        path.name: path.read_bytes() for path in runtime.files.values()
    }


def test_the_manifest_lists_every_file_with_its_size_and_hash(runtime: Artefacts) -> None:
    for name, facts in runtime.manifest["files"].items():
        content = (runtime.folder / name).read_bytes()
        assert facts["bytes"] == len(content)
        assert facts["sha256"] == hashlib.sha256(content).hexdigest()
    assert {name for names in STARTS.values() for name in names} == set(runtime.manifest["files"])


def test_the_snapshot_holds_every_module_that_calc_may_still_ask_for(runtime: Artefacts) -> None:
    # After a start from the snapshot there are no files to import from: an import inside a function must find its
    # module loaded. Anything missing would make the worker start again, the long way.
    package = Path(crumbcoat_calc.__file__).parent
    missing = set()
    for path in package.rglob("*.py"):
        name = ".".join(("crumbcoat_calc", *path.relative_to(package).with_suffix("").parts)).removesuffix(".__init__")
        if name not in runtime.modules:
            continue
        tree = ast.parse(path.read_text(encoding="utf-8"))
        guarded = {
            node for one in ast.walk(tree) if isinstance(one, ast.If) and "TYPE_CHECKING" in ast.unparse(one.test)
            for node in ast.walk(one)
        }  # fmt: skip
        for node in ast.walk(tree):
            if node in guarded:
                continue
            if isinstance(node, ast.Import):
                missing |= {alias.name for alias in node.names} - runtime.modules
            elif isinstance(node, ast.ImportFrom) and node.module not in runtime.modules:
                missing.add(str(node.module))
    assert missing == set()


def test_without_pyodide_the_message_says_what_to_run(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(module, "PYODIDE", tmp_path)
    with pytest.raises(ArtefactError, match="run `make setup`"):
        artefacts(tmp_path)


def test_a_pyodide_that_is_not_the_one_of_the_lock_file_is_refused(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    # Its files would be kept under the digest of the other one.
    lock = tmp_path / "package-lock.json"
    lock.write_text('{"packages": {"node_modules/pyodide": {"version": "1.2.3"}}}')
    monkeypatch.setattr(module, "LOCK", lock)
    with pytest.raises(
        ArtefactError, match=r"package-lock.json has 1\.2\.3.\n    Fix: run `make setup`, or `npm ci` in "
    ):
        artefacts(tmp_path / "cache")


def test_a_trimmed_file_that_does_not_start_is_not_blamed_on_the_list(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "start_in_node.mjs").write_text("console.error('no memory left'); process.exit(3)")
    monkeypatch.setattr(module, "RUNTIME", tmp_path)
    starts, reason = module._with_pyodide(tmp_path, node_command(), PYODIDE)
    assert "pyodide.asm.wasm" in starts["snapshot"]
    assert reason == (
        "the trimmed one did not start (exit code 3).\nno memory left\n"
        "    Fix: build again, and if that does not help, run `make profile`."
    )
    whole = Artefacts(digest="0", folder=tmp_path, manifest={"files": {}, "starts": starts})
    assert "entered.json is for another version of Pyodide" in whole.drawback
    (tmp_path / UNSTARTED).write_text(reason)
    assert whole.drawback == f"readers get the whole interpreter, 1.3 MB more: {reason}"


@pytest.fixture
def wheel(runtime: Artefacts, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """The folder that a wheel brings along, on a machine without Node.js."""
    folder = tmp_path / "prepared"
    monkeypatch.setattr(brought, "PREPARED", folder)
    module.prepare_wheel(runtime)
    monkeypatch.setattr(module, "PYODIDE", tmp_path / "nowhere")

    def no_node() -> str:
        raise NodeError("there is no Node.js on this machine.")

    monkeypatch.setattr(module, "node_command", no_node)
    return folder


def test_what_a_wheel_brings_is_the_same_runtime_without_node(runtime: Artefacts, wheel: Path, tmp_path: Path) -> None:
    taken = artefacts(tmp_path / "cache")
    assert taken.digest == runtime.digest
    assert taken.manifest == runtime.manifest
    assert {path.name: path.read_bytes() for path in taken.files.values()} == {
        path.name: path.read_bytes() for path in runtime.files.values()
    }
    assert taken.drawback == ""
    assert taken.modules == runtime.modules


def test_with_another_calc_and_no_node_a_wheel_starts_in_the_ordinary_way(
    runtime: Artefacts,
    requests: list[str],
    wheel: Path,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    pyodide_answers: Callable[..., list[str]],
) -> None:
    packages = {**module.bundled(Path(crumbcoat_calc.__file__).parent, "pint"), "pint/changed.py": b""}
    monkeypatch.setattr(module, "bundled", lambda *_: packages)
    ordinary = artefacts(tmp_path / "cache")
    assert ordinary.digest != runtime.digest
    assert set(ordinary.manifest["starts"]) == {"ordinary"}
    assert ordinary.drawback == (
        "calculators start in the ordinary way, which takes readers four times as long: "
        "there is no Node.js on this machine."
    )
    assert pyodide_answers(ordinary.folder, "ordinary", requests) == answers_here(requests)


@pytest.mark.full
def test_with_another_calc_node_makes_the_runtime_from_what_the_wheel_brings(
    runtime: Artefacts, wheel: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    facts = json.loads((wheel / "prepared.json").read_text())
    (wheel / "prepared.json").write_text(json.dumps({**facts, "fits": "another"}))
    monkeypatch.setattr(module, "node_command", node_command)
    made = artefacts(tmp_path / "cache")
    assert made.manifest == runtime.manifest


def test_a_wheel_is_not_made_from_a_runtime_with_a_drawback(runtime: Artefacts) -> None:
    whole = Artefacts(digest="0", folder=runtime.folder, manifest={"files": {}, "starts": STARTS})
    with pytest.raises(ArtefactError, match="readers get the whole interpreter"):
        module.prepare_wheel(whole)


def test_the_pinned_pyodide_is_the_one_the_markers_speak_of() -> None:
    info = json.loads((PYODIDE / "pyodide-lock.json").read_text(encoding="utf-8"))["info"]
    assert (info["python"], info["arch"]) == (BROWSER["python_full_version"], BROWSER["platform_machine"])


def test_a_snapshot_that_cannot_be_made_gives_the_reason(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    broken = tmp_path / "runtime"
    broken.mkdir()
    (broken / "snapshot.mjs").write_text("throw new Error('no memory left')")
    monkeypatch.setattr(module, "RUNTIME", broken)
    monkeypatch.setattr(module, "HERE", tmp_path)
    monkeypatch.setattr(module, "__file__", str(broken / "snapshot.mjs"))
    with pytest.raises(ArtefactError, match="no memory left"):
        artefacts(tmp_path / "cache")
    assert not list((tmp_path / "cache").iterdir())


def test_node_is_the_pinned_one() -> None:
    assert run(node_command(), "--version").stdout.startswith("v24.")
