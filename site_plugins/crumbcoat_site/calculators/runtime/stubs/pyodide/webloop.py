"""Stands in for Pyodide's event loop, which a calculator never uses; asyncio, ssl and socket stay out with it."""

# A snapshot's table of JavaScript objects holds this one at its fixed place, as when the real module is imported.
from pyodide_js._api import scheduleCallback  # noqa: F401


def _initialize_event_loop() -> None:
    pass
