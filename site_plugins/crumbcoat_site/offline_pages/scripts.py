"""The scripts of the plug-in as they go to the reader."""

import hashlib
import json
from pathlib import Path

from crumbcoat_site.minified import minified
from crumbcoat_site.offline_pages.precache import Precache

_HERE = Path(__file__).parent


def registering_script(large_files_in_use: str) -> tuple[str, bytes]:
    """The script that registers the service worker, and its place in the site, which is named for its content."""
    source = (_HERE / "register.js").read_text(encoding="utf-8")
    content = minified("register.js", f"const USED = {json.dumps(large_files_in_use)};\n{source}")
    return f"assets/offline_pages/{hashlib.sha256(content).hexdigest()[:12]}/register.js", content


def service_worker(precache: Precache) -> bytes:
    """The service worker of a built site."""
    worker = (_HERE / "worker.js").read_text(encoding="utf-8")
    return precache.script.encode() + minified("sw.js", worker)


def removing_worker() -> bytes:
    """A service worker that removes the one from an earlier visit."""
    return (_HERE / "take_down.js").read_bytes()
