"""Reads and writes a WebAssembly file as far as its sections, its exports and the bodies of its functions."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

IMPORTS, GLOBALS, EXPORTS, CODE = 2, 6, 7, 10
"""The numbers of the sections with imports, variables, exports, and the bodies of functions."""

_HEADER = b"\0asm\1\0\0\0"


class WebAssemblyError(ValueError):
    """The file does not begin as a WebAssembly file of version 1 does."""


@dataclass(frozen=True, slots=True)
class Section:
    """A section: its number says what it holds."""

    number: int
    content: bytes


@dataclass(frozen=True, slots=True)
class Body:
    """The body of a function: the declaration of its local variables, and its instructions up to the final `end`."""

    variables: bytes
    code: bytes


def sections_of(file: bytes) -> tuple[Section, ...]:
    """The sections of a file, in their order.

    Raises:
        WebAssemblyError: if it does not begin as WebAssembly does.
    """
    if not file.startswith(_HEADER):
        raise WebAssemblyError("this is not a WebAssembly file")
    found = []
    at = len(_HEADER)
    while at < len(file):
        length, start = read_number(file, at + 1)
        found.append(Section(file[at], file[start : start + length]))
        at = start + length
    return tuple(found)


def file_of(sections: tuple[Section, ...]) -> bytes:
    """The file with these sections."""
    parts = [_HEADER]
    for section in sections:
        parts += [bytes([section.number]), number_bytes(len(section.content)), section.content]
    return b"".join(parts)


def with_section(sections: tuple[Section, ...], number: int, content: bytes) -> tuple[Section, ...]:
    """The sections with other content in one of them."""
    return tuple(replace(section, content=content) if section.number == number else section for section in sections)


def content_of(sections: tuple[Section, ...], number: int) -> bytes:
    """The content of the section of that number."""
    return next(section.content for section in sections if section.number == number)


def bodies_of(code: bytes) -> Iterator[Body]:
    """The bodies in a code section, by function; functions that are imported have none."""
    count, at = read_number(code, 0)
    for _ in range(count):
        length, start = read_number(code, at)
        at = start + length
        groups, instructions = read_number(code, start)
        for _ in range(groups):
            _, kind = read_number(code, instructions)
            instructions = kind + 1
        yield Body(code[start:instructions], code[instructions:at])


def code_of(bodies: list[Body]) -> bytes:
    """The code section with these bodies."""
    parts = [number_bytes(len(bodies))]
    for body in bodies:
        parts += [number_bytes(len(body.variables) + len(body.code)), body.variables, body.code]
    return b"".join(parts)


FUNCTION, TABLE, MEMORY, GLOBAL, TAG = range(5)
"""The kinds of what can be imported and exported."""


@dataclass(frozen=True, slots=True)
class Export:
    """What the world outside sees under a name: its kind and its number among those of that kind."""

    name: bytes
    kind: int
    number: int


def imported(imports: bytes, wanted: int) -> int:
    """How many functions, or others of a kind, an import section asks for; they are counted before the file's own."""
    count, at = read_number(imports, 0)
    found = 0
    for _ in range(count):
        for _ in ("module", "name"):
            length, at = read_number(imports, at)
            at += length
        kind = imports[at]
        found += kind == wanted
        at = _after_type(imports, at + 1, kind)
    return found


def _after_type(imports: bytes, at: int, kind: int) -> int:
    """The place after the type of an import, which begins at this one."""
    if kind == GLOBAL:
        return at + 2
    if kind in (TABLE, MEMORY):
        at += kind == TABLE
        has_maximum = imports[at] & 1
        at = read_number(imports, at + 1)[1]
        return read_number(imports, at)[1] if has_maximum else at
    return read_number(imports, at + (kind == TAG))[1]


def exports_of(content: bytes) -> Iterator[Export]:
    """The exports in an export section."""
    count, at = read_number(content, 0)
    for _ in range(count):
        length, start = read_number(content, at)
        kind = start + length
        number, at = read_number(content, kind + 1)
        yield Export(content[start:kind], content[kind], number)


def export_section(exports: list[Export]) -> bytes:
    """The export section with these exports."""
    parts = [number_bytes(len(exports))]
    for export in exports:
        parts += [number_bytes(len(export.name)), export.name, bytes([export.kind]), number_bytes(export.number)]
    return b"".join(parts)


def read_number(content: bytes, at: int) -> tuple[int, int]:
    """A number without a sign (LEB128), and the place behind it.

    >>> read_number(bytes([0xE5, 0x8E, 0x26]), 0)
    (624485, 3)
    """
    number = shift = 0
    while content[at] & 0x80:
        number |= (content[at] & 0x7F) << shift
        shift += 7
        at += 1
    return number | content[at] << shift, at + 1


def number_bytes(number: int) -> bytes:
    """The bytes of a number without a sign (LEB128).

    >>> number_bytes(624485).hex(" ")
    'e5 8e 26'
    """
    found = bytearray()
    while number > 0x7F:
        found.append(number & 0x7F | 0x80)
        number >>= 7
    found.append(number)
    return bytes(found)
