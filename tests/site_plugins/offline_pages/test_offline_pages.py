"""What the build writes so that visited pages work offline."""

import json
from pathlib import Path

import pytest
from crumbcoat_site.offline_pages.precache import LARGEST_BYTES, precache_of
from mkdocs.commands.build import build
from mkdocs.config import load_config


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A built site made by hand: one file leads to the next, one is kept on first use, and one is not needed."""
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


def test_what_the_front_page_leads_to_is_kept_ahead(folder: Path) -> None:
    precache = precache_of(folder, ["later/*"], ["index.html"])
    assert precache.ahead == ("a/first.js", "a/second.js", "a/style.css", "a/third.js", "index.html")
    assert precache.on_first_use == ("later/second.js",)


def test_so_are_the_style_sheets_and_scripts_of_every_other_page(folder: Path) -> None:
    """Without them, the worker would take such a page for one of another build whenever it is fetched in place."""
    (folder / "page" / "index.html").write_text('<link href="../a/handout.css"><script src="../a/handout.js"></script>')
    (folder / "a" / "handout.css").write_text("p {}")
    (folder / "a" / "handout.js").write_text('import "./of_handout.js"')
    (folder / "a" / "of_handout.js").write_text("1")
    added = set(precache_of(folder, ["later/*"], ["index.html"]).ahead)
    assert {"a/handout.css", "a/handout.js", "a/of_handout.js"} < added
    assert "nobody.js" not in added


@pytest.mark.parametrize("name", ["a/third.js", "later/second.js", "index.html"])
def test_the_version_is_a_digest_of_what_is_kept(folder: Path, name: str) -> None:
    before = precache_of(folder, ["later/*"], ["index.html"])
    assert precache_of(folder, ["later/*"], ["index.html"]) == before
    with (folder / name).open("a") as file:
        file.write(" ")
    assert precache_of(folder, ["later/*"], ["index.html"]).version != before.version


def test_a_page_that_is_not_kept_ahead_does_not_change_the_version(folder: Path) -> None:
    before = precache_of(folder, ["later/*"], ["index.html"])
    (folder / "page" / "index.html").write_text("rewritten")
    assert precache_of(folder, ["later/*"], ["index.html"]) == before


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


def test_every_page_links_to_the_manifest_and_registers_the_worker(tmp_path: Path) -> None:
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


@pytest.mark.no_cover  # Whole sites are built here; what is measured is tested part by part.
def test_two_builds_write_the_same_worker(tmp_path: Path) -> None:
    assert (built(tmp_path, "build") / "sw.js").read_bytes() == (built(tmp_path, "build") / "sw.js").read_bytes()


@pytest.mark.no_cover  # Whole sites are built here; what is measured is tested part by part.
def test_serve_keeps_nothing_and_removes_an_earlier_worker(tmp_path: Path) -> None:
    site = built(tmp_path, "serve")
    assert "unregister" in (site / "sw.js").read_text(encoding="utf-8")
    page = (site / "index.html").read_text(encoding="utf-8")
    assert "manifest" not in page
    assert "offline_pages" not in page
