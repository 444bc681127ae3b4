"""Which files of a built site are kept ahead, which later, and the version that they make."""

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path

LARGEST_BYTES = 1_000_000
"""No file above this is kept ahead."""

_READ = {".js", ".mjs", ".css", ".webmanifest"}
_NEVER = {".html", ".map", ".gz"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Shell:
    """Paths from the site's root, sorted; `version` is a digest of their content."""

    version: str
    ahead: tuple[str, ...]
    later: tuple[str, ...]

    @property
    def script(self) -> str:
        """The list as the first line of a script."""
        listed = {"version": self.version, "shell": self.ahead, "later": self.later}
        return f"const SITE = {json.dumps(listed, ensure_ascii=False)};\n"


def shell_of(site: Path, later: Sequence[str], always: Sequence[str]) -> Shell:
    """The files that every page needs, read from the built site.

    They are those whose names stand in the front page, and those whose names stand in a script or a style sheet of
    these, and so on. Names are looked for as they stand, so that modules that are only loaded when used are found.

    Args:
        site: the folder of the built site.
        later: patterns of files that are not kept ahead.
        always: pages that are kept ahead.
    """
    files = {path.relative_to(site).as_posix(): path for path in sorted(site.rglob("*")) if path.is_file()}
    put_off = tuple(name for name in files if any(fnmatchcase(name, pattern) for pattern in later))
    candidates = {
        name: path
        for name, path in files.items()
        if name not in put_off and path.suffix not in _NEVER and path.stat().st_size <= LARGEST_BYTES
    }
    found = {name for name in always if name in files}
    unread = [name for name in always if name in files]
    while unread:
        text = files[unread.pop()].read_text(encoding="utf-8", errors="replace")
        for name, path in candidates.items():
            if name not in found and path.name in text:
                found.add(name)
                if path.suffix in _READ:
                    unread.append(name)
    ahead = tuple(sorted(found))
    whole = hashlib.sha256()
    for name in (*ahead, "", *put_off):
        content = files[name].read_bytes() if name else b""
        whole.update(name.encode() + b"\0" + hashlib.sha256(content).digest())
    return Shell(version=whole.hexdigest()[:16], ahead=ahead, later=put_off)
