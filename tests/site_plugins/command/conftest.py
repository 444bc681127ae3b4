"""The command `crumbcoat` as tests call it, and a new site for it."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from crumbcoat_site.command.main import crumbcoat


def run(*arguments: str, answers: str = "") -> Result:
    return CliRunner().invoke(crumbcoat, arguments, input=answers, catch_exceptions=False)


def new_site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, region: str) -> Path:
    """A new site of a region, which is the current folder from then on."""
    monkeypatch.chdir(tmp_path)
    assert run("new-site", "site", "--region", region, "--yes").exit_code == 0
    monkeypatch.chdir(tmp_path / "site")
    return tmp_path / "site"
