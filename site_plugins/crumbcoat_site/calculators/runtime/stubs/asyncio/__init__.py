"""Replaces asyncio: Pyodide's core uses one function of it, and a calculator none."""


def get_event_loop() -> object:
    raise RuntimeError("there is no event loop here")
