"""Computed pages kept between builds, keyed by everything that they depend on."""

import hashlib
import json
from functools import cache
from pathlib import Path
from typing import Any

_ROOT = Path(__file__).parents[2]


@cache
def code_digest() -> str:
    """A digest of the calculation package, its data, and this plugin: what a page depends on besides its recipe."""
    digest = hashlib.sha256()
    for folder in (_ROOT / "calc", _ROOT / "site_plugins" / "recipe_cards"):
        for file in sorted(folder.rglob("*")):
            if file.suffix in (".py", ".csv", ".txt", ".jinja"):
                digest.update(str(file.relative_to(_ROOT)).encode())
                digest.update(file.read_bytes())
    return digest.hexdigest()


class PageCache:
    """A folder of JSON files, one a page; a key holds a digest of all inputs, so that a wrong page cannot be found."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def key(self, content: bytes, *inputs: str) -> str:
        """The key of what a file's content and further inputs give with this version of the code."""
        head = json.dumps([code_digest(), *inputs]).encode()
        return hashlib.sha256(b"%d %s %s" % (len(head), head, content)).hexdigest()

    def get(self, key: str) -> dict[str, Any] | None:
        """What was put under the key; None if nothing was, or if the file was cut short."""
        try:
            content = (self._folder / key[:2] / f"{key}.json").read_text(encoding="utf-8")
            kept: dict[str, Any] = json.loads(content)
        except (FileNotFoundError, json.JSONDecodeError):
            return None
        return kept

    def put(self, key: str, value: dict[str, Any]) -> None:
        """Keep a value under the key; another build that writes the same at once does no harm."""
        folder = self._folder / key[:2]
        folder.mkdir(parents=True, exist_ok=True)
        unfinished = folder / f"{key}.part"
        unfinished.write_text(json.dumps(value, ensure_ascii=False), encoding="utf-8")
        unfinished.replace(folder / f"{key}.json")
