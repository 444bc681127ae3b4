"""`crumbcoat build`: where a site goes, and where it never does."""

from pathlib import Path

import pytest
from crumbcoat_site.command.site import BuildError, build

from tests.site_plugins.command.conftest import run

pytestmark = pytest.mark.no_cover  # Whole sites are built here, by another process.


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "kitchen" / "docs").mkdir(parents=True)
    (tmp_path / "kitchen" / "docs" / "index.md").write_text("# Home\n")
    (tmp_path / "kitchen" / "mkdocs.yml").write_text(
        "site_name: Small\ntheme: {name: material, font: false}\nplugins: [recipe_cards]\n"
    )
    monkeypatch.chdir(tmp_path / "kitchen")
    return tmp_path / "kitchen"


@pytest.mark.parametrize("place", [".", "..", "docs", "docs/built", "../kitchen"])
def test_a_site_never_takes_the_place_of_its_sources(site: Path, place: str) -> None:
    done = run("build", "--site-dir", place)
    assert (done.exit_code, "Fix: name another folder" in done.output) == (1, True)
    assert (site / "docs" / "index.md").read_text() == "# Home\n"
    assert (site / "mkdocs.yml").is_file()


def test_a_folder_with_something_else_in_it_is_left_alone(site: Path) -> None:
    (site / "letters").mkdir()
    (site / "letters" / "dear.txt").write_text("dear")
    assert "letters: this folder holds something else than a built site." in run("build", "-d", "letters").output
    assert (site / "letters" / "dear.txt").is_file()
    assert "letters/dear.txt: this is a file." in run("build", "-d", "letters/dear.txt").output


def test_a_new_build_takes_the_place_of_the_old_one_whole(site: Path) -> None:
    (site / "public").mkdir()
    (site / "public" / ".host").write_text("kept")
    assert build(site, Path("public")) == (site / "public").resolve()
    (site / "public" / "old.html").write_text("old")
    (site / "docs" / "index.md").write_text("# New\n")
    build(site, Path("public"))
    assert "New" in (site / "public" / "index.html").read_text()
    assert not (site / "public" / "old.html").exists()
    assert (site / "public" / ".host").read_text() == "kept"
    (site / "mkdocs.yml").write_text("site_name: Small\nplugins: [none_such]\n")
    with pytest.raises(BuildError, match="The site in public is as it was"):
        build(site, Path("public"))
    assert "New" in (site / "public" / "index.html").read_text()
    assert sorted(path.name for path in site.iterdir() if path.name.startswith(".public")) == []
