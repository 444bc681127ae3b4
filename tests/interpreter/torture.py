"""Runs in Pyodide while the profile is taken: does with Python's own types what calculations could come to do.

Every method of the types that calculations use is called, with right and wrong arguments, as are all operators,
formats and
what the modules in the memory image offer. Nothing is checked here: it is about what the interpreter enters on the way.
"""

import bisect
import contextlib
import copy
import dataclasses
import functools
import gc
import heapq
import importlib
import io
import json
import math
import operator
import pathlib
import sys
import traceback
import warnings
import weakref
from decimal import Decimal
from fractions import Fraction
from typing import Any

from tests.interpreter.torture_calls import formats, functions, methods, operators, texts, tried
from tests.interpreter.torture_samples import (
    EXPECTED,
    Colour,
    Frozen,
    Open,
    Plain,
    Point,
    counting,
    kept,
    remembered,
    values,
)


def errors() -> None:
    """Every way for an error to come about and to be met."""

    def raising(error: BaseException) -> None:
        try:
            try:
                raise error
            except ValueError as inner:
                raise RuntimeError("outer") from inner
            finally:
                gc.collect(0)
        except RuntimeError as outer:
            traceback.format_exc()
            outer.add_note("a note")
            tried(outer.with_traceback, None)

    def raising_in_groups(error: BaseException) -> None:
        try:
            raise error
        except* (KeyError, TypeError) as group:
            repr(group)

    for error in (ValueError("v"), KeyError("k"), TypeError(), ExceptionGroup("g", [KeyError(1), TypeError(2)])):
        with contextlib.suppress(*EXPECTED, ExceptionGroup):
            raising(error)
        with contextlib.suppress(*EXPECTED, ExceptionGroup):
            raising_in_groups(error)

    def deeper(number: int) -> int:
        return deeper(number + 1) + 1

    tried(deeper, 0)
    nested: list[Any] = []
    nested.append(nested)
    repr(nested)
    tried(json.dumps, nested)
    tried(copy.deepcopy, nested)
    tried(lambda: undefined_name)  # type: ignore[name-defined]  # noqa: F821
    tried(lambda: [1][5])
    tried(lambda: {}["a"])
    tried(lambda: (1).missing)  # type: ignore[attr-defined]
    tried(lambda: Plain()._missing)
    tried(lambda: Frozen(mas=1))  # type: ignore[call-arg]
    tried(lambda: setattr(Frozen(mass=1.0), "mass", 2))
    tried(lambda: Open(1.0).__setattr__("mass", 3))
    tried(lambda: Colour("green"))
    tried(lambda: Colour["GREEN"])
    tried(lambda: sorted([1, "a"]))
    tried(lambda: max([]))
    tried(lambda: [x for x, y in [1, 2]])  # type: ignore[misc]
    tried(lambda: "a" + 1)  # type: ignore[operator]
    tried(lambda: 1 / 0)
    tried(lambda: 10**5000 and str(10**5000))
    tried(lambda: float(10**400))
    tried(lambda: math.exp(1e5))
    tried(lambda: Decimal(1) / 0)
    tried(lambda: Fraction(1, 0))
    tried(lambda: len(5))  # type: ignore[arg-type]
    tried(lambda: remembered([]))
    tried(lambda: kept(1, other=[]))  # type: ignore[arg-type]
    tried(lambda: "x" * 2**62)
    tried(lambda: bytearray(2**31 - 1))
    tried(lambda: int("x", 99))
    tried(lambda: (lambda a, /, b, *, c: a)(1, b=2, d=3))  # type: ignore[call-arg]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        warnings.warn("a warning", stacklevel=1)


def flow() -> None:
    """Statements and their rarer paths."""
    generator = counting(5)
    next(generator)
    tried(generator.send, 1)
    tried(generator.throw, ValueError("thrown"))
    generator.close()
    tried(counting(3).send, "stop")
    for subject in (*values()[:40], {"a": 1, "rest": 2}, Point(1.0), Open(2.0), [1, [2, 3]]):
        match subject:
            case {"a": 1, **rest}:
                repr(rest)
            case [1, [first, *others]] | (first, *others):
                repr((first, others))
            case Point(x=1.0) | Open(mass=2.0):
                pass
            case int() | float() if subject == 1:
                pass
            case "a" | None | True:
                pass
            case _:
                pass
    first, *middle, last = "cream"
    del first, last
    middle[1:2] = ["x", "y"]
    del middle[::2]
    table = {**{"a": 1}, "b": 2} | {"c": 3}
    table |= {"d": 4}
    with Plain() as entered, contextlib.suppress(KeyError), contextlib.ExitStack() as stack:
        stack.callback(repr, entered)
        stack.enter_context(contextlib.nullcontext())
        raise KeyError("in a with")
    squares = {x: y for x in range(5) if x for y in (x * x,)}
    total = sum(x for x in squares if not x % 2)
    while total < 50:
        total += 7
        if total == 20:
            continue
        if total > 40:
            break
    else:
        total = 0
    numbers = list(range(1000))
    numbers.sort(key=lambda x: (x * 7919) % 1000)
    sorted(map(str, numbers), reverse=True)
    sorted([(x % 7, -x) for x in numbers])
    sorted([x / 7 for x in numbers])
    sorted(values(), key=repr)
    bisect.insort(numbers, 5)
    heap: list[int] = []
    for number in (5, 1, 4):
        heapq.heappush(heap, number)
    heapq.nsmallest(2, heap), heapq.nlargest(2, heap, key=lambda x: -x)
    dict.fromkeys(range(1000))
    {str(x): x for x in range(2000)}
    {(x, str(x)) for x in range(2000)}
    functools.reduce(operator.mul, range(1, 60))
    functools.singledispatch(lambda x: x)(1)
    repr(type("Made", (Plain,), {"extra": 1})().extra)
    dataclasses.replace(Frozen(mass=1.0), mass=2.0)
    weak = weakref.WeakValueDictionary(a=Plain())
    repr(weak.get("a"))


def files_and_modules() -> None:
    """Imports inside functions, and files, although a browser has hardly any."""
    import json.decoder as decoder
    from collections import abc, deque
    from re import compile as pattern

    import crumbcoat_calc.bridge

    def missing_module() -> None:
        import no_such_module  # type: ignore[import-not-found]  # noqa: F401

    def missing_name() -> None:
        from json import no_such_name  # type: ignore[attr-defined]  # noqa: F401

    repr((decoder, abc, deque, pattern))
    tried(missing_module)
    tried(missing_name)
    for name in ("json", "json.encoder", "no_such_module", "crumbcoat_calc.none"):
        tried(importlib.import_module, name)
    crumbcoat_calc.bridge.warm()
    for place in ("/", "/none", "/tmp", "relative"):
        path = pathlib.Path(place)
        tried(lambda path=path: sorted(path.glob("*")))
        tried(lambda path=path: [*path.rglob("*.csv")])
        for call in (path.exists, path.is_file, path.is_dir, path.read_text, path.read_bytes, path.stat, path.resolve):
            tried(call)
    with pathlib.Path("/tmp/file.txt").open("w", encoding="utf-8") as file:
        file.write("é\n" * 5_000)
    with pathlib.Path("/tmp/file.txt").open(encoding="utf-8") as file:
        repr((file.readline(), len(file.read()), file.tell(), file.seek(0), sum(1 for _ in file)))
    print("to nowhere")


def memory() -> None:
    """Enough garbage for every kind of collection, and more memory than there was."""
    for _ in range(3):
        rings = [[{"self": None, "parts": [number, str(number)]}] for number in range(30_000)]
        for ring in rings:
            ring[0]["self"] = ring
        del rings
        gc.collect()
    gc.freeze()
    gc.unfreeze()
    gc.get_stats()
    large = [bytes(1_000_000) for _ in range(60)]
    text = "é" * 3_000_000
    parts = text.split("x")
    parts += [text + "🧁", text.upper()]
    del large, text, parts
    numbers = [float(number) for number in range(300_000)]
    numbers.extend(numbers)
    del numbers[1000:]
    gc.collect()


def everything() -> None:
    sys.stdout = sys.stderr = io.StringIO()
    for part in (errors, flow, files_and_modules, formats, texts, functions, operators, methods, memory):
        part()
