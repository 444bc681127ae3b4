"""Replaces Pyodide's event loop, which a calculator never uses. So asyncio, ssl and socket are left out."""

# A snapshot's table of JavaScript objects holds this one at its fixed place, as when the real module is imported.
from pyodide_js._api import scheduleCallback  # noqa: F401


def _initialize_event_loop() -> None:
    pass
