"""Computed pages kept between builds, under a key made of everything that they depend on."""

import hashlib
import json
import os
import secrets
import sys
from collections.abc import Mapping
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

import crumbcoat_calc

_PLUGIN = Path(__file__).parents[1]
_FOOD_TABLES = _PLUGIN.with_name("food_tables")
_CALC = Path(crumbcoat_calc.__file__).parent
_LIBRARIES = ("jinja2", "markupsafe", "pint", "pyyaml", "segno")


def code_digest() -> str:
    """A digest of the calculation package, the food tables, this plug-in, and the versions of the libraries in use."""
    used = [sys.version, *(version(library) for library in _LIBRARIES)]
    digest = hashlib.sha256(json.dumps(used).encode())
    for folder in (_CALC, _PLUGIN, _FOOD_TABLES):
        for file in sorted(folder.rglob("*")):
            if file.suffix in (".py", ".csv", ".txt", ".jinja", ".xz"):
                digest.update(str(file.relative_to(folder.parent)).encode())
                digest.update(file.read_bytes())
    return digest.hexdigest()


@cache
def _code_at_start() -> str:
    return code_digest()


class PageCache:
    """A folder of computed pages. A key is a digest of all inputs, so an outdated page is never found.

    A page is a JSON file of facts and some text files, each with its own ending. The facts are written last, contain
    the digests of the other files and start with their own: a page that is incomplete or damaged is not found.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._code = code_digest()
        if self._code != _code_at_start():
            # Code changed while `mkdocs serve` was running: some of it is loaded in the old version, some in the new.
            # The result is kept for this build only.
            self._code += secrets.token_hex()

    def key(self, content: bytes, *inputs: str) -> str:
        """The key of a page that is computed from a file's content and further inputs by this version of the code."""
        head = json.dumps([self._code, *inputs]).encode()
        return hashlib.sha256(b"%d %s %s" % (len(head), head, content)).hexdigest()

    def get(self, key: str) -> dict[str, Any] | None:
        """The facts under the key; None if there are none, or if a file is missing or damaged."""
        try:
            digest, _, content = self.path(key, "json").read_bytes().partition(b"\n")
            if _digest(content) != digest.decode():
                return None
            kept = json.loads(content)
            for ending, digest in kept["files"].items():
                if _digest(self.path(key, ending).read_bytes()) != digest:
                    return None
            facts: dict[str, Any] = kept["facts"]
        except (FileNotFoundError, ValueError):
            return None
        return facts

    def put(self, key: str, facts: Mapping[str, Any], files: Mapping[str, str]) -> None:
        """Keep facts and files under the key; another build may write the same at the same time."""
        self.path(key, "json").parent.mkdir(parents=True, exist_ok=True)
        digests = {ending: self._write(key, ending, content) for ending, content in files.items()}
        content = json.dumps({"facts": facts, "files": digests}, ensure_ascii=False)
        self._write(key, "json", f"{_digest(content.encode())}\n{content}")

    def path(self, key: str, ending: str) -> Path:
        """The path of a file that belongs to the key."""
        return self.folder / key[:2] / f"{key}.{ending}"

    def _write(self, key: str, ending: str, content: str) -> str:
        unfinished = self.path(key, f"{ending}.{os.getpid()}.part")
        written = content.encode("utf-8")
        unfinished.write_bytes(written)
        unfinished.replace(self.path(key, ending))
        return _digest(written)


def _digest(content: bytes) -> str:
    return hashlib.blake2b(content, digest_size=16).hexdigest()
