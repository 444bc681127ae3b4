"""A WebAssembly file that notes which of its functions are entered: in one exported variable for each function."""

from crumbcoat_site.calculators.webassembly import (
    CODE,
    Body,
    bodies_of,
    code_of,
    content_of,
    file_of,
    number_bytes,
    read_number,
    sections_of,
    with_section,
)

NAME = "entered."
"""How the exports begin that say whether a function was entered; entered.js reads and hides them."""

_IMPORTS, _GLOBALS, _EXPORTS = 2, 6, 7
_FUNCTION, _TABLE, _MEMORY, _GLOBAL, _TAG = range(5)
_I32_VARIABLE_OF_0 = b"\x7f\x01\x41\x00\x0b"
_I32_CONST_1 = b"\x41\x01"
_GLOBAL_SET = b"\x24"


def marked(file: bytes) -> bytes:
    """The file with a variable for each function, set to 1 when the function is entered."""
    sections = sections_of(file)
    bodies = list(bodies_of(content_of(sections, CODE)))
    own, _ = read_number(content_of(sections, _GLOBALS), 0)
    first = imported_globals(content_of(sections, _IMPORTS)) + own
    sections = with_section(
        sections, CODE, code_of([_noting(body, first + number) for number, body in enumerate(bodies)])
    )
    variables = [_I32_VARIABLE_OF_0] * len(bodies)
    sections = with_section(sections, _GLOBALS, _longer(content_of(sections, _GLOBALS), variables))
    exports = [_export(f"{NAME}{number}", first + number) for number in range(len(bodies))]
    sections = with_section(sections, _EXPORTS, _longer(content_of(sections, _EXPORTS), exports))
    return file_of(sections)


def _noting(body: Body, variable: int) -> Body:
    return Body(body.variables, _I32_CONST_1 + _GLOBAL_SET + number_bytes(variable) + body.code)


def _export(name: str, variable: int) -> bytes:
    return number_bytes(len(name)) + name.encode() + bytes([_GLOBAL]) + number_bytes(variable)


def _longer(content: bytes, entries: list[bytes]) -> bytes:
    count, start = read_number(content, 0)
    return number_bytes(count + len(entries)) + content[start:] + b"".join(entries)


def imported_globals(imports: bytes) -> int:
    """How many variables a file imports: they are counted before its own."""
    count, at = read_number(imports, 0)
    found = 0
    for _ in range(count):
        for _ in ("module", "name"):
            length, start = read_number(imports, at)
            at = start + length
        kind, at = imports[at], at + 1
        found += kind == _GLOBAL
        if kind == _FUNCTION:
            _, at = read_number(imports, at)
        elif kind in (_TABLE, _MEMORY):
            at += kind == _TABLE  # The type of its entries.
            has_most, at = imports[at] & 1, at + 1
            for _ in range(1 + has_most):
                _, at = read_number(imports, at)
        elif kind == _GLOBAL:
            at += 2
        elif kind == _TAG:
            _, at = read_number(imports, at + 1)
    return found
