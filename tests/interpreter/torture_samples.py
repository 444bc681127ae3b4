"""The types, values, arguments and texts that torture.py puts Python through; runs in Pyodide too."""

import collections
import copy
import csv
import dataclasses
import datetime
import difflib
import enum
import functools
import gc
import hashlib
import heapq
import html
import io
import itertools
import json
import math
import operator
import pathlib
import re
import sys
import textwrap
import traceback
import types
import typing
import weakref
from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction
from typing import Any

EXPECTED: tuple[type[BaseException], ...] = (
    ArithmeticError, AssertionError, AttributeError, BufferError, EOFError, ImportError, LookupError, MemoryError,
    NameError, OSError, RuntimeError, StopIteration, StopAsyncIteration, SyntaxError, SystemError, TypeError,
    ValueError,
    csv.Error, re.error, copy.Error,
)  # fmt: skip


class Colour(enum.Enum):
    RED = "red"
    BLUE = "blue"


class Bits(enum.IntFlag):
    ONE = 1
    TWO = 2


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Frozen:
    mass: float
    name: str = "é"
    parts: tuple[int, ...] = ()


@dataclasses.dataclass
class Open:
    mass: float
    parts: list[int] = dataclasses.field(default_factory=list)

    def __post_init__(self) -> None:
        self.twice = 2 * self.mass


class Point(typing.NamedTuple):
    x: float
    y: float = 2.0


class Plain:
    """Has every special method that a class may have, or inherits it."""

    def __init__(self, value: object = 1) -> None:
        self.value = value

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Plain) and self.value == other.value

    def __hash__(self) -> int:
        return hash(self.value)

    def __getattr__(self, name: str) -> str:
        if name.startswith("_"):
            raise AttributeError(name)
        return name

    def __len__(self) -> int:
        return 3

    def __getitem__(self, at: int) -> int:
        if at > 3:
            raise IndexError(at)
        return at

    def __call__(self, *arguments: object, **named: object) -> object:
        return arguments, named

    def __bool__(self) -> bool:
        return True

    def __enter__(self) -> "Plain":
        return self

    def __exit__(self, *_: object) -> bool:
        return False

    @property
    def half(self) -> object:
        return self.value

    @functools.cached_property
    def kept(self) -> object:
        return self.value

    @classmethod
    def made(cls) -> "Plain":
        return cls()

    @staticmethod
    def stays() -> int:
        return 1


@functools.lru_cache(maxsize=3)
def remembered(number: object) -> object:
    return number


@functools.cache
def kept(number: object, other: int = 0) -> object:
    return number, other


def counting(most: int) -> Iterator[int]:
    try:
        for number in range(most):
            if (yield number) == "stop":
                return
    finally:
        gc.collect(0)


def values() -> list[Any]:
    """New samples, since some methods change them."""
    return [
        0, 1, -7, True, 2**31, 2**64 + 1, -(10**40), 7**300, 0.0, -0.0, 1.5, -2.75, 1e300, 5e-324, math.inf,
        math.nan, 1 / 3,
        2.5 + 1j, None, ..., NotImplemented, "", "a", "cream", "Crème brûlée ½ ǅ ß İ ﬁ", "🧁𝟙", "1 234,5",
        "  x\ty\n", "x" * 300,
        b"", b"cream\xff", bytearray(b"abc"), memoryview(b"abcdef"), (), (1, 2.5, "x"), (1, (2, (3,))), [], [3, 1, 2],
        ["b", "a"], [1.5, 2.5, -1.0], list(range(100)), {}, {"a": 1, "b": [2]}, {1: 2, (3,): 4}, set(), {1, 2, 3},
        {"a", "b"}, frozenset((1, 2)), range(10), range(10, 0, -3), slice(1, 5, 2), Decimal("1.50"), Decimal("NaN"),
        Decimal("-Infinity"), Decimal("1e-30"), Fraction(1, 3), Fraction(-7, 2), collections.OrderedDict(a=1, b=2),
        collections.defaultdict(list, a=[1]), collections.Counter("cream"), collections.deque([1, 2, 3], 5),
        collections.ChainMap({"a": 1}, {"b": 2}), types.MappingProxyType({"a": 1}), types.SimpleNamespace(a=1),
        Colour.RED, Bits.ONE | Bits.TWO, Frozen(mass=1.5), Open(2.0), Point(1.0), Plain(), Plain, int, str, dict,
        Colour,
        datetime.date(2026, 11, 26), datetime.timedelta(minutes=90), datetime.datetime(2026, 11, 26, 7, 30),
        datetime.time(7, 30), datetime.UTC, re.compile(r"(\d+)(?:[.,](\d+))?\s*(?P<unit>\w*)"),
        re.search(r"(\d+)(?P<unit>g)?", "about 12g"), pathlib.PurePosixPath("a/b.c"), io.StringIO("a\nb"),
        io.BytesIO(b"ab"),
        iter([1, 2]), iter((1, 2)), iter("ab"), iter({1: 2}), iter({1, 2}), iter(range(3)), reversed([1, 2]),
        zip((1,), (2,), strict=False),
        map(str, (1, 2)), filter(None, (0, 1)), enumerate("ab"), counting(3), itertools.chain((1,), (2,)),
        itertools.islice(range(9), 2, 7, 2), itertools.product("ab", (1, 2)), itertools.groupby("aab"),
        itertools.accumulate((1, 2)), itertools.pairwise("abc"), itertools.combinations("abc", 2),
        itertools.repeat(1, 3),
        itertools.zip_longest("ab", "c"), itertools.starmap(pow, ((2, 3),)), itertools.takewhile(bool, (1, 0)),
        {}.items(), {"a": 1}.keys(), {"a": 1}.values(), len, "a".join, Plain().made, counting, lambda *a, **k: (a, k),
        functools.partial(round, ndigits=2), remembered, kept, operator.itemgetter(0), operator.attrgetter("value"),
        operator.methodcaller("made"), property(len), staticmethod(len), classmethod(len), ValueError("no", 1),
        KeyError("k"),
        UnicodeDecodeError("utf-8", b"a", 0, 1, "no"), OSError(2, "no"), StopIteration(3), ExceptionGroup("g",
        [ValueError()]),
        typing.Any, list[int], int | None, typing.Callable[[int], str], object(), weakref.ref(Plain), types,
        sys.flags,
    ]  # fmt: skip


ARGUMENTS: tuple[tuple[Any, ...], ...] = (
    (), (0,), (-1,), (2,), (1.5,), ("a",), ("",), ("é½", "x"), (b"a",), (None,), ([1, 2],), ((1, 2),), ({"a": 1},),
    ({1, 2},),
    (0, 2), (1, 2, 3), ("a", 1), ("a", "b", 1), (lambda x: x,), (str,), (slice(0, 2),), (Decimal("0.1"),), (10**30,),
    (Fraction(1, 3), 2), ([("a", 1)],), ("utf-8",), ("utf-8", "replace"), ("ascii",), ("ascii", "strict"), (" ", 1),
    (0, "x"),
    (Plain(),), (range(3),), ("%d",), ("x", ("y", "z")), (True,),
)  # fmt: skip
NEVER = {
    # What ends the run, waits, reads files, takes all memory, or brings others out of step.
    "exit", "quit", "input", "breakpoint", "help", "copyright", "credits", "license", "open", "__import__", "exec",
    "eval",
    "compile", "print", "count", "repeat", "cycle", "sleep", "setrecursionlimit", "_exit", "abort", "read_text",
    "write_text",
    "__del__", "__subclasses__", "mro", "__init_subclass__", "__reduce_ex__", "__reduce__", "gi_frame", "open_code",
}  # fmt: skip
BINARY = (
    "add", "sub", "mul", "truediv", "floordiv", "mod", "matmul", "and_", "or_", "xor", "lt", "le", "eq", "ne", "gt",
    "ge",
    "contains", "concat", "getitem", "iadd", "isub", "imul", "ior", "iand", "is_", "countOf", "indexOf", "delitem",
)  # fmt: skip
UNARY = ("neg", "pos", "abs", "invert", "not_", "truth", "index", "length_hint")
SINGLE: tuple[Callable[..., object], ...] = (
    repr, str, ascii, hash, len, iter, list, tuple, set, frozenset, dict, sorted, reversed, bool, int, float,
    complex, bytes,
    bytearray, enumerate, any, all, min, max, sum, math.fsum, math.prod, math.floor, math.ceil, math.trunc, math.sqrt,
    math.log, math.exp, math.isnan, math.isqrt, math.frexp, math.factorial, math.gcd, round, abs, divmod, pow, chr,
    ord, bin,
    hex, oct, callable, id, type, dir, vars, isinstance, issubclass, copy.copy, copy.deepcopy, json.dumps,
    json.loads, Decimal,
    Fraction, dataclasses.asdict, dataclasses.astuple, dataclasses.replace, dataclasses.fields, format,
    collections.Counter,
    collections.deque, heapq.heapify, heapq.heappop, html.escape, html.unescape, textwrap.dedent, re.escape,
    re.compile,
    memoryview, next, slice, range, zip, map, filter, super, property, functools.reduce,
    itertools.chain.from_iterable,
    itertools.pairwise, itertools.accumulate, math.hypot, math.dist,
    typing.get_type_hints, typing.get_origin, typing.get_args, hashlib.sha256, hashlib.md5, hashlib.blake2b,
    difflib.ndiff,
    weakref.ref, weakref.proxy, sys.getsizeof, sys.intern, sys.getrefcount, io.StringIO, io.BytesIO, csv.reader,
    pathlib.PurePosixPath, datetime.date.fromisoformat, datetime.datetime.fromisoformat, traceback.format_exception,
)  # fmt: skip
SPECS = (
    "", "g", ".3g", ".2f", ",.1f", "+.0f", "08.3f", "e", "%", ".1%", "d", ",d", "_d", "x", "#x", "b", "o", "c", "n",
    "s", "10",
    "<10", ">10", "^10", "*^12", "=+8", "r", "z.1f", ".0e", "G", "%Y-%m-%d %H:%M", "-^9", "q", ".", "10.", ".999f",
    "١", "{}",
)  # fmt: skip
PERCENTS = (
    "%s", "%r", "%d", "%5.2f", "%x", "%c", "%(a)s", "%%", "%*d", "%e", "%g", "%i", "%o", "%q", "%", "%s %s", "%-8s|",
)  # fmt: skip
BRACES = (
    "{}", "{0}", "{a}", "{0[a]}", "{0.real}", "{!r}", "{!s:>5}", "{:{}}", "{", "}", "{{}}", "{:.2f}", "{!x}",
    "{0[1]}",
)  # fmt: skip
NUMBERS = (
    "1", "-1", "+1.5", "1e3", "1E-400", "1e400", "nan", "-inf", "1_000", "1__0", " 7 ", "0x1f", "0b101", "٣", "½",
    "", "abc",
    "9" * 400, "9" * 5000, "1/3", "-7/0", "0.1e", ".5", "5.", "1.5e+10", "\0", "12\N{NO-BREAK SPACE}", "𝟙", "--1",
)  # fmt: skip
PATTERNS = (
    r"\d+", r"(\d+)[.,]?(\d*)", r"(?P<n>\w+)\s*(?P<u>[^\W\d]+)?", r"^\s*$", r"[a-zé½]+", r"(?i)CREAM", r"(a|b)*?c",
    r"(?<=a)b",
    r"(?!a)\w", r"\bx\b", r"[^\x00-\x7f]", r"(?s).+", r"(?m)^a$", r"(\w)\1", r"x{2,5}", r"x{2,5}?", r"(?:a|bc|d)++",
    r"(",
    r"[", r"*", r"(?P<n>a)(?P=n)", r"(?(1)a|b)", r"\Z", r"(?x) a # note", r"[\w.-]+@", r"(?ia:ß)",
    r"\N{DEGREE SIGN}", r"\p",
)  # fmt: skip
TEXTS = ("12,5 g", "aabbc", "Crème 1½ cups", "", "x" * 50, "a\nb\na", "ＡＢＣ", "CREAM cream", "ab@c", "ſ ß", "°C 5")
DATA = (
    "{}", "[1, 2.5, -3e4, null, true, false]", '{"a": {"b": ["\\u00e9\\ud83e\\uddc1", "\\n"]}}', "{", "[1,",
    '{"a" 1}', '{"a":}',
    "[1 2]", '"\\x"', '"\t"', "nul", "NaN", "-Infinity", "01", "1.", "1e", "[" * 200 + "]" * 200,
    '{"a": 1, "a": 2}', "\ufeff[]",
    '"\\ud800"', "9" * 400, "9" * 5000, '"abc', " [ ] ", "{'a': 1}", "[1, 2] x", '{1: 2}', '"\\u12"', "-", "",
)  # fmt: skip
