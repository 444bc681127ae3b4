"""Runs in Pyodide, after everything is imported: compiles each imported module again, without what only people read.

Leaves /lean/library.zip, the standard library as far as it was imported, and /lean/packages, the rest with its data;
`packages` names the files of the latter. A file of /stubs takes the place of the module of the same name.
"""

import importlib.util
import marshal
import os
import sys
import zipfile
from pathlib import Path

SITE = Path(importlib.util.find_spec("crumbcoat_calc").submodule_search_locations[0]).parent
STUBS = Path("/stubs")
HEADER = importlib.util.MAGIC_NUMBER + bytes(12)


def compiled(source, file):
    """The module's byte code as a .pyc file, without docstrings, asserts and line numbers."""
    return HEADER + marshal.dumps(without_lines(compile(source, file, "exec", dont_inherit=True, optimize=2)))


def without_lines(code):
    """The same code, every instruction of it on the first line of its function: a table that packs to next to nothing.

    Whoever needs the line of a bug finds it after an ordinary start, to which the browser turns when a bug shows.
    """
    # A table's entry begins with a byte of 1, its kind (13: no column) and how many instructions, less one, it is of;
    # the 0 behind it is how many lines it goes on.
    whole, rest = divmod(len(code.co_code) // 2, 8)
    table = bytes((0xE8 | 7, 0)) * whole + (bytes((0xE8 | rest - 1, 0)) if rest else b"")
    inner = tuple(without_lines(one) if isinstance(one, type(code)) else one for one in code.co_consts)
    return code.replace(co_consts=inner, co_linetable=table)


def sources():
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
os.makedirs("/lean")
with zipfile.ZipFile("/lean/library.zip", "w") as library:
    for file, (ours, source) in sorted(sources().items()):
        if ours:
            packages[f"{file}c"] = compiled(source, file)
        else:
            library.writestr(zipfile.ZipInfo(f"{file}c"), compiled(source, file))
for file, content in packages.items():
    target = Path("/lean/packages", file)
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(content)
