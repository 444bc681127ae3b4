"""The runtime's files: Pyodide, the Python archive, the memory snapshot; made once, kept until an input changes."""

import gzip
import hashlib
import json
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import crumbcoat_calc
import deflate

from crumbcoat_site.calculators.bundle import archive, bundled
from crumbcoat_site.calculators.generations import UNSTARTED, is_kept, make_room, put
from crumbcoat_site.calculators.node import NodeError, node_command, run
from crumbcoat_site.calculators.prepared import Prepared, digest_of, prepare, prepared
from crumbcoat_site.calculators.trimmed import trimmed

HERE = Path(__file__).parent
RUNTIME = HERE / "runtime"
PYODIDE = RUNTIME / "node_modules" / "pyodide"
LOCK = RUNTIME / "package-lock.json"

CORE = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip")
"""The files of Pyodide that a browser needs to start, without any packages."""

LOADER = "pyodide.asm.mjs"
WHOLE = "pyodide.asm.wasm"
"""The script that starts the interpreter, and the interpreter."""

TRIMMED_LOADER = "trimmed.mjs"
TRIMMED = "trimmed.wasm"
"""The same without the functions that no request enters."""

PACKED = (WHOLE, TRIMMED)
"""Files that are gzipped here and unpacked by the worker, so that their size does not depend on the web host.

The memory image and the two archives are packed already. A script is imported as it is: a worker that unpacked
one could only import it from an address of its own making, which a strict security policy refuses."""

STARTS = {
    "snapshot": ("pyodide.mjs", TRIMMED_LOADER, TRIMMED, "memory.bin"),
    "ordinary": ("pyodide.mjs", LOADER, WHOLE, "python_stdlib.zip", "packages.zip"),
}
"""The files that each way to start fetches. The ordinary one needs nothing of ours but packages.zip."""

OTHER_LIST = "runtime/entered.json is for another version of Pyodide.\n    Fix: run `make profile`."


class ArtefactError(RuntimeError):
    """The runtime cannot be made; the message gives the problem and the fix."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Artefacts:
    """The runtime's files in the cache, under the digest of everything that they were made from."""

    digest: str
    folder: Path
    manifest: Mapping[str, Any]

    @property
    def uri(self) -> str:
        """The folder of the files in the site."""
        return f"assets/runtime/{self.digest}"

    @property
    def files(self) -> dict[str, Path]:
        """Every file of the runtime by its place in the site."""
        names = (*self.manifest["files"], "manifest.json", "NOTICE.txt")
        return {f"{self.uri}/{name}": self.folder / name for name in names}

    @property
    def is_trimmed(self) -> bool:
        """Whether readers get the interpreter without the functions that no request enters."""
        return TRIMMED in self.manifest["files"]

    @property
    def drawback(self) -> str:
        """What is slower for readers than it could be, with the reason and the fix, for whoever builds; or nothing."""
        if self.is_trimmed:
            return ""
        unstarted = self.folder / UNSTARTED
        reason = unstarted.read_text(encoding="utf-8") if unstarted.is_file() else OTHER_LIST
        if "snapshot" not in self.manifest["starts"]:
            return f"calculators start in the ordinary way, which takes readers four times as long: {reason}"
        return f"readers get the whole interpreter, 1.3 MB more: {reason}"

    @property
    def modules(self) -> frozenset[str]:
        """The Python modules in the snapshot; after a start from it there are no others."""
        return frozenset(json.loads((self.folder / "modules.json").read_text(encoding="utf-8")))


def artefacts(cache: Path) -> Artefacts:
    """The runtime's files for the calc, the packages and the Pyodide that are installed.

    Args:
        cache: the folder that keeps them, each generation under the digest of its inputs.

    Raises:
        ArtefactError: if the runtime has to be made, and Pyodide is not installed or the snapshot fails.
        NodeError: if it has to be made, and there is no Node.js.
        BundleError: if a package cannot go to the browser.
    """
    packages = bundled(Path(crumbcoat_calc.__file__).parent, "pint")
    brought = prepared()
    if brought and brought.is_for(packages):
        folder = cache.resolve() / brought.digest
        if not is_kept(folder):
            _take(folder, brought, archive(brought.packages(packages)))
    else:
        digest = _digest(packages)
        folder = cache.resolve() / digest
        if not is_kept(folder):
            _make(folder, digest, archive(packages), brought)
    manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    return Artefacts(digest=folder.name, folder=folder, manifest=manifest)


def prepare_wheel(runtime: Artefacts) -> None:
    """Write the folder that a wheel brings along, from a runtime that has all that readers can get.

    Raises:
        ArtefactError: if it has not.
    """
    if runtime.drawback:
        raise ArtefactError(runtime.drawback)
    packages = bundled(Path(crumbcoat_calc.__file__).parent, "pint")
    version = json.loads(LOCK.read_text(encoding="utf-8"))["packages"]["node_modules/pyodide"]["version"]
    prepare(runtime.folder, runtime.digest, packages, version)


def _digest(packages: Mapping[str, bytes]) -> str:
    """A name for everything that the files are made from: packages, Pyodide, and the code that makes them."""
    makers = [HERE / name for name in ("artefacts.py", "bundle.py", "trimmed.py", "webassembly.py")]
    makers += [*RUNTIME.iterdir(), *(RUNTIME / "stubs").rglob("*")]
    inputs = {path.relative_to(HERE).as_posix(): path.read_bytes() for path in makers if path.is_file()}
    return digest_of({**inputs, **packages})[:16]


@contextmanager
def _making(folder: Path) -> Iterator[tuple[Path, Path]]:
    """Two folders, for work and for what comes of it. Unless there is an error, the second one takes its place."""
    folder.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=folder.parent, prefix=".making-") as temporary:
        work, out = Path(temporary) / "work", Path(temporary) / "out"
        work.mkdir()
        out.mkdir()
        yield work, out
        shutil.copyfile(RUNTIME / "NOTICE.txt", out / "NOTICE.txt")
        put(out, folder)
    make_room(folder.parent)


def _take(folder: Path, brought: Prepared, packages: bytes) -> None:
    """Take the runtime that a wheel brings; the trimmed interpreter is made from the whole one, without Node.js."""
    with _making(folder) as (_, out):
        manifest = json.loads((brought.folder / "manifest.json").read_text(encoding="utf-8"))
        smaller = None
        if TRIMMED in manifest["files"]:
            whole = gzip.decompress((brought.folder / WHOLE).read_bytes())
            smaller = trimmed(whole, (brought.folder / LOADER).read_text(encoding="utf-8"))
        made = {"packages.zip": packages}
        if smaller:
            made |= {TRIMMED: smaller.file, TRIMMED_LOADER: smaller.loader.encode()}
        for name in manifest["files"]:
            content = _packed(name, made[name]) if name in made else (brought.folder / name).read_bytes()
            (out / name).write_bytes(content)
        _write_manifest(brought.digest, out, manifest["starts"], brought.info)
        shutil.copyfile(brought.folder / "modules.json", out / "modules.json")


def _make(folder: Path, digest: str, packages: bytes, brought: Prepared | None) -> None:
    """Make the runtime with Node.js; where there is none, and a wheel brings Pyodide, one for the ordinary start."""
    with _making(folder) as (work, out):
        (work / "packages.zip").write_bytes(packages)
        pyodide = PYODIDE
        if brought:
            pyodide = work / "pyodide"
            brought.unpack(pyodide)
        _check(pyodide)
        reason = ""
        try:
            command = node_command()
            _snapshot(work, command, pyodide)
            starts, reason = _with_pyodide(work, command, pyodide)
        except NodeError as error:
            if not brought:
                raise
            _copy_core(pyodide, work)
            starts, reason = {"ordinary": STARTS["ordinary"]}, f"{error}"
        for name in sorted({name for files in starts.values() for name in files}):
            (out / name).write_bytes(_packed(name, (work / name).read_bytes()))
        _write_manifest(digest, out, starts, json.loads((pyodide / "pyodide-lock.json").read_text("utf-8"))["info"])
        if reason:
            (out / UNSTARTED).write_text(reason, encoding="utf-8")
        if (work / "modules.json").is_file():
            shutil.copyfile(work / "modules.json", out / "modules.json")


def _check(pyodide: Path) -> None:
    """Pyodide is installed, and it is the one of the lock file, which is part of the digest."""
    remedy = f"run `make setup`, or `npm ci` in {os.path.relpath(RUNTIME)}"
    package = pyodide / "package.json"
    if not package.is_file():
        raise ArtefactError(f"Pyodide is not in {os.path.relpath(pyodide)}.\n    Fix: {remedy}.")
    installed = json.loads(package.read_text(encoding="utf-8"))["version"]
    wanted = json.loads(LOCK.read_text(encoding="utf-8"))["packages"]["node_modules/pyodide"]["version"]
    if installed != wanted:
        problem = f"Pyodide {installed} is installed in {os.path.relpath(pyodide)}, and {LOCK.name} has {wanted}"
        raise ArtefactError(f"{problem}.\n    Fix: {remedy}.")


def _copy_core(pyodide: Path, work: Path) -> None:
    for name in CORE:
        shutil.copyfile(pyodide / name, work / name)


def _snapshot(work: Path, command: str, pyodide: Path) -> None:
    """Add the memory snapshot and the list of the modules in it."""
    done = run(command, RUNTIME / "snapshot.mjs", work, pyodide, stdin=subprocess.DEVNULL)
    if done.returncode:
        problem = f"the memory snapshot cannot be made.\n{done.stderr[-2000:].rstrip()}"
        remedy = "run `make setup` and build again, or report the lines above as a bug"
        raise ArtefactError(f"{problem}\n    Fix: {remedy}.")


def _with_pyodide(work: Path, command: str, pyodide: Path) -> tuple[dict[str, tuple[str, ...]], str]:
    """Add Pyodide's files and the trimmed ones, if they answer; gives the files that each way to start fetches.

    Also gives the reason if there is a trimmed file and it did not start.

    The snapshot was made with the whole file and fits both: functions have the same numbers, and the data are the same.
    """
    _copy_core(pyodide, work)
    smaller = trimmed((work / WHOLE).read_bytes(), (work / LOADER).read_text(encoding="utf-8"))
    unstarted = ""
    if smaller:
        (work / TRIMMED).write_bytes(smaller.file)
        (work / TRIMMED_LOADER).write_text(smaller.loader, encoding="utf-8")
        done = run(command, RUNTIME / "start_in_node.mjs", work, pyodide, stdin=subprocess.DEVNULL)
        if done.returncode == 0:
            return STARTS, ""
        problem = f"the trimmed one did not start (exit code {done.returncode}).\n{done.stderr[-2000:]}".rstrip()
        unstarted = f"{problem}\n    Fix: build again, and if that does not help, run `make profile`."
    whole = {TRIMMED: WHOLE, TRIMMED_LOADER: LOADER}
    return {way: tuple(whole.get(name, name) for name in files) for way, files in STARTS.items()}, unstarted


def _packed(name: str, content: bytes) -> bytes:
    """A file as it goes to the reader: gzipped, unless it is packed already."""
    return bytes(deflate.gzip_compress(content, 12)) if name in PACKED else content


def _write_manifest(digest: str, out: Path, starts: Mapping[str, tuple[str, ...]], info: Mapping[str, Any]) -> None:
    """Write the list of the runtime's files, for the worker and for whatever keeps them offline."""
    files = {
        path.name: {
            "bytes": path.stat().st_size,
            "sha256": hashlib.sha256(path.read_bytes()).hexdigest(),
            "packed": path.name in PACKED,
        }
        for path in sorted(out.iterdir())
    }
    environment = json.loads((RUNTIME / "environment.json").read_text(encoding="utf-8"))
    manifest = {"digest": digest, "info": info, "environment": environment, "files": files, "starts": starts}
    (out / "manifest.json").write_text(json.dumps(manifest, indent=1) + "\n", encoding="utf-8")
