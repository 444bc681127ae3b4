"""ProperDocs, the fork of MkDocs that has a maintainer, builds the same site with the same plug-ins."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from crumbcoat_site.calculators.artefacts import Artefacts
from crumbcoat_site.command.main import crumbcoat

pytestmark = [pytest.mark.runtime, pytest.mark.no_cover]

OF_THE_BUILDER = re.compile(rb'<meta name="generator"[^>]*>|"[0-9a-f]{8,64}"')
"""What names the program, and the digests of pages that name it."""


def built_by(program: str, site: Path, folder: Path) -> dict[str, bytes]:
    """The files of the site that a program makes."""
    done = subprocess.run(
        [sys.executable, "-m", program, "build", "--strict", "--quiet", "--site-dir", folder],
        cwd=site, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    files = {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    return {name: content for name, content in files.items() if not name.endswith(".gz")}


def test_a_site_is_the_same_with_properdocs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, runtime: Artefacts
) -> None:
    monkeypatch.chdir(tmp_path)
    site = tmp_path / "kitchen"
    CliRunner().invoke(crumbcoat, ["new-site", "kitchen", "--region", "US", "--yes"], catch_exceptions=False)
    monkeypatch.chdir(site)
    CliRunner().invoke(crumbcoat, ["new-recipe", "Set cream", "--family", "whipped cream"], catch_exceptions=False)
    recipe = site / "docs" / "recipes" / "set-cream.yaml"
    recipe.write_text(recipe.read_text(encoding="utf-8").replace("draft: yes", ""), encoding="utf-8")
    shutil.copytree(runtime.folder, site / ".cache" / "crumbcoat" / runtime.folder.name)
    ours = built_by("mkdocs", site, tmp_path / "one")
    theirs = built_by("properdocs", site, tmp_path / "other")
    assert b"ProperDocs" in theirs["recipes/set-cream/index.html"]
    assert ours.keys() == theirs.keys()
    different = [name for name in ours if OF_THE_BUILDER.sub(b"", ours[name]) != OF_THE_BUILDER.sub(b"", theirs[name])]
    assert different == []
