"""Readers of outside data, field by field, so that every error knows its path."""

import difflib
import re
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from typing import TypeVar

from crumbcoat_calc.errors import EmptyFieldError, InputError, MissingFieldError

T = TypeVar("T")
D = TypeVar("D")

LONGEST_TEXT = 4000
UNPRINTABLE = re.compile(
    "[^\t\n\x20-\x7e\xa0-\u2027\u202f-\u2065\u206a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)
"""Characters that no text for people contains: controls, hidden line breaks, lone surrogates, non-characters, and
those that turn the direction of what follows: a text is not what it looks like (Unicode Technical Standard 55)."""

_SLUG = re.compile(r"[a-z][a-z0-9_-]*")


def did_you_mean(word: str, known: Iterable[str], otherwise: str) -> str:
    """The nearest known word as a remedy, else the remedy `otherwise`.

    >>> did_you_mean("sumary", ["title", "summary"], "leave it out")
    "did you mean 'summary'?"
    """
    near = difflib.get_close_matches(word, list(known), n=1)
    return f"did you mean {near[0]!r}?" if near else otherwise


def nearest_of(word: str, known: Iterable[str], verb: str = "use") -> str:
    """All the words of a list as a remedy, the nearest first.

    >>> nearest_of("hihg", ["low", "by hand", "high"])
    "did you mean 'high'? The others: low, by hand"
    >>> nearest_of("glaze", ["ganache", "glaze or icing"])
    "did you mean 'glaze or icing'? The others: ganache"
    >>> nearest_of("fast", ["low", "high"])
    'use one of: low, high'
    """
    words = [name for name in known if name]
    lowered = {name.lower(): name for name in reversed(words)}
    near = [lowered[name] for name in difflib.get_close_matches(word.lower(), lowered, n=len(words) or 1)]
    parts = _long_words(word)
    near += [name for name in words if name not in near and parts & _long_words(name)]
    others = ", ".join(dict.fromkeys((*near[1:], *(name for name in words if name not in near))))
    if not near:
        return f"{verb} one of: {others}"
    return f"did you mean {near[0]!r}?" + (f" The others: {others}" if others else "")


def _long_words(words: str) -> set[str]:
    return set(re.findall(r"\w{4,}", words.lower()))


def mapping(value: object) -> Mapping[str, object]:
    """Fields with their values."""
    if not isinstance(value, Mapping):
        remedy = "write one `name: value` per line, indented" + (", without `- `" if isinstance(value, list) else "")
        raise InputError(f"expected fields, but found {_quoted(value)}", remedy)
    return value


def sequence(value: object) -> list[object]:
    """A list of values."""
    if not isinstance(value, list):
        raise InputError(
            f"expected a list, but found {_quoted(value)}", "write one `- entry` per line, or `[one, two]`"
        )
    return value


def text(value: object) -> str:
    """A text, not empty, of at most `LONGEST_TEXT` characters, without control characters."""
    if not isinstance(value, str):
        raise InputError(f"expected text, but found {_quoted(value)}", "write plain text, in quotes if it has a colon")
    stripped = value.strip()
    if not stripped:
        raise EmptyFieldError("the field is empty", "fill it in, or delete the field if it is optional")
    if len(stripped) > LONGEST_TEXT:
        problem = f"the text is too long, with {len(stripped)} characters"
        raise InputError(problem, f"shorten it to {LONGEST_TEXT} characters")
    unprintable = UNPRINTABLE.search(stripped)
    if unprintable:
        problem = f"the text contains a character that cannot be displayed, U+{ord(unprintable[0]):04X}"
        raise InputError(problem, "type the text again without it")
    return stripped


def line(value: object) -> str:
    """A text as a single line: any run of spaces and line breaks becomes one space.

    >>> line(" butter,\\n  soft ")
    'butter, soft'
    """
    return " ".join(text(value).split())


def yes_no(value: object) -> bool:
    """`yes` or `no`, or `true` or `false`, which are the same in YAML."""
    word = text(value).lower()
    if word not in ("yes", "no", "true", "false"):
        raise InputError(f"{word!r} is neither yes nor no", "write `yes` or `no`")
    return word in ("yes", "true")


def slug(value: object) -> str:
    """A short name that other fields can refer to: lower-case letters, digits, `_` and `-`.

    >>> slug("brown_butter")
    'brown_butter'
    """
    word = text(value)
    if not _SLUG.fullmatch(word) or len(word) > 60:
        raise InputError(
            f"{word[:60]!r} is not a valid short name",
            "use lower-case letters, digits, _ and -, starting with a letter, such as `brown_butter`",
        )
    return word


def one_of(*words: str, also: Mapping[str, str] | None = None) -> Callable[[object], str]:
    """A reader that accepts one of these words, in capitals too, and with spaces or hyphens; it returns the word here.

    Args:
        also: other words that people write, in small letters, and the word that each is for.

    >>> one_of("at room temperature", "medium-low", also={"counter": "at room temperature"})("Medium low")
    'medium-low'
    """
    known = {**_by_plain_word(words), **(also or {})}

    def read(value: object) -> str:
        word = text(value)
        found = known.get(_plain_word(word))
        if found is None:
            raise InputError(f"{word[:60]!r} is not an option here", nearest_of(word, words))
        return found

    return read


@lru_cache(maxsize=64)
def _by_plain_word(words: tuple[str, ...]) -> Mapping[str, str]:
    return {_plain_word(word): word for word in words}


def _plain_word(word: str) -> str:
    return " ".join(re.split(r"[\s_-]+", word.lower())) if word.isascii() else word


def only(data: Mapping[str, object], known: Iterable[str]) -> None:
    """Refuse an unknown field."""
    known = tuple(known)
    for key in data:
        if key in known:
            continue
        if " " in str(key).strip():
            raise InputError(f"{key!r} is not a field", "put quotes around a text that has a comma or a colon", (key,))
        raise InputError(f"unknown field {key!r}", nearest_of(str(key), known), (key,))


def take(data: Mapping[str, object], key: str, read: Callable[[object], T]) -> T:
    """Read the field `key`; an error if it is missing."""
    if key not in data:
        raise MissingFieldError(f"the field {key!r} is missing", f"add `{key}: …`")
    try:
        return read(data[key])
    except InputError as error:
        raise error.within(key) from None


def take_or(data: Mapping[str, object], key: str, read: Callable[[object], T], otherwise: D) -> T | D:
    """Read the field `key`; `otherwise` if it is missing."""
    return take(data, key, read) if key in data else otherwise


def each(read: Callable[[object], T], *, at_least: int = 0) -> Callable[[object], tuple[T, ...]]:
    """A reader of lists that reads each entry with `read`."""

    def read_all(value: object) -> tuple[T, ...]:
        entries = sequence(value)
        if len(entries) < at_least:
            raise InputError(*_too_few(len(entries), at_least))
        result = []
        for position, entry in enumerate(entries):
            try:
                result.append(read(entry))
            except InputError as error:
                raise error.within(position) from None
        return tuple(result)

    return read_all


def each_named(read: Callable[[str, object], T], *, at_least: int = 0) -> Callable[[object], tuple[T, ...]]:
    """A reader of fields with any names: `read` gets the name, checked by `slug`, and the value."""

    def read_all(value: object) -> tuple[T, ...]:
        fields = mapping(value)
        if len(fields) < at_least:
            raise InputError(*_too_few(len(fields), at_least))
        result = []
        for name, entry in fields.items():
            try:
                result.append(read(slug(name), entry))
            except InputError as error:
                raise error.within(name) from None
        return tuple(result)

    return read_all


def _too_few(count: int, at_least: int) -> tuple[str, str]:
    listed = "nothing is" if count == 0 else f"only {count} entry is" if count == 1 else f"only {count} entries are"
    return f"{listed} listed here", f"list at least {at_least}"


def _quoted(value: object) -> str:
    if isinstance(value, Mapping):
        return "a block of fields"
    if isinstance(value, list):
        return "a list"
    shown = str(value)
    if not shown:
        return "nothing"
    return repr(shown if len(shown) <= 40 else shown[:39] + "…")
