"""Calls everything that Python's own types and functions can do; runs in Pyodide, for torture.py."""

import contextlib
import copy
import csv
import decimal
import difflib
import gc
import io
import itertools
import json
import math
import operator
import re
import textwrap
import traceback
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

from tests.interpreter.torture_samples import (
    ARGUMENTS,
    BINARY,
    BRACES,
    DATA,
    EXPECTED,
    NEVER,
    NUMBERS,
    PATTERNS,
    PERCENTS,
    SINGLE,
    SPECS,
    TEXTS,
    UNARY,
    values,
)


def tried(call: Callable[..., object], *arguments: object, **named: object) -> object:
    """What a call gives, and some of what can be taken from it; its error is written out and forgotten."""
    try:
        found = call(*arguments, **named)
        if hasattr(found, "__next__"):
            return list(itertools.islice(found, 20))  # type: ignore[call-overload]
    except EXPECTED as error:
        return f"{type(error).__name__}: {error}{error!r}{''.join(traceback.format_exception_only(error))[:200]}"
    return found


def methods() -> None:
    for place, sample in enumerate(values()):
        for name in dir(sample):
            if name in NEVER:
                continue
            value = values()[place]  # The methods before may have changed it.
            with contextlib.suppress(*EXPECTED):
                method = getattr(value, name)
                if not callable(method):
                    continue
                own = ((), (0,), ("a",), (1, 2), () if _is_large(value) else (value,))
                for arguments in ARGUMENTS if name[0] != "_" else own:
                    tried(method, *arguments)
                for named in ({"key": repr}, {"default": 1}, {"reverse": True}, {"sep": " "}, {"a": 1}):
                    tried(method, **named)


def operators() -> None:
    with decimal.localcontext(prec=30):
        for left, right in itertools.product(range(len(values())), repeat=2):
            if (left + right) % 3 and left % 7:
                continue  # A good part of all pairs.
            one, other = values()[left], values()[right]
            for name in BINARY:
                if name not in ("mul", "imul") or not (_is_large(one) or _is_large(other)):
                    tried(getattr(operator, name), one, other)
    for value in values():
        for name in UNARY:
            tried(getattr(operator, name), value)
    bases = (0, 2, -3, 2.5, -1.5, Decimal(2), Fraction(1, 2), 1j)
    for base, exponent in itertools.product(bases, (0, 3, -2, 0.5, 100, "a")):
        tried(pow, base, exponent)
        tried(divmod, base, exponent)
        tried(operator.lshift, base, exponent)
        tried(operator.rshift, base, exponent)
        tried(math.pow, base, exponent)
        tried(math.fmod, base, exponent)
        tried(math.isclose, base, exponent)
        tried(round, base, exponent)


def _is_large(value: object) -> bool:
    return isinstance(value, int) and abs(value) > 1000


def functions() -> None:
    for call, value in itertools.chain.from_iterable(zip(itertools.repeat(call), values()) for call in SINGLE):
        if call in (math.factorial, bytes, bytearray) and _is_large(value):
            continue
        tried(call, value)
        if call in (min, max, sorted, isinstance, round, format, map, filter, zip, sum, int, pow, copy.copy, getattr):
            tried(call, value, None)
            tried(call, value, 2)
            tried(call, str, value)
            tried(call, value, key=repr)
            tried(call, value, reverse=True)
            tried(call, value, default=3)
    for name, function in vars(math).items():
        if callable(function) and name not in ("factorial", "perm", "comb"):
            for arguments in ((0.5,), (2,), (-1,), (1.5, 2), (3, 2), ("a",), (math.inf,), ([1, 2.5],), (1, 2, 3), ()):
                tried(function, *arguments)


def formats() -> None:
    for value in values():
        for spec in SPECS:
            tried(format, value, spec)
        for pattern in PERCENTS:
            tried(operator.mod, pattern, value)
            tried(operator.mod, pattern, (value,))
        for pattern in BRACES:
            tried(pattern.format, value, a=value)
            tried(pattern.format_map, {"a": value})
        tried(lambda v=value: f"{v} {v!r:>4} {v!a}")
    for text in NUMBERS:
        for call in (int, float, complex, Decimal, Fraction, json.loads, str.isdigit, str.isdecimal, str.isnumeric):
            tried(call, text)
        tried(int, text, 16)
        tried(int, text, 0)
    for digits in range(-3, 20):
        tried(round, 2.675, digits)
        tried(round, 12345, digits)
        tried(Decimal("2.675").quantize, Decimal(1).scaleb(-digits))


def texts() -> None:
    for pattern, text in itertools.product(PATTERNS, TEXTS):
        for flags in (0, re.IGNORECASE | re.MULTILINE):
            try:
                compiled = re.compile(pattern, flags)
            except EXPECTED as error:
                repr(error)
                continue
            for call in (compiled.search, compiled.match, compiled.fullmatch, compiled.findall, compiled.finditer):
                tried(call, text)
            tried(compiled.sub, r"<\g<0>>", text)
            tried(compiled.sub, lambda found: found[0].upper(), text)
            tried(compiled.sub, r"\9", text)
            tried(compiled.split, text, 2)
    for data in DATA:
        tried(json.loads, data)
        tried(json.loads, data.encode("utf-8", "surrogatepass"))
        tried(json.loads, data, parse_float=Decimal)
        tried(json.loads, data, object_pairs_hook=list)
    for value in values():
        tried(json.dumps, value, ensure_ascii=False)
        tried(json.dumps, value, indent=1, sort_keys=True, default=repr)
        tried(json.dumps, {"a": [value]})
        tried(json.dumps, {value: 1} if isinstance(value, str | int | float) else value, skipkeys=True)
    handlers = ("strict", "ignore", "replace", "backslashreplace", "surrogatepass", "xmlcharrefreplace", "none")
    for codec in ("utf-8", "ascii", "latin-1", "utf-16", "utf-8-sig", "nonsense", "raw_unicode_escape"):
        for text, handler in itertools.product((*TEXTS, "\ud800", "🧁"), handlers):
            tried(text.encode, codec, handler)
            tried(text.encode("utf-8", "replace").decode, codec, handler)
    tried(list, csv.reader(io.StringIO('a,"b ""c""",d\n1,2\n"x'), strict=True))
    tried(list, csv.DictReader(io.StringIO("a,b\n1,2,3\n4\n")))
    for _ in csv.reader(io.StringIO("a,b\n1,2\n")):
        gc.collect()  # As it happens in the middle of a table.
    table = io.StringIO()
    csv.writer(table).writerows([[1, "a,b", None, '"'], [2.5]])
    difflib.get_close_matches("creem", ["cream", "butter", "sugar"])
    tried(difflib.SequenceMatcher(None, "cream", "crème").get_opcodes)
    tried(textwrap.wrap, "some words to wrap here " * 4, 20)
    tried(textwrap.fill, "some words", 5)
