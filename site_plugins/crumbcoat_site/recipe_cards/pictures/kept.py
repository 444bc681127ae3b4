"""What was made of pictures, kept between builds under a digest of the file and of what is made of it."""

import hashlib
import json
import os
import shutil
import time
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

_FACTS = "facts.json"
_DAYS_KEPT = 30


@cache
def _code() -> str:
    """A digest of this room and of the libraries that read and write pictures."""
    used = [version(library) for library in ("pillow", "pi-heif", "font-source-serif-pro")]
    digest = hashlib.sha256(json.dumps(used).encode())
    for file in sorted(Path(__file__).parent.glob("*.py")):
        digest.update(file.read_bytes())
    return digest.hexdigest()


class PictureCache:
    """A folder with a folder for each key: facts, and the files that were made.

    A folder gets its name when everything is in it, so what is half written is not found.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def key(self, source: bytes, *inputs: object) -> str:
        """The key of what is made of a file's content in this way by this version of the code."""
        head = json.dumps([_code(), *inputs]).encode()
        return hashlib.sha256(b"%d %s %s" % (len(head), head, hashlib.sha256(source).digest())).hexdigest()

    def get(self, key: str) -> dict[str, Any] | None:
        """The facts under the key; None if there are none, or if a file is missing or damaged."""
        try:
            kept = json.loads(self.path(key, _FACTS).read_text(encoding="utf-8"))
            whole = all(_digest(self.path(key, name).read_bytes()) == digest for name, digest in kept["files"].items())
        except (FileNotFoundError, ValueError):
            return None
        facts: dict[str, Any] = kept["facts"]
        return facts if whole else None

    def put(self, key: str, facts: Mapping[str, Any], files: Mapping[str, bytes]) -> None:
        """Keep facts and files under the key; another process may write the same at the same time."""
        unfinished = self.folder / f"{key}.{os.getpid()}.part"
        unfinished.mkdir(parents=True, exist_ok=True)
        for name, content in files.items():
            (unfinished / name).write_bytes(content)
        kept = {"facts": facts, "files": {name: _digest(content) for name, content in files.items()}}
        (unfinished / _FACTS).write_text(json.dumps(kept), encoding="utf-8")
        if self.get(key) is None:
            shutil.rmtree(self.path(key, ""), ignore_errors=True)
        try:
            unfinished.rename(self.path(key, ""))
        except OSError:  # Another process was first.
            shutil.rmtree(unfinished)

    def path(self, key: str, name: str) -> Path:
        """The path of a file that belongs to the key."""
        return self.folder / key / name

    def prune(self, used: Iterable[str]) -> None:
        """Note what was used, and take away what was not for a month."""
        now = time.time()
        for key in used:
            os.utime(self.path(key, _FACTS), (now, now))
        for folder in self.folder.glob("*") if self.folder.is_dir() else ():
            facts = folder / _FACTS
            noted = facts if facts.is_file() else folder
            if now - noted.stat().st_mtime > _DAYS_KEPT * 86400:
                shutil.rmtree(folder)


def _digest(content: bytes) -> str:
    return hashlib.blake2b(content, digest_size=16).hexdigest()
