"""The command `crumbcoat` as tests call it, and a new site for it."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from crumbcoat_site.command.main import crumbcoat

ROOT = Path(__file__).parents[3]
GOOD = (ROOT / "recipes" / "milk-emulsions" / "everyday-milk-frosting.yaml").read_text(encoding="utf-8")


def run(*arguments: str, answers: str = "") -> Result:
    return CliRunner().invoke(crumbcoat, arguments, input=answers, catch_exceptions=False)


def new_site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, region: str) -> Path:
    """A new site of a region, which is the current folder from then on."""
    monkeypatch.chdir(tmp_path)
    assert run("new-site", "site", "--region", region, "--yes").exit_code == 0
    monkeypatch.chdir(tmp_path / "site")
    return tmp_path / "site"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The smallest site with a good recipe, `docs/milk.yaml`; it is the current folder."""
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "milk.yaml").write_text(GOOD, encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text("site_name: Small\nplugins: [recipe_cards]\nx: !ENV [HOME, 1]\n")
    monkeypatch.chdir(tmp_path)
    return tmp_path
