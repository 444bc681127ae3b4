"""Which files of a built site a browser keeps ahead of use and which on first use, and the version that they make."""

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path

LARGEST_BYTES = 1_000_000
"""No file larger than this is kept ahead of use."""

_READ = {".js", ".mjs", ".css", ".webmanifest"}
_OF_A_PAGE = {".js", ".mjs", ".css"}
_NEVER = {".html", ".map", ".gz"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Precache:
    """The files kept ahead of use and those kept on first use, as sorted paths; `version` is a digest of them all."""

    version: str
    ahead: tuple[str, ...]
    on_first_use: tuple[str, ...]

    @property
    def script(self) -> str:
        """The first line of the service worker."""
        listed = {"version": self.version, "shell": self.ahead, "later": self.on_first_use}
        return f"const SITE = {json.dumps(listed, ensure_ascii=False)};\n"


def precache_of(site: Path, large_files: Sequence[str], pages: Sequence[str]) -> Precache:
    """What a browser keeps of a built site.

    Kept ahead are the pages, the files whose names occur in them, the style sheets and scripts of all other pages (or
    the worker would take a page for one of another build), the files whose names occur in those scripts and style
    sheets, and so on. A name is looked for anywhere in the text, which also finds a module that is loaded only when it
    is needed.

    Args:
        site: the folder of the built site.
        large_files: patterns of files that are kept on first use.
        pages: pages that are kept ahead of use, where they exist.
    """
    files = {path.relative_to(site).as_posix(): path for path in sorted(site.rglob("*")) if path.is_file()}
    on_first_use = tuple(name for name in files if any(fnmatchcase(name, pattern) for pattern in large_files))
    candidates = {
        name: path
        for name, path in files.items()
        if name not in on_first_use and path.suffix not in _NEVER and path.stat().st_size <= LARGEST_BYTES
    }
    others = [
        path.read_text(encoding="utf-8", errors="replace") for name, path in files.items() if name.endswith(".html")
    ]
    found = {name for name in pages if name in files}
    for name, path in candidates.items():
        if path.suffix in _OF_A_PAGE and any(f'{path.name}"' in text for text in others):
            found.add(name)
    unread = sorted(found)
    while unread:
        text = files[unread.pop()].read_text(encoding="utf-8", errors="replace")
        for name, path in candidates.items():
            if name not in found and path.name in text:
                found.add(name)
                if path.suffix in _READ:
                    unread.append(name)
    ahead = tuple(sorted(found))
    digest = hashlib.sha256()
    for name in (*ahead, "", *on_first_use):
        content = files[name].read_bytes() if name else b""
        digest.update(name.encode() + b"\0" + hashlib.sha256(content).digest())
    return Precache(version=digest.hexdigest()[:16], ahead=ahead, on_first_use=on_first_use)
