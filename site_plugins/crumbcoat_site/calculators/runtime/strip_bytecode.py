"""Runs in Pyodide once everything is imported: compiles each imported module again, without what only people read.

Writes /stripped/library.zip, the part of the standard library that was imported, and /stripped/packages, the other
modules with their data; `packages` names the files of the latter. A file of /stubs replaces the module of that name.
"""

import importlib.util
import marshal
import os
import sys
import zipfile
from pathlib import Path
from types import CodeType

import crumbcoat_calc

SITE = Path(crumbcoat_calc.__file__).parents[1]
STUBS = Path("/stubs")
HEADER = importlib.util.MAGIC_NUMBER + bytes(12)


def compiled(source: str, file: str) -> bytes:
    """The module's byte code as a .pyc file, without docstrings, asserts and line numbers."""
    return HEADER + marshal.dumps(without_lines(compile(source, file, "exec", dont_inherit=True, optimize=2)))


def without_lines(code: CodeType) -> CodeType:
    """The same code with every instruction on the first line of its function: a table that packs to almost nothing.

    To find the line of a bug, start Pyodide the ordinary way, as the browser does by itself when it meets a bug.
    """
    # An entry of the table begins with a byte made of 1, its kind (13: no column) and the number of its instructions
    # less one; the 0 after it is the number of lines it moves on.
    whole, rest = divmod(len(code.co_code) // 2, 8)
    table = bytes((0xE8 | 7, 0)) * whole + (bytes((0xE8 | rest - 1, 0)) if rest else b"")
    constants = tuple(
        without_lines(constant) if isinstance(constant, CodeType) else constant for constant in code.co_consts
    )
    return code.replace(co_consts=constants, co_linetable=table)


def sources() -> dict[str, tuple[bool, str]]:
    """Every imported module that has a source, by its file: whether it is in site-packages, and the source."""
    found = {}
    for module in list(sys.modules.values()):
        spec = getattr(module, "__spec__", None)
        if spec is None or not spec.has_location or not hasattr(spec.loader, "get_source"):
            continue
        source = spec.loader.get_source(spec.name)
        if source is not None:
            package = "/__init__" if spec.submodule_search_locations is not None else ""
            file = f"{spec.name.replace('.', '/')}{package}.py"
            found[file] = (spec.origin.startswith(str(SITE)), source)
    for stub in STUBS.rglob("*.py"):
        file = stub.relative_to(STUBS).as_posix()
        if file in found:
            found[file] = (found[file][0], stub.read_text(encoding="utf-8"))
    return found


packages = {
    path.relative_to(SITE).as_posix(): path.read_bytes()
    for path in SITE.rglob("*")
    if path.is_file() and path.suffix not in (".py", ".pyc")
}
os.makedirs("/stripped")
with zipfile.ZipFile("/stripped/library.zip", "w") as library:
    for file, (in_site_packages, source) in sorted(sources().items()):
        if in_site_packages:
            packages[f"{file}c"] = compiled(source, file)
        else:
            library.writestr(zipfile.ZipInfo(f"{file}c"), compiled(source, file))
for file, content in packages.items():
    target = Path("/stripped/packages", file)
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(content)
