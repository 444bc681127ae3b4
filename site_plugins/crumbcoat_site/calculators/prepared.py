"""What a wheel of this project brings, so that a site needs no Node.js: the runtime as it was made with the wheel.

The folder `prepared` is in a wheel and never in the tree; `make wheel` writes it. The
trimmed interpreter is left out, since it follows from the whole one, and so are the files of `calc` and pint, which are
installed as well.
"""

import gzip
import hashlib
import json
import shutil
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from crumbcoat_site.calculators.bundle import archive

PREPARED = Path(__file__).parent / "prepared"

OURS = ("crumbcoat_calc/", "pint/")
"""The packages of which every file must be the installed one. The memory image is of no use with any other."""

_PACKED = ("pyodide.asm.wasm",)
_PYODIDE = ("pyodide.mjs", "pyodide.asm.mjs", *_PACKED, "python_stdlib.zip")
_MADE = ("manifest.json", "modules.json", "memory.bin")
_PACKAGES = "packages.zip"


@dataclass(frozen=True, slots=True)
class Prepared:
    """The runtime in a wheel: the folder, and the digests of its inputs and of the packages that it fits."""

    folder: Path
    digest: str
    fits: str
    version: str
    info: Mapping[str, Any]

    def is_for(self, packages: Mapping[str, bytes]) -> bool:
        """Whether it was made with the files of `calc` and pint that are installed."""
        return self.fits == digest_of(_ours(packages))

    def packages(self, installed: Mapping[str, bytes]) -> dict[str, bytes]:
        """Every file that it was made with: ours as installed, which are the same, and what pint requires as brought.

        Args:
            installed: the packages of this installation, for which it is.
        """
        with zipfile.ZipFile(self.folder / _PACKAGES) as others:
            return {name: others.read(name) for name in others.namelist()} | _ours(installed)

    def unpack(self, target: Path) -> None:
        """Write Pyodide's own files as npm installs them, for whatever makes a runtime."""
        target.mkdir(parents=True, exist_ok=True)
        for name in _PYODIDE:
            content = (self.folder / name).read_bytes()
            (target / name).write_bytes(gzip.decompress(content) if name in _PACKED else content)
        (target / "pyodide-lock.json").write_text(json.dumps({"info": self.info, "packages": {}}), encoding="utf-8")
        (target / "package.json").write_text(json.dumps({"version": self.version}), encoding="utf-8")


def prepared() -> Prepared | None:
    """What this installation brings; nothing in a copy of the repository."""
    try:
        facts = json.loads((PREPARED / "prepared.json").read_text(encoding="utf-8"))
    except FileNotFoundError:
        return None
    return Prepared(PREPARED, **facts)


def digest_of(files: Mapping[str, bytes]) -> str:
    """A name for files by place and content, whatever their order."""
    total = hashlib.sha256()
    for place, content in sorted(files.items()):
        total.update(f"{place}\0{len(content)}\0".encode() + content)
    return total.hexdigest()


def _ours(packages: Mapping[str, bytes]) -> dict[str, bytes]:
    return {place: content for place, content in packages.items() if place.startswith(OURS)}


def prepare(folder: Path, digest: str, packages: Mapping[str, bytes], version: str) -> None:
    """Write the folder that goes into a wheel; one from before is deleted.

    Args:
        folder: the runtime in the cache.
        digest: that of its inputs.
        packages: what it was made from.
        version: that of Pyodide.
    """
    shutil.rmtree(PREPARED, ignore_errors=True)
    PREPARED.mkdir()
    for name in (*_PYODIDE, *_MADE):
        shutil.copyfile(folder / name, PREPARED / name)
    ours = _ours(packages)
    others = {place: content for place, content in packages.items() if place not in ours}
    (PREPARED / _PACKAGES).write_bytes(archive(others))
    info = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))["info"]
    facts = {"digest": digest, "fits": digest_of(ours), "version": version, "info": info}
    (PREPARED / "prepared.json").write_text(json.dumps(facts, indent=1) + "\n", encoding="utf-8")
