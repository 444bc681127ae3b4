"""A WebAssembly file that notes which of its functions are entered: in one exported variable for each function."""

from crumbcoat_site.calculators.webassembly import (
    CODE,
    EXPORTS,
    GLOBAL,
    GLOBALS,
    IMPORTS,
    Body,
    bodies_of,
    code_of,
    content_of,
    file_of,
    imported,
    number_bytes,
    read_number,
    sections_of,
    with_section,
)

NAME = "entered."
"""How the exports begin that say whether a function was entered; entered.js reads and hides them."""

_I32_VARIABLE_OF_0 = b"\x7f\x01\x41\x00\x0b"
_I32_CONST_1 = b"\x41\x01"
_GLOBAL_SET = b"\x24"


def marked(file: bytes) -> bytes:
    """The file with a variable for each function, set to 1 when the function is entered."""
    sections = sections_of(file)
    bodies = list(bodies_of(content_of(sections, CODE)))
    own, _ = read_number(content_of(sections, GLOBALS), 0)
    first = imported(content_of(sections, IMPORTS), GLOBAL) + own
    sections = with_section(
        sections, CODE, code_of([_noting(body, first + number) for number, body in enumerate(bodies)])
    )
    variables = [_I32_VARIABLE_OF_0] * len(bodies)
    sections = with_section(sections, GLOBALS, _longer(content_of(sections, GLOBALS), variables))
    exports = [_export(f"{NAME}{number}", first + number) for number in range(len(bodies))]
    sections = with_section(sections, EXPORTS, _longer(content_of(sections, EXPORTS), exports))
    return file_of(sections)


def _noting(body: Body, variable: int) -> Body:
    return Body(body.variables, _I32_CONST_1 + _GLOBAL_SET + number_bytes(variable) + body.code)


def _export(name: str, variable: int) -> bytes:
    return number_bytes(len(name)) + name.encode() + bytes([GLOBAL]) + number_bytes(variable)


def _longer(content: bytes, entries: list[bytes]) -> bytes:
    count, start = read_number(content, 0)
    return number_bytes(count + len(entries)) + content[start:] + b"".join(entries)
