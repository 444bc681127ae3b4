"""What the build writes for a site that is of use without a network."""

import json
from pathlib import Path

import pytest
from crumbcoat_site.offline_pages.shell import LARGEST_BYTES, shell_of
from mkdocs.commands.build import build
from mkdocs.config import load_config


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A built site by hand: one file that leads to another, one for later, one for nobody."""
    site = tmp_path / "site"
    for name, text in {
        "index.html": '<link href="a/style.css"><script src="a/first.js">',
        "a/style.css": "body {}",
        "a/first.js": 'import "./second.js"',
        "a/second.js": 'import("./third.js"); new URL("big.js")',
        "a/third.js": "1",
        "a/third.js.map": "1",
        "a/big.js": " " * (LARGEST_BYTES + 1),
        "later/second.js": "1",
        "page/index.html": "first.js",
        "nobody.js": "1",
    }.items():
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(text)
    return site


def test_the_shell_is_what_the_front_page_leads_to(folder: Path) -> None:
    shell = shell_of(folder, ["later/*"], ["index.html"])
    assert shell.ahead == ("a/first.js", "a/second.js", "a/style.css", "a/third.js", "index.html")
    assert shell.later == ("later/second.js",)


@pytest.mark.parametrize("name", ["a/third.js", "later/second.js", "index.html"])
def test_the_version_is_a_digest_of_what_is_kept(folder: Path, name: str) -> None:
    before = shell_of(folder, ["later/*"], ["index.html"])
    assert shell_of(folder, ["later/*"], ["index.html"]) == before
    with (folder / name).open("a") as file:
        file.write(" ")
    assert shell_of(folder, ["later/*"], ["index.html"]).version != before.version


def test_a_page_of_its_own_changes_no_version(folder: Path) -> None:
    before = shell_of(folder, ["later/*"], ["index.html"])
    (folder / "page" / "index.html").write_text("rewritten")
    assert shell_of(folder, ["later/*"], ["index.html"]) == before


def built(tmp_path: Path, command: str) -> Path:
    (tmp_path / "docs" / "one").mkdir(parents=True, exist_ok=True)
    (tmp_path / "docs" / "index.md").write_text("# Home\n")
    (tmp_path / "docs" / "one" / "two.md").write_text("# Two\n")
    config = {"site_name": "A <small> site", "theme": {"name": "material", "font": False}, "plugins": ["offline_pages"]}
    (tmp_path / "mkdocs.yml").write_text(json.dumps(config))
    loaded = load_config(str(tmp_path / "mkdocs.yml"), site_dir=str(tmp_path / command))
    loaded.plugins.on_startup(command=command, dirty=False)  # type: ignore[arg-type]
    build(loaded)
    return tmp_path / command


def test_a_build_names_the_manifest_and_the_worker_on_every_page(tmp_path: Path) -> None:
    site = built(tmp_path, "build")
    page = (site / "one" / "two" / "index.html").read_text(encoding="utf-8")
    assert '<link rel="manifest" href="../../site.webmanifest">' in page
    assert "../../assets/offline_pages/" in page
    manifest = json.loads((site / "site.webmanifest").read_text(encoding="utf-8"))
    assert manifest["name"] == "A <small> site"
    assert all((site / icon["src"]).is_file() for icon in manifest["icons"])
    listed = json.loads((site / "sw.js").read_text(encoding="utf-8").split("\n")[0].removeprefix("const SITE = ")[:-1])
    assert all((site / name).is_file() for name in listed["shell"])
    assert "search/search_index.json" not in listed["shell"]  # No search in this site.
    assert "A &lt;small&gt; site" in (site / "offline.html").read_text(encoding="utf-8")


def test_two_builds_write_the_same_worker(tmp_path: Path) -> None:
    assert (built(tmp_path, "build") / "sw.js").read_bytes() == (built(tmp_path, "build") / "sw.js").read_bytes()


def test_while_writing_nothing_is_kept_and_an_earlier_worker_is_taken_down(tmp_path: Path) -> None:
    site = built(tmp_path, "serve")
    assert "unregister" in (site / "sw.js").read_text(encoding="utf-8")
    page = (site / "index.html").read_text(encoding="utf-8")
    assert "manifest" not in page
    assert "offline_pages" not in page
