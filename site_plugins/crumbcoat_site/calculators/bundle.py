"""What Python needs in the browser, as installed for this build: calc, pint and what pint requires, in one archive."""

import ast
import io
import zipfile
from collections.abc import Iterator, Mapping
from importlib import metadata
from pathlib import Path

from packaging.requirements import Requirement

BROWSER = {
    "extra": "",
    "implementation_name": "cpython",
    "os_name": "posix",
    "platform_machine": "wasm32",
    "platform_python_implementation": "CPython",
    "platform_system": "Emscripten",
    "python_full_version": "3.14.2",
    "python_version": "3.14",
    "sys_platform": "emscripten",
}
"""What a requirement's marker sees: the Python of the pinned Pyodide, not the one that builds."""

_EARLIEST = (1980, 1, 1, 0, 0, 0)


class BundleError(ValueError):
    """A package cannot go to the browser; the message gives the problem and the fix."""


def bundled(package: Path, distribution: str) -> dict[str, bytes]:
    """Every file, by its path, of a package of ours and of an installed distribution with everything it requires.

    Args:
        package: the folder of our package, which goes in with its data.
        distribution: the one distribution that the package imports.

    Raises:
        BundleError: if a distribution contains compiled code.
    """
    files = package_files(package)
    for name in required(distribution):
        files |= distribution_files(name)
    return files


def package_files(package: Path, start: str = "bridge") -> dict[str, bytes]:
    """What the browser runs of a package, and all of its data, by path from the package's parent.

    Args:
        package: its folder.
        start: the module that the browser calls; a module that it does not reach by imports stays out.
    """
    files = {path: path.relative_to(package.parent).as_posix() for path in sorted(package.rglob("*"))}
    modules = _reached({path: name for path, name in files.items() if path.suffix == ".py"}, package, start)
    return {
        name: path.read_bytes()
        for path, name in files.items()
        if path.is_file() and path.suffix != ".md" and "__pycache__" not in path.parts
        if path.suffix != ".py" or path in modules
    }


def _reached(files: Mapping[Path, str], package: Path, start: str) -> set[Path]:
    """The modules that one imports, directly or not, with the packages that they are in."""
    by_name = {
        name.removesuffix(".py").removesuffix("/__init__").replace("/", "."): path for path, name in files.items()
    }
    reached: set[Path] = set()
    waiting = [f"{package.name}.{start}"]
    while waiting:
        name = waiting.pop()
        path = by_name.get(name)
        if path is None or path in reached:
            continue
        reached.add(path)
        waiting += [name.rpartition(".")[0], *_imported(path)]
    return reached


def _imported(path: Path) -> Iterator[str]:
    """The names of all that a module imports, some of which are not modules."""
    for node in ast.walk(ast.parse(path.read_bytes())):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def distribution_files(name: str) -> dict[str, bytes]:
    """Every file that an installed distribution imports or reads: no tests, no scripts, one file of metadata.

    Raises:
        BundleError: if it contains compiled code, which no browser runs.
    """
    files = {}
    for path in metadata.files(name) or ():
        if path.suffix in (".so", ".pyd", ".dylib"):
            problem = f"{name} contains compiled code ({path}), and only pure Python can go to the browser"
            raise BundleError(f"{problem}.\n    Fix: install a version of {name} that is pure Python.")
        if path.parts[0] == ".." or path.suffix == ".pyc" or "testsuite" in path.parts:
            continue
        if path.parts[0].endswith(".dist-info") and path.name != "METADATA":
            continue
        files[path.as_posix()] = Path(path.locate()).read_bytes()
    return files


def required(distribution: str) -> tuple[str, ...]:
    """A distribution and everything that it requires in a browser, each once, by name."""
    found: set[str] = set()
    waiting = [distribution]
    while waiting:
        name = waiting.pop().lower()
        if name in found:
            continue
        found.add(name)
        waiting += [needed.name for needed in map(Requirement, metadata.requires(name) or ()) if _applies(needed)]
    return tuple(sorted(found))


def archive(files: Mapping[str, bytes]) -> bytes:
    """A zip archive of files by path; the same files give the same bytes at any time on any machine."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as target:
        for path in sorted(files):
            entry = zipfile.ZipInfo(path, _EARLIEST)
            entry.create_system = 3  # Unix, whatever the system that runs this.
            entry.external_attr = 0o644 << 16
            target.writestr(entry, files[path], zipfile.ZIP_DEFLATED, 9)
    return buffer.getvalue()


def _applies(requirement: Requirement) -> bool:
    return requirement.marker is None or requirement.marker.evaluate(BROWSER)
