"""The archive that goes to the browser: whole, pure, and the same bytes each time."""

import io
import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import crumbcoat_calc
import pytest
from crumbcoat_site.calculators.bundle import BundleError, archive, bundled, distribution_files, package_files, required

CALC = Path(crumbcoat_calc.__file__).parent


def test_same_input_gives_the_same_bytes_whatever_the_time_and_the_order(tmp_path: Path) -> None:
    first = archive(bundled(CALC, "pint"))
    copy = tmp_path / "crumbcoat_calc"
    shutil.copytree(CALC, copy)
    for path in copy.rglob("*"):
        os.utime(path, (1, 1))
    assert archive(bundled(copy, "pint")) == first
    files = package_files(CALC)
    assert archive(dict(reversed(files.items()))) == archive(files)


def test_every_module_that_the_browser_can_reach_and_every_data_file_of_calc_is_in_it() -> None:
    script = (
        "import sys; from crumbcoat_calc import bridge; print(*[name for name in sys.modules if 'crumbcoat' in name])"
    )
    reached = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True).stdout.split()
    files = {name.replace(".", "/") for name in reached}
    with zipfile.ZipFile(io.BytesIO(archive(bundled(CALC, "pint")))) as made:
        names = set(made.namelist())
        for path in CALC.rglob("*"):
            name = f"crumbcoat_calc/{path.relative_to(CALC).as_posix()}"
            module = name.removesuffix(".py").removesuffix("/__init__")
            if path.suffix in (".csv", ".txt") or (path.suffix == ".py" and module in files):
                assert made.read(name) == path.read_bytes()
        assert [name for name in names if name.endswith(".md") or name.startswith("crumbcoat_calc/trials")] == []


def test_it_imports_and_reads_its_data_by_itself(tmp_path: Path) -> None:
    with zipfile.ZipFile(io.BytesIO(archive(bundled(CALC, "pint")))) as made:
        made.extractall(tmp_path)
    # -I and -S: neither this environment's packages nor this tree can help.
    start = f"import sys; sys.path.insert(0, {str(tmp_path)!r})"
    script = f"{start}\nfrom crumbcoat_calc import bridge\nbridge.warm()\nprint('warm')"
    done = subprocess.run([sys.executable, "-I", "-S", "-c", script], capture_output=True, text=True, check=False)
    assert (done.stdout, done.returncode) == ("warm\n", 0), done.stderr


def test_the_requirements_of_pint_come_along_and_those_of_its_extras_stay() -> None:
    assert set(required("pint")) == {"pint", "flexcache", "flexparser", "typing-extensions", "platformdirs"}


def test_compiled_code_is_refused() -> None:
    with pytest.raises(BundleError, match="markupsafe contains compiled code"):
        distribution_files("markupsafe")


def test_pyodide_build_compiles_the_archive_and_loses_nothing(tmp_path: Path) -> None:
    # An outside check of the archive: pyodide-build's own py-compile reads it and writes it again.
    archived = tmp_path / "packages.zip"
    archived.write_bytes(archive(bundled(CALC, "pint")))
    with zipfile.ZipFile(archived) as made:
        before = {name.removesuffix(".py") + (".pyc" if name.endswith(".py") else "") for name in made.namelist()}
    command = Path(sys.executable).with_name("pyodide")
    subprocess.run([command, "py-compile", "--silent", str(archived)], check=True, capture_output=True)
    with zipfile.ZipFile(archived) as made:
        assert set(made.namelist()) == before
