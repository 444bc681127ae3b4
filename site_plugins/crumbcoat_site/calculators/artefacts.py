"""The runtime's files: Pyodide, the Python archive, the memory snapshot; made once, kept until an input changes."""

import hashlib
import json
import os
import shutil
import subprocess
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import crumbcoat_calc
import deflate

from crumbcoat_site.calculators.bundle import archive, bundled
from crumbcoat_site.calculators.node import node_command, run

HERE = Path(__file__).parent
RUNTIME = HERE / "runtime"
PYODIDE = RUNTIME / "node_modules" / "pyodide"

CORE = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip")
"""The files of Pyodide that a browser needs to start, without any packages."""

PACKED = ("pyodide.asm.mjs", "pyodide.asm.wasm")
"""Files that are gzipped here and unpacked by the worker, so that their size does not depend on the web host.

The memory image and the two archives are packed already."""

STARTS = {
    "snapshot": ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "memory.bin"),
    "ordinary": ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "packages.zip"),
}
"""The files that each way to start fetches."""

KEPT = 3
"""The number of generations that stay in the cache."""


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
        return {f"{self.uri}/{name}": self.folder / name for name in (*self.manifest["files"], "manifest.json")}

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
    digest = _digest(packages)
    folder = cache.resolve() / digest
    if not (folder / "manifest.json").is_file():
        _make(folder, digest, archive(packages))
    else:
        os.utime(folder)
    manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    return Artefacts(digest=digest, folder=folder, manifest=manifest)


def _digest(packages: Mapping[str, bytes]) -> str:
    """A name for everything that the files are made from: packages, Pyodide, and the code that makes them."""
    makers = [HERE / "artefacts.py", HERE / "bundle.py", *RUNTIME.iterdir(), *(RUNTIME / "stubs").rglob("*")]
    inputs = {path.relative_to(HERE).as_posix(): path.read_bytes() for path in makers if path.is_file()}
    total = hashlib.sha256()
    for place, content in sorted({**inputs, **packages}.items()):
        total.update(f"{place}\0{len(content)}\0".encode() + content)
    return total.hexdigest()[:16]


def _make(folder: Path, digest: str, packages: bytes) -> None:
    if not (PYODIDE / "package.json").is_file():
        problem = f"Pyodide is not in {os.path.relpath(PYODIDE)}"
        raise ArtefactError(f"{problem}.\n    Fix: run `make setup`, or `npm ci` in {os.path.relpath(RUNTIME)}.")
    command = node_command()
    folder.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=folder.parent, prefix=".making-") as temporary:
        work, out = Path(temporary) / "work", Path(temporary) / "out"
        work.mkdir()
        out.mkdir()
        (work / "packages.zip").write_bytes(packages)
        done = run(command, RUNTIME / "snapshot.mjs", work, stdin=subprocess.DEVNULL)
        if done.returncode:
            problem = f"the memory snapshot cannot be made.\n{done.stderr[-2000:].rstrip()}"
            remedy = "run `make setup` and build again, or report the lines above as a bug"
            raise ArtefactError(f"{problem}\n    Fix: {remedy}.")
        for name in CORE:
            shutil.copyfile(PYODIDE / name, work / name)
        for name in sorted({name for start in STARTS.values() for name in start}):
            content = (work / name).read_bytes()
            (out / name).write_bytes(deflate.gzip_compress(content, 12) if name in PACKED else content)
        (out / "manifest.json").write_text(json.dumps(_manifest(digest, out), indent=1) + "\n", encoding="utf-8")
        shutil.copyfile(work / "modules.json", out / "modules.json")
        if not folder.exists():  # Another build may have been faster.
            out.rename(folder)
    make_room(folder.parent)


def make_room(cache: Path) -> None:
    """Delete the oldest generations of a cache; KEPT of them stay."""
    for old in sorted(cache.glob("[0-9a-f]*"), key=os.path.getmtime, reverse=True)[KEPT:]:
        shutil.rmtree(old)


def _manifest(digest: str, out: Path) -> dict[str, object]:
    """The list of the runtime's files, for the worker and for whatever keeps them offline."""
    info = json.loads((PYODIDE / "pyodide-lock.json").read_text(encoding="utf-8"))["info"]
    files = {
        path.name: {
            "bytes": path.stat().st_size,
            "sha256": hashlib.sha256(path.read_bytes()).hexdigest(),
            "packed": path.name in PACKED,
        }
        for path in sorted(out.iterdir())
    }
    environment = json.loads((RUNTIME / "environment.json").read_text(encoding="utf-8"))
    return {"digest": digest, "info": info, "environment": environment, "files": files, "starts": STARTS}
