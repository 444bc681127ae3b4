"""Replaces Pyodide's package loader, which has nothing to load here. So zipfile, tempfile and shutil are left out."""

from pathlib import PurePosixPath
from site import getsitepackages

# A snapshot's table of JavaScript objects holds this one at its fixed place, as when the real module is imported.
from pyodide_js import loadedPackages  # noqa: F401

SITE_PACKAGES = PurePosixPath(getsitepackages()[0])
DSO_DIR = PurePosixPath("/usr/lib")


def init_loaded_packages() -> None:
    pass
