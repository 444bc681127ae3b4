"""A plain web host that also answers what a page asks of Python: most browser tests are about pages, not about Pyodide.

`python -m tests.python_host FOLDER` prints its address and serves until its standard input ends. A process of its own:
what it computes is not counted as covered, and takes no time from the test that waits for it.
"""

import contextlib
import functools
import json
import subprocess
import sys
import threading
from collections import OrderedDict
from collections.abc import Iterator
from pathlib import Path

from crumbcoat_calc.bridge import Session, warm
from crumbcoat_site.publishing.server import PublishedSite

from tests.hosts import PlainHost, serving

WORKERS = (Path(__file__).parent / "workers.js").read_text(encoding="utf-8")

MOST_SESSIONS = 32
"""Of each process; a session is as long as the visit of a page."""


class _Sessions:
    """One for each visit, as a browser's worker has one; only one answers at a time."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._sessions: OrderedDict[str, Session] = OrderedDict()

    def answer(self, name: str, request: str) -> str:
        with self._lock:
            session = self._sessions.setdefault(name, Session())
            self._sessions.move_to_end(name)
            while len(self._sessions) > MOST_SESSIONS:
                self._sessions.popitem(last=False)
            return session.answer(request)


class _PythonHost(PlainHost):
    """POST /python/NAME, with a request of the bridge, gives its reply."""

    def __init__(self, *args: object, sessions: _Sessions, site: PublishedSite) -> None:
        self._sessions = sessions
        super().__init__(*args, site=site)

    def do_POST(self) -> None:
        request = self.rfile.read(int(self.headers["content-length"])).decode()
        reply = self._sessions.answer(self.path, request).encode()
        self.send_response(200)
        self.send_header("content-type", "application/json")
        self.send_header("content-length", str(len(reply)))
        self.end_headers()
        self.wfile.write(reply)


def workers_of(address: str) -> str:
    """A script for a page, before its own: on that host its calculators ask the host and not Pyodide."""
    return f"{{ const HOST = {json.dumps(address)};\n{WORKERS} }}"


@contextlib.contextmanager
def serving_python(folder: Path) -> Iterator[str]:
    """Serves a folder from loopback, with Python; gives its address, with a slash at the end."""
    command = [sys.executable, "-m", __name__, str(folder)]
    with subprocess.Popen(
        command, cwd=Path(__file__).parents[1], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as host:
        assert host.stdout is not None
        address = host.stdout.readline().strip()
        assert address, "the host did not start"
        yield address
        host.communicate()


def _main(folder: str) -> None:
    warm()
    with serving(Path(folder), functools.partial(_PythonHost, sessions=_Sessions())) as address:
        print(address, flush=True)
        sys.stdin.read()


if __name__ == "__main__":
    _main(sys.argv[1])
