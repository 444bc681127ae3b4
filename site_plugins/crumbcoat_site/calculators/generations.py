"""The cache of the runtime: one folder for each digest, put in place as a whole, also where two builds run at once."""

import contextlib
import os
import tempfile
from pathlib import Path

KEPT = 3
"""The number of generations that stay in the cache."""

UNSTARTED = "did_not_start.txt"
"""Why the trimmed file of a generation did not start. The next build makes it again: the machine may have been busy."""


def is_kept(folder: Path) -> bool:
    """Whether this generation is there, whole, and as its digest promises; marks it as used."""
    with contextlib.suppress(FileNotFoundError):
        os.utime(folder)
    return (folder / "manifest.json").is_file() and not (folder / UNSTARTED).is_file()


def put(made: Path, folder: Path) -> None:
    """Move a generation to its place; if another build was faster, that one's stays there."""
    try:
        made.rename(folder)
    except OSError:
        if is_kept(folder):
            return
        discard(folder)  # It did not start, or a build was stopped while it deleted it.
        made.rename(folder)


def discard(folder: Path) -> None:
    """Delete a generation, unless another build does: out of its place first, so that no half of it is ever found."""
    with (
        tempfile.TemporaryDirectory(dir=folder.parent, prefix=".deleting-") as aside,
        contextlib.suppress(FileNotFoundError),
    ):
        folder.rename(Path(aside) / folder.name)


def make_room(cache: Path) -> None:
    """Delete the oldest generations of a cache; KEPT of them stay."""
    for old in sorted(cache.glob("[0-9a-f]*"), key=_last_used, reverse=True)[KEPT:]:
        discard(old)


def _last_used(folder: Path) -> float:
    try:
        return folder.stat().st_mtime
    except FileNotFoundError:  # Another build has deleted it.
        return 0.0
