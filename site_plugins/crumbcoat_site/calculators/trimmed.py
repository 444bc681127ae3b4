"""A smaller WebAssembly file of the interpreter: functions that no request enters stop at once where they are called.

Every function keeps its number, so that pointers to functions and the memory image stay valid. A call of a function
that is missing after all is a trap, which no Python code can catch, or from JavaScript an error, which calc does not
catch: client.js then starts the whole file. Which functions are entered is found out by `make profile`.
"""

import hashlib
import json
import re
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from crumbcoat_site.calculators.webassembly import (
    CODE,
    EXPORTS,
    FUNCTION,
    IMPORTS,
    Body,
    bodies_of,
    code_of,
    content_of,
    export_section,
    exports_of,
    file_of,
    imported,
    sections_of,
    with_section,
)

ENTERED = Path(__file__).parent / "runtime" / "entered.json"
"""Which functions are kept, and the digest of the file that these numbers are for."""

UNREACHABLE = Body(variables=b"\0", code=b"\0\x0b")
"""No variables, the instruction `unreachable`, and the end."""


@dataclass(frozen=True, slots=True)
class Trimmed:
    """The smaller file, and the script that starts it."""

    file: bytes
    loader: str


def trimmed(file: bytes, loader: str, entered: Path = ENTERED) -> Trimmed | None:
    """The interpreter with the functions that are listed, or nothing if the list is for another file.

    Args:
        file: the whole interpreter.
        loader: the script that starts it.
        entered: the list.
    """
    profile = json.loads(entered.read_text(encoding="utf-8"))
    if hashlib.sha256(file).hexdigest() != profile["sha256"]:
        return None
    kept = frozenset(numbers_in(" ".join(profile["functions"])))
    smaller = with_exports(with_functions(file, kept), kept, asked_for(loader))
    exported = {export.name.decode() for export in exports_of(content_of(sections_of(smaller), EXPORTS))}
    return Trimmed(smaller, loader_for(loader, exported))


def with_functions(file: bytes, kept: Iterable[int]) -> bytes:
    """The file in which only these functions have their body; imported functions are not counted."""
    wanted = frozenset(kept)
    sections = sections_of(file)
    bodies = [
        body if number in wanted else UNREACHABLE for number, body in enumerate(bodies_of(content_of(sections, CODE)))
    ]
    return file_of(with_section(sections, CODE, code_of(bodies)))


def with_exports(file: bytes, kept: Collection[int], names: Collection[str]) -> bytes:
    """The file that exports, of its functions, only these and those with one of these names.

    Pyodide puts each function that is exported into its table as it starts.
    """
    sections = sections_of(file)
    before = imported(content_of(sections, IMPORTS), FUNCTION)
    exports = [
        export
        for export in exports_of(content_of(sections, EXPORTS))
        if export.kind != FUNCTION or export.number - before in kept or export.name.decode() in names
    ]
    return file_of(with_section(sections, EXPORTS, export_section(exports)))


def asked_for(loader: str) -> frozenset[str]:
    """The exports that the script uses as values, even where nothing calls them: of some it makes promises.

    >>> asked_for('free = wasmExports["free"]; createPromising(wasmExports.run_main)')
    frozenset({'run_main'})
    """
    return frozenset(re.findall(r"wasmExports\.(\w+)", loader))


def loader_for(loader: str, exported: Collection[str]) -> str:
    """The script without the statements that would take what is not exported; half of it is such a list.

    >>> loader_for('{_f=Module["_f"]=wasmExports["f"];_g=Module["_g"]=wasmExports["g"];}', {"g"})
    '{_g=Module["_g"]=wasmExports["g"];}'
    """
    taking = re.compile(r'(?<=[{;])(\w+)=Module\["\1"\]=wasmExports\["(\w+)"\];')
    return taking.sub(lambda statement: statement[0] if statement[2] in exported else "", loader)


def numbers_in(ranges: str) -> Iterator[int]:
    """The numbers in a list of numbers and ranges.

    >>> list(numbers_in("3 5-7"))
    [3, 5, 6, 7]
    """
    for first, last in re.findall(r"(\d+)(?:-(\d+))?", ranges):
        yield from range(int(first), int(last or first) + 1)


def ranges_of(numbers: Iterable[int]) -> str:
    """The list of numbers and ranges that these make.

    >>> ranges_of([7, 3, 6, 5])
    '3 5-7'
    """
    found: list[list[int]] = []
    for number in sorted(numbers):
        if found and number == found[-1][1] + 1:
            found[-1][1] = number
        else:
            found.append([number, number])
    return " ".join(f"{first}-{last}" if last > first else f"{first}" for first, last in found)
