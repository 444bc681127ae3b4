"""The page for an address that is not there leads back to the recipes, from any depth and on a sub-path."""

import json
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from .conftest import Element, read_html

pytestmark = pytest.mark.no_cover  # A whole site is built here.

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site on a sub-path, with two recipes that have something in common."""
    folder = tmp_path_factory.mktemp("not_found")
    docs = folder / "docs" / "creams"
    docs.mkdir(parents=True)
    for name, published in (("custard-buttercream", "2024-01-01"), ("egg-yolk-buttercream", "2025-01-01")):
        text = (ROOT / "recipes" / "buttercreams" / f"{name}.yaml").read_text(encoding="utf-8")
        lines = [line for line in text.splitlines() if not line.startswith(("published", "moved_from"))]
        (docs / f"{name}.yaml").write_text("\n".join([*lines, f"published: {published}", ""]), encoding="utf-8")
    (docs.parent / "index.md").write_text("# Home\n")
    config = {
        "site_name": "Small",
        "site_url": "https://lantern.example/kitchen/",
        "strict": True,
        "theme": {"name": "material", "font": False},
        "plugins": ["search", {"recipe_cards": {"handouts": False}}],
    }
    (folder / "mkdocs.yml").write_text(json.dumps(config))
    loaded = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"))
    loaded.plugins.on_startup(command="build", dirty=False)
    build(loaded)
    return folder / "site"


@pytest.fixture(scope="module")
def article(site: Path) -> Element:
    return read_html((site / "404.html").read_text(encoding="utf-8")).all("article")[0]


def test_every_address_begins_at_the_root_of_the_host_and_is_there(site: Path, article: Element) -> None:
    links = [link["href"] for link in article.all("a") if "headerlink" not in link.attributes.get("class", "")]
    assert len(links) > 4
    assert [link for link in links if not link.startswith("/kitchen/")] == []
    places = [site / link.removeprefix("/kitchen/") / "index.html" for link in links]
    assert [place for place in places if not place.is_file()] == []


def test_the_newest_recipe_comes_first(article: Element) -> None:
    shown = [link.text for link in article.all("ul")[0].all("a")]
    assert shown == ["Egg-yolk syrup buttercream", "Custard buttercream"]


def test_the_search_is_a_form_that_leads_to_the_front_page(article: Element) -> None:
    """Material's search opens with the words in `q` of an address."""
    (form,) = article.all("form")
    assert form["action"] == "/kitchen/"
    assert [field["name"] for field in form.all("input")] == ["q"]


def test_its_style_sheet_is_there(site: Path) -> None:
    page = read_html((site / "404.html").read_text(encoding="utf-8"))
    sheets = [link["href"] for link in page.all("link") if link["href"].endswith("/pages.css")]
    assert [(site / sheet.removeprefix("/kitchen/")).is_file() for sheet in sheets] == [True]


def test_it_is_not_to_be_found_itself(site: Path) -> None:
    assert '<meta name="robots" content="noindex">' in (site / "404.html").read_text(encoding="utf-8")


def test_a_card_leads_to_its_groups_and_the_groups_to_it(site: Path) -> None:
    """The folder has no page of its own, so it gets one, outside the navigation."""
    card = read_html((site / "creams" / "custard-buttercream" / "index.html").read_text(encoding="utf-8"))
    more = card.all("nav", class_="cc-more")[0]
    assert ("creams", "../") in [(link.text, link["href"]) for link in more.all("a")]
    folder = read_html((site / "creams" / "index.html").read_text(encoding="utf-8"))
    links = [link["href"] for link in folder.all(class_="cc-list")[0].all("a")]
    assert links == ["custard-buttercream/", "egg-yolk-buttercream/"]
    assert (site / "groups" / "index.html").is_file()
