"""What the groups of a class found, from the codes that their phones gave (class_code.js).

They are outside data: nothing in them is trusted, and one that cannot be used is reported, without the others being
lost.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.trial_notes import marks_of
from crumbcoat_calc.kitchen.density import CUPS
from crumbcoat_calc.lesson.lesson import MOST_GROUPS
from crumbcoat_calc.values.fields import line
from crumbcoat_calc.values.form_fields import choice_from, number_from, read_field
from crumbcoat_calc.values.units import whole_number

T = TypeVar("T")

MOST_LETTERS = 200_000
"""How long all codes together may be: some forty groups, each many times over."""

ATTRIBUTES = ("sweetness", "smoothness", "firmness")
"""What each person gives a mark for, from 1 to 9 (common practice, no source)."""

_PRIME = 65521
_START = re.compile("crumbcoat:", re.IGNORECASE)
_CODE = re.compile(r"(1;(?:[A-Za-z0-9_./-]+=[^;=]*;)+)check=([0-9a-f]{8})")
_ESCAPED = re.compile(r"~([0-9a-f]{1,6})\.")
_MADE = re.compile(r"(\d{4}-\d\d-\d\d)T\d\d:\d\d:\d\d")
_LONGEST_NOTE = 300


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What a group found. `made` is the date and time of the code, `card` the form state of its card.

    In g, °C and, for marks, 1 to 9; None where nothing was written.
    """

    group: int
    title: str
    made: str
    card: Mapping[str, str]
    mass_g: float | None
    t_c: float | None
    cup: str
    cup_g: float | None
    marks: Mapping[str, tuple[int, ...]]
    note: str

    @property
    def date(self) -> str:
        return self.made[:10]


@dataclass(frozen=True, slots=True)
class Unusable:
    """A code that cannot be used: which, what is wrong, and what to do."""

    which: str
    problem: str
    remedy: str


def found_in(written: str) -> tuple[list[Found], list[Unusable]]:
    """What the groups found, sorted by recipe and group, and the codes that cannot be used.

    Of several codes of a group for one recipe the newest counts, of two of the same second the later one.

    Raises:
        InputError: if there is no code in it at all, or more than `MOST_LETTERS`.
    """
    if len(written) > MOST_LETTERS:
        raise InputError("this is too much text", "paste the codes only")
    _, *pieces = _START.split(re.sub(r"\s+", "", written))
    if not pieces and written.strip():
        raise InputError(
            "there is no code in it", "paste codes that begin with `crumbcoat:`, or open the files of the groups"
        )
    newest: dict[tuple[str, int], Found] = {}
    unusable = []
    for number, piece in enumerate(pieces, 1):
        try:
            found = _found(piece)
        except InputError as error:
            group = re.search(r";group=([1-9][0-9]?);", piece)
            which = f"Code {number}, of group {group[1]}" if group else f"Code {number}"
            unusable.append(Unusable(which, error.problem, error.remedy))
            continue
        earlier = newest.get((found.title, found.group))
        if earlier is None or earlier.made <= found.made:
            newest[found.title, found.group] = found
    return [newest[key] for key in sorted(newest)], unusable


def _found(piece: str) -> Found:
    code = _CODE.match(piece)
    if code is None:
        raise InputError("part of it is missing", "copy it again from the phone, whole, or use the file")
    if adler32(f"crumbcoat:{code[1]}") != code[2]:
        raise InputError("it was changed on the way", "copy it again from the phone, or use the file")
    fields: dict[str, str] = {}
    for field in code[1].split(";")[1:-1]:
        name, _, value = field.partition("=")
        fields[name] = _plain(value)
    head = ("title", "group", "made")
    if any(not fields.get(name) for name in head) or not _MADE.fullmatch(fields["made"]):
        raise InputError("it does not say which group made what, and when", "make the code again on the phone")
    return Found(
        title=line(fields["title"])[:200],
        group=_read("group", fields["group"], whole_number(1, MOST_GROUPS)),
        made=fields["made"],
        card={name[5:].replace("/", ":"): value for name, value in fields.items() if name.startswith("card.")},
        mass_g=_number(fields, "mass", 1, 200_000),
        t_c=_number(fields, "t_c", -40, 200),
        cup=_read("cup", fields.get("cup", CUPS[0]), partial(choice_from, known=CUPS, what="cup")),
        cup_g=_number(fields, "cup_weighs", 1, 3000),
        marks={name: marks for name in ATTRIBUTES if (marks := _marks(name, fields.get(f"marks.{name}", "")))},
        note=" ".join(fields.get("note", "").split())[:_LONGEST_NOTE],
    )


_NAMES = {"mass": "the mass", "t_c": "the temperature", "cup_weighs": "the cup", "group": "the group", "cup": "the cup"}


def _read(name: str, value: str, reader: Callable[[str], T]) -> T:
    try:
        return read_field(name, value, reader)
    except InputError as error:
        remedy = f"{error.remedy}; change it on the phone and make the code again"
        raise InputError(f"{_NAMES.get(name, name)}: {error.problem}", remedy) from None


def _number(fields: Mapping[str, str], name: str, lowest: int, highest: int) -> float | None:
    written = fields.get(name, "").strip()
    if not written:
        return None
    size = _read(name, written.lstrip("-−").replace(",", "."), number_from)
    value = -size if written.startswith(("-", "−")) else size
    if not lowest <= value <= highest:
        problem = f"{_NAMES[name]}: {written[:40]!r} is too {'small' if value < lowest else 'large'}"
        raise InputError(problem, f"{lowest} to {highest} is possible; change it on the phone and make the code again")
    return value


def _marks(name: str, written: str) -> tuple[int, ...]:
    return tuple([_read(name, mark, whole_number(1, 9)) for mark in marks_of(written)[:MOST_GROUPS]])


def _plain(value: str) -> str:
    """The text that a code holds in letters, digits and a few signs."""
    shown = value.replace("_", " ")
    return _ESCAPED.sub(lambda found: _letter(int(found[1], 16)), shown)


def _letter(number: int) -> str:
    """A letter by its number in Unicode; a space for what is none."""
    return chr(number) if 31 < number < 0xD800 or 0xDFFF < number < 0x110000 else " "


def adler32(text: str) -> str:
    """The checksum of a text in ASCII, as eight digits.

    Source:
        RFC 1950, section 9.

    >>> adler32("123456789")
    '091e01de'
    """
    low, high = 1, 0
    for letter in text:
        low = (low + ord(letter)) % _PRIME
        high = (high + low) % _PRIME
    return f"{high:04x}{low:04x}"
