"""The trimmed interpreter: what is left of the file, and that a missing function costs a pause and no figure."""

import gzip
import json
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from crumbcoat_site.calculators import artefacts as module
from crumbcoat_site.calculators.artefacts import LOADER, PYODIDE, TRIMMED, WHOLE, Artefacts
from crumbcoat_site.calculators.node import node_command
from crumbcoat_site.calculators.trimmed import ENTERED, UNREACHABLE, Trimmed, numbers_in, trimmed, with_functions
from crumbcoat_site.calculators.webassembly import (
    CODE,
    EXPORTS,
    FUNCTION,
    GLOBAL,
    IMPORTS,
    bodies_of,
    content_of,
    exports_of,
    imported,
    sections_of,
)
from playwright.sync_api import Page, expect

from tests.interpreter.marked import marked

HOOK = f'--import="{(Path(marked.__code__.co_filename).parent / "entered_in_node.mjs").as_uri()}"'
"""An option of Node.js: the process writes which functions it has entered."""

FAILED = "localStorage['crumbcoat:calculators:/:failed']"


@pytest.fixture(scope="module")
def whole() -> bytes:
    return (PYODIDE / WHOLE).read_bytes()


@pytest.fixture(scope="module")
def kept() -> frozenset[int]:
    """The functions that are kept."""
    return frozenset(numbers_in(" ".join(json.loads(ENTERED.read_text(encoding="utf-8"))["functions"])))


@pytest.fixture(scope="module")
def request_of_a_page(content: dict[str, object]) -> str:
    request = {"calculator": "batch", "context": "plain", "content": content, "state": {}, "edit": {"factor": "2"}}
    return json.dumps(request)


@pytest.fixture(scope="module")
def missed(
    runtime: Artefacts,
    pyodide_answers: Callable[..., list[str]],
    request_of_a_page: str,
    whole: bytes,
    tmp_path_factory: pytest.TempPathFactory,
) -> dict[str, int]:
    """The largest function that a start enters, and the largest that only the answer to a request enters."""
    folder = shutil.copytree(runtime.folder, tmp_path_factory.mktemp("marked") / "runtime")
    (folder / TRIMMED).write_bytes(gzip.compress(marked(whole), 1))
    runs = []
    with pytest.MonkeyPatch.context() as environment:
        environment.setenv("NODE_OPTIONS", HOOK)
        environment.setenv("ENTERED", str(folder / "entered.json"))
        for requests in ([], [request_of_a_page]):
            pyodide_answers(folder, "snapshot", requests)
            runs.append(set(json.loads((folder / "entered.json").read_text())))
    started, answered = runs
    sizes = [len(body.code) for body in bodies_of(content_of(sections_of(whole), CODE))]
    largest = {"start": started, "answer": answered - started}
    return {when: max(functions, key=lambda function: sizes[function]) for when, functions in largest.items()}


def test_the_list_is_for_the_pyodide_that_is_installed(runtime: Artefacts) -> None:
    assert runtime.is_trimmed
    assert TRIMMED in runtime.manifest["starts"]["snapshot"]
    assert WHOLE in runtime.manifest["starts"]["ordinary"]
    assert gzip.decompress((runtime.folder / WHOLE).read_bytes()) == (PYODIDE / WHOLE).read_bytes()


def test_what_is_kept_stays_as_it_is_and_where_it_is(whole: bytes, kept: frozenset[int]) -> None:
    smaller = trimmed(whole, "")
    assert smaller
    before, after = sections_of(whole), sections_of(smaller.file)
    assert [section for section in after if section.number not in (EXPORTS, CODE)] == [
        section for section in before if section.number not in (EXPORTS, CODE)
    ]
    bodies = list(bodies_of(content_of(after, CODE)))
    expected = [
        body if number in kept else UNREACHABLE for number, body in enumerate(bodies_of(content_of(before, CODE)))
    ]
    assert bodies == expected
    assert 1_000 < len(kept) < len(bodies) / 2


INTERFACE = """
import { readFileSync } from "node:fs";
const module = new WebAssembly.Module(readFileSync(0));
const exports = WebAssembly.Module.exports(module).map(({ name, kind }) => [name, kind]);
const imports = WebAssembly.Module.imports(module).map(({ kind }) => kind);
console.log(JSON.stringify([exports, imports]));
"""


def interface_of(file: bytes) -> tuple[list[tuple[str, str]], list[str]]:
    """The names and kinds of a file's exports, and the kinds of its imports, as Node.js sees them."""
    command = [node_command(), "--input-type=module", "--eval", INTERFACE]
    done = subprocess.run(command, input=file, capture_output=True, check=True)
    exports, imports = json.loads(done.stdout)
    return [(name, kind) for name, kind in exports], imports


def test_what_is_exported_is_what_is_kept_and_what_the_loader_asks_for(whole: bytes, kept: frozenset[int]) -> None:
    """Checked against WebAssembly.Module.exports() and imports() of the WebAssembly JavaScript Interface."""
    loader = (PYODIDE / LOADER).read_text(encoding="utf-8")
    smaller = trimmed(whole, loader)
    assert smaller
    before, imports = interface_of(whole)
    after, _ = interface_of(smaller.file)
    exports = list(exports_of(content_of(sections_of(whole), EXPORTS)))
    asked = content_of(sections_of(whole), IMPORTS)
    first = imported(asked, FUNCTION)
    assert first == imports.count("function")
    assert imported(asked, GLOBAL) == imports.count("global")
    assert [export.name.decode() for export in exports] == [name for name, _ in before]
    assert [export.kind == FUNCTION for export in exports] == [kind == "function" for _, kind in before]
    entered = {export.name.decode() for export in exports if export.number - first in kept}
    named = {"_pyproxy_apply_promising", "run_main_promising"}
    assert all(f"wasmExports.{name}" in loader for name in named)
    assert after == [(name, kind) for name, kind in before if kind != "function" or name in entered | named]
    assert len(after) < len(before) / 2
    taken = set(re.findall(r'wasmExports\["(\w+)"\]', smaller.loader))
    assert len(taken & {name for name, _ in after}) > 800
    assert len(taken - {name for name, _ in after}) < 100, "what is left has a wrapper, which nothing calls"
    assert len(smaller.loader) < 0.8 * len(loader)


def test_for_another_file_there_is_no_list(whole: bytes) -> None:
    assert trimmed(whole + b"\0\1\0", "") is None


def test_a_build_sends_the_trimmed_file_only_if_it_answers(
    runtime: Artefacts, whole: bytes, kept: frozenset[int], missed: dict[str, int], tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    shutil.copyfile(runtime.folder / "memory.bin", tmp_path / "memory.bin")
    assert module._with_pyodide(tmp_path, node_command(), PYODIDE) == (module.STARTS, "")
    untrimmed = module.STARTS | {"snapshot": ("pyodide.mjs", LOADER, WHOLE, "memory.bin")}
    loader = (PYODIDE / LOADER).read_text(encoding="utf-8")
    for file in (
        None,
        with_functions(whole, kept - {missed["start"]}),
        with_functions(whole, kept - {missed["answer"]}),
    ):
        monkeypatch.setattr(module, "trimmed", lambda *_, file=file: file and Trimmed(file, loader))
        starts, unstarted = module._with_pyodide(tmp_path, node_command(), PYODIDE)
        assert starts == untrimmed
        assert ("unreachable" in unstarted) == (file is not None), "only a file that was tried can fail to start"


def test_the_notice_says_what_was_changed_in_which_version(runtime: Artefacts) -> None:
    notice = (runtime.folder / "NOTICE.txt").read_text(encoding="utf-8")
    version = json.loads((PYODIDE / "package.json").read_text(encoding="utf-8"))["version"]
    assert f"Pyodide {version}" in notice
    assert f"/{version}\n" in notice
    assert f"{runtime.uri}/NOTICE.txt" in runtime.files
    assert set(runtime.manifest["files"]) <= {word.strip(",.;") for word in notice.split()}


@pytest.mark.parametrize("when", ["start", "answer"])
def test_a_missed_function_is_a_trap_and_never_an_answer(
    runtime: Artefacts,
    pyodide_answers: Callable[..., list[str]],
    request_of_a_page: str,
    missed: dict[str, int],
    whole: bytes,
    kept: frozenset[int],
    tmp_path: Path,
    when: str,
) -> None:
    folder = shutil.copytree(runtime.folder, tmp_path / "runtime")
    (folder / TRIMMED).write_bytes(gzip.compress(with_functions(whole, kept - {missed[when]}), 1))
    # What Pyodide does with a trap while it starts may be missing too.
    with pytest.raises(AssertionError, match=r"unreachable|_set_error is not a function"):
        pyodide_answers(folder, "snapshot", [request_of_a_page])


@pytest.mark.parametrize("when", [pytest.param("start", marks=pytest.mark.full), "answer"])
def test_after_a_trap_the_whole_interpreter_answers_and_the_device_remembers(
    page: Page,
    small_site: tuple[Path, str],
    serve: Callable[[Path], str],
    answered: Callable[..., dict],
    missed: dict[str, int],
    whole: bytes,
    kept: frozenset[int],
    tmp_path: Path,
    when: str,
) -> None:
    site = shutil.copytree(small_site[0], tmp_path / "site")
    (file,) = site.glob(f"assets/runtime/*/{TRIMMED}")
    file.write_bytes(gzip.compress(with_functions(whole, kept - {missed[when]}), 1))
    address = serve(site)

    # Without a network there is no other interpreter: the printed figures stay, and nothing is remembered.
    page.route("**/packages.zip", lambda route: route.abort())
    page.goto(address)
    page.get_by_label("Batches").fill("2")
    expect(page.locator("recipe-calculator")).to_have_attribute("data-state", "failed")
    expect(page.locator("[data-text='fat.percent']")).to_have_text("printed")
    assert page.evaluate(FAILED) is None

    page.unroute("**/packages.zip")
    page.goto(address)
    page.get_by_label("Batches").fill("2")
    expected = answered(factor="2")["texts"]
    # A start that fails and then one from Pyodide's own files, beside other tests.
    expect(page.locator("[data-text='fat.percent']")).to_have_text(expected["fat.percent"], timeout=120_000)
    expect(page.locator("[data-text='amount.sugar']")).to_have_text(expected["amount.sugar"])
    assert page.evaluate(FAILED).endswith(f"/{file.parent.name}/")

    # The next page of this device starts in the ordinary way at once.
    page.reload()
    with page.expect_request(re.compile("memory.bin|packages.zip")) as request:
        page.get_by_label("Batches").focus()
    assert request.value.url.endswith("packages.zip")
