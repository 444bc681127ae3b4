"""Stands in for asyncio, of which Pyodide's core takes one function and a calculator none."""


def get_event_loop() -> object:
    raise RuntimeError("there is no event loop here")
