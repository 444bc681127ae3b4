"""While a site is served: problems are where the page would be, and only what has changed is rendered again."""

import json
import os
import re
import time
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from PIL import Image

from .conftest import read_html
from .test_plugin import GOOD

pytestmark = pytest.mark.no_cover  # Whole sites are built here; what is measured is tested part by part.

Rebuild = Callable[[], dict[str, int]]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "docs").mkdir()
    for name in ("first", "second"):
        (tmp_path / "docs" / f"{name}.yaml").write_text(GOOD.replace("Everyday milk", name.capitalize()), "utf-8")
    (tmp_path / "docs" / "index.md").write_text("# Home\n\n<!-- crumbcoat: recipe list -->\n")
    (tmp_path / "docs" / "plain.md").write_text("# Plain words\n")
    config = {
        "site_name": "Small",
        "strict": True,
        "theme": {"name": "material", "font": False},
        "plugins": ["recipe_cards"],
    }
    (tmp_path / "mkdocs.yml").write_text(json.dumps(config))
    return tmp_path


@pytest.fixture
def rebuild(folder: Path) -> Rebuild:
    """Builds as `mkdocs serve --dirty` does at each change; gives what was written, by page."""
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"))
    config.plugins.on_startup(command="serve", dirty=True)
    written: dict[str, int] = {}

    def again() -> dict[str, int]:
        # The plug-ins stay, as in `mkdocs serve`, which keeps those that have `on_startup`.
        build(config := load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site")), dirty=True)
        pages = {path.parent.name: path.stat().st_mtime_ns for path in (folder / "site").rglob("index.html")}
        changed = {name: age for name, age in pages.items() if written.get(name) != age}
        written.update(pages)
        assert config["site_name"] == "Small"
        return changed

    return again


def page(folder: Path, name: str) -> str:
    return (folder / "site" / name / "index.html").read_text(encoding="utf-8")


def save(folder: Path, name: str, text: str) -> None:
    path = folder / "docs" / name
    path.write_text(text, encoding="utf-8")
    os.utime(path, (time.time() + 5, time.time() + 5))


def test_a_saved_recipe_is_rendered_again_with_the_pages_that_list_it_and_no_other(
    folder: Path, rebuild: Rebuild
) -> None:
    assert set(rebuild()) >= {"first", "second", "plain", "site"}
    save(folder, "first.yaml", GOOD.replace("Everyday milk", "First").replace("summary: >-", "summary: >-\n  Quince."))
    groups = {"groups", "25-fat", "no-eggs", "layer-cakes", "emulsified-milk-frosting"}
    assert set(rebuild()) - {"handout"} == {"first", "site", *groups}
    assert "Quince." in page(folder, "first")
    assert "Quince." in page(folder, ".")
    titles = [link.text for link in read_html(page(folder, "first")).all(class_="md-nav__link")]
    assert {"Home", "First frosting", "Second frosting", "Plain words"} <= set(titles)


def test_what_no_list_shows_reaches_no_page_of_a_group(folder: Path, rebuild: Rebuild) -> None:
    rebuild()
    first = (folder / "docs" / "first.yaml").read_text(encoding="utf-8")
    save(folder, "first.yaml", first.replace("author: ", "author: Quince "))
    assert set(rebuild()) - {"handout"} == {"first", "site", "groups"}
    assert "Quince" in page(folder, "first")


def test_another_amount_reaches_the_cards_that_say_otherwise_how_near_it_is(folder: Path, rebuild: Rebuild) -> None:
    rebuild()
    first = (folder / "docs" / "first.yaml").read_text(encoding="utf-8")
    save(folder, "first.yaml", first.replace("amount: 22 g", "amount: 23 g"))
    written = set(rebuild())
    assert "first" in written
    assert written & {"second", "plain"} == set()
    assert "less rich" not in page(folder, "second")
    lean = first.replace("amount: 240 g", "amount: 200 g").replace("creaming: 180 g", "creaming: 140 g")
    save(folder, "first.yaml", lean)
    written = set(rebuild())
    assert "second" in written
    assert "plain" not in written
    assert "less rich" in page(folder, "second")


def test_a_picture_of_a_page_is_copied_when_it_changes_and_when_it_is_as_before(folder: Path, rebuild: Rebuild) -> None:
    save(folder, "plain.md", "# Plain words\n\n![A pan](pan.png)\n")
    picture = folder / "docs" / "pan.png"
    Image.new("RGB", (8, 8), "red").save(picture)
    rebuild()
    published = folder / "site" / "pan.png"
    red, age = published.read_bytes(), published.stat().st_mtime_ns
    rebuild()
    assert published.stat().st_mtime_ns == age
    Image.new("RGB", (8, 8), "blue").save(picture)
    rebuild()
    assert published.read_bytes() != red
    Image.new("RGB", (8, 8), "red").save(picture)
    rebuild()
    assert published.read_bytes() == red


def test_a_build_that_finds_nothing_new_renders_no_list_again(folder: Path, rebuild: Rebuild) -> None:
    rebuild()
    assert set(rebuild()) == set()


def test_what_was_saved_before_comes_back_whole(folder: Path, rebuild: Rebuild) -> None:
    # It is in the cache, and older than the page.
    before = (folder / "docs" / "first.yaml").read_text(encoding="utf-8")
    rebuild()
    save(folder, "first.yaml", before.replace("summary: >-", "summary: >-\n  Quince."))
    rebuild()
    save(folder, "first.yaml", before)
    rebuild()
    for place in ("first", "first/handout", "."):
        assert "Quince." not in page(folder, place)


def test_a_new_title_reaches_the_navigation_of_every_page(folder: Path, rebuild: Rebuild) -> None:
    rebuild()
    save(folder, "first.yaml", GOOD.replace("Everyday milk frosting", "Quince foam"))
    rebuild()
    assert "Quince foam" in page(folder, "plain")


def test_a_changed_page_or_setting_renders_everything_again(folder: Path, rebuild: Rebuild) -> None:
    rebuild()
    save(folder, "plain.md", "# Other words\n")
    assert {"first", "second", "plain", "site"} <= set(rebuild())
    assert "Other words" in page(folder, "first")
    config = json.loads((folder / "mkdocs.yml").read_text())
    (folder / "mkdocs.yml").write_text(json.dumps({**config, "site_description": "Changed"}))
    assert {"first", "second", "plain", "site"} <= set(rebuild())


def test_a_broken_file_shows_its_problems_in_its_place_and_the_others_stay(folder: Path, rebuild: Rebuild) -> None:
    broken = re.sub("amount: 22 g", "amount: 22 gx", GOOD).replace("kind: salt_table", "kind: salt_tabel")
    (folder / "docs" / "first.yaml").write_text(broken, encoding="utf-8")
    (folder / "docs" / "index.md").write_text(
        "# Home\n\n<!-- crumbcoat: recipe list -->\n\n<!-- crumbcoat: map from second -->\n"
    )
    rebuild()
    problems = [item.text for item in read_html(page(folder, "first")).all("li") if "first.yaml:" in item.text]
    assert len(problems) == 2
    assert all("Fix:" in problem for problem in problems)
    for place in ("second", "plain", "."):
        assert "first.yaml:" in page(folder, place)
    assert "Second frosting" in page(folder, "second")
    save(folder, "first.yaml", GOOD)
    rebuild()
    for place in ("first", "second", "plain", "."):
        assert "cc-problems" not in page(folder, place)


def test_a_directive_that_cannot_be_used_shows_its_problem_in_its_page(folder: Path, rebuild: Rebuild) -> None:
    (folder / "docs" / "plain.md").write_text("# Plain words\n\n<!-- crumbcoat: map from third -->\n")
    rebuild()
    assert "there is no recipe &#39;third&#39;" in page(folder, "plain")
    assert "cc-problems" not in page(folder, "first")


def test_the_page_of_a_file_that_is_gone_goes_as_well(folder: Path, rebuild: Rebuild) -> None:
    rebuild()
    (folder / "docs" / "first.yaml").rename(folder / "docs" / "third.yaml")
    rebuild()
    assert not (folder / "site" / "first" / "index.html").exists()
    assert "First frosting" in page(folder, "third")


def test_a_broken_configuration_is_said_in_every_page_until_it_is_put_right(folder: Path, rebuild: Rebuild) -> None:
    rebuild()
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"))
    good = (folder / "mkdocs.yml").read_text()

    def build_again() -> None:
        load_config(str(folder / "mkdocs.yml"))
        rebuild()

    server = SimpleNamespace(root=str(folder / "site"), builder=build_again)
    config.plugins["recipe_cards"].on_serve(server, config=config, builder=build_again)
    (folder / "mkdocs.yml").write_text("plugins: [none_such]\nsite_name: Small\n")
    server.builder()
    for place in ("first", "plain", "."):
        assert "none_such" in page(folder, place)
    (folder / "mkdocs.yml").write_text(good)
    server.builder()
    for place in ("first", "plain", "."):
        assert "none_such" not in page(folder, place)


def test_warnings_about_words_come_once_and_again_with_a_change_of_their_recipe(
    folder: Path, rebuild: Rebuild, caplog: pytest.LogCaptureFixture
) -> None:
    config = json.loads((folder / "mkdocs.yml").read_text())
    (folder / "mkdocs.yml").write_text(json.dumps({**config, "strict": False}))
    for name in ("first", "second"):
        save(folder, f"{name}.yaml", GOOD.replace("title: ", "title: Low-fat ", 1))

    def warned() -> list[str]:
        caplog.clear()
        rebuild()
        return [name for name in ("first", "second") if f"{name}.yaml:2: “Low-fat” is a claim" in caplog.text]

    assert warned() == ["first", "second"]
    assert warned() == []
    save(folder, "second.yaml", GOOD.replace("title: ", "title: Low-fat cool ", 1))
    assert warned() == ["second"]
    assert warned() == []
