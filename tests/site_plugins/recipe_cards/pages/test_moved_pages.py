"""Cards that have moved: pages at their earlier addresses, card.json there too, and the list for hosts."""

import json
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from tests.site_plugins.recipe_cards.conftest import read_html

RECIPE = """\
title: {title}
summary: A plain cream.
author: Lantern Street teaching kitchen
family: whipped cream
{more}yield: 12 cupcakes
ingredients:
  cream: {{kind: cream_double, amount: 500 g}}
stages:
  - title: Whip
    steps:
      - {{do: Whip it., add: cream}}
"""


def site_of(folder: Path, recipes: dict[str, str], *, embed: bool = False, **settings: object) -> Path:
    """Build a site of recipes, each with lines of its own."""
    docs = folder / "docs"
    docs.mkdir()
    (docs / "index.md").write_text("# Home\n", encoding="utf-8")
    for name, more in recipes.items():
        title = Path(name).stem.capitalize()
        path = docs / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(RECIPE.format(title=title, more=more), encoding="utf-8")
    (folder / "mkdocs.yml").write_text("site_name: Attic\ntheme: {name: material, font: false}\n", encoding="utf-8")
    cards = {"recipe_cards": {"cache": str(folder / "cache"), "embed": embed}}
    build(load_config(str(folder / "mkdocs.yml"), plugins=[cards], **settings))
    return folder / "site"


def test_an_old_address_leads_to_the_card(tmp_path: Path) -> None:
    more = "moved_from: [2019/05/veil cream, old/veil.html]\n"
    site = site_of(tmp_path, {"creams/veil.yaml": more}, site_url="https://attic.example/kitchen/")
    page = read_html((site / "2019/05/veil cream/index.html").read_text(encoding="utf-8"))
    canonical = [link["href"] for link in page.all("link", rel="canonical")]
    assert canonical == ["https://attic.example/kitchen/creams/veil/"]
    assert page.all("meta", name="robots") == []
    assert [link["href"] for link in page.all("a")] == ["../../../creams/veil/"]
    assert [meta["content"] for meta in page.all("meta", http_equiv="refresh")] == ["0; url=../../../creams/veil/"]
    scripts = [script["src"] for script in page.all("script")]
    assert all((site / "2019/05/veil cream" / source).resolve().is_file() for source in scripts)
    handout = read_html((site / "2019/05/veil cream/handout/index.html").read_text(encoding="utf-8"))
    assert [link["href"] for link in handout.all("a")] == ["../../../../creams/veil/handout/"]
    assert [meta["content"] for meta in handout.all("meta", name="robots")] == ["noindex"]
    assert handout.all("link", rel="canonical") == []
    file = read_html((site / "old/veil.html").read_text(encoding="utf-8"))
    assert [link["href"] for link in file.all("a")] == ["../creams/veil/"]


def test_a_card_that_is_shown_in_other_sites_stays_there(tmp_path: Path) -> None:
    site = site_of(tmp_path, {"creams/veil.yaml": "moved_from: veil\n"}, embed=True)
    page = read_html((site / "veil/embed/index.html").read_text(encoding="utf-8"))
    assert [link["href"] for link in page.all("a")] == ["../../creams/veil/embed/"]
    assert [meta["content"] for meta in page.all("meta", name="robots")] == ["noindex"]
    assert (site / "creams/veil/embed/index.html").is_file()


def test_card_json_is_at_the_old_address_too(tmp_path: Path) -> None:
    site = site_of(tmp_path, {"veil.yaml": "moved_from: low-fat/veil/\n"})
    old, new = [(site / folder / "card.json").read_bytes() for folder in ("low-fat/veil", "veil")]
    assert old == new
    assert json.loads(old)["title"] == "Veil"


def test_the_list_for_hosts_has_every_old_address(tmp_path: Path) -> None:
    more = "moved_from: [2019/05/veil cream, old/veil.html]\n"
    site = site_of(tmp_path, {"creams/veil.yaml": more}, site_url="https://attic.example/kitchen/")
    lines = [line.split() for line in (site / "_redirects").read_text(encoding="utf-8").splitlines()]
    assert lines == [
        ["/kitchen/2019/05/veil%20cream/", "/kitchen/creams/veil/", "301"],
        ["/kitchen/2019/05/veil%20cream/card.json", "/kitchen/creams/veil/card.json", "301"],
        ["/kitchen/2019/05/veil%20cream/handout/", "/kitchen/creams/veil/handout/", "301"],
        ["/kitchen/old/veil.html", "/kitchen/creams/veil/", "301"],
    ]


def test_a_site_without_old_addresses_has_no_list(tmp_path: Path) -> None:
    site = site_of(tmp_path, {"veil.yaml": "", "draft.yaml": "draft: yes\nmoved_from: old/\n"})
    assert not (site / "_redirects").exists()
    assert not (site / "old").exists()


@pytest.mark.parametrize(
    ("recipes", "problem"),
    [
        pytest.param(
            {"veil.yaml": "", "silk.yaml": "moved_from: veil/\n"},
            "silk.yaml:5: 'veil/' in `moved_from` is where Veil is now.",
            id="another card",
        ),
        pytest.param(
            {"silk.yaml": "moved_from: [old/, veil/]\n", "veil.yaml": "moved_from: old\n"},
            "'old/' in `moved_from` is where the old address of Silk is now.",
            id="an old address of another card",
        ),
        pytest.param(
            {"veil.yaml": "moved_from: index.html/veil/\n"},
            "'index.html/veil/' in `moved_from` is where a page or file of the site is now.",
            id="below a file",
        ),
        pytest.param(
            {"creams/veil.yaml": "", "silk.yaml": "moved_from: creams/veil/handout/\n"},
            "'creams/veil/handout/' in `moved_from` is where Veil is now.",
            id="the handout of another card",
        ),
        pytest.param(
            {"creams/veil.yaml": "", "creams/silk.yaml": "moved_from: groups/family/whipped-cream/\n"},
            "'groups/family/whipped-cream/' in `moved_from` is where a page or file of the site is now.",
            id="a group of recipes",
        ),
        pytest.param(
            {"veil.yaml": "moved_from: robots.txt/\n"},
            "'robots.txt/' in `moved_from` is where a page or file of the site is now.",
            id="a file that a build writes",
        ),
    ],
)
def test_an_address_that_is_taken_is_a_problem(
    tmp_path: Path, recipes: dict[str, str], problem: str, caplog: pytest.LogCaptureFixture
) -> None:
    with pytest.raises(Abort):
        site_of(tmp_path, recipes)
    assert problem in caplog.text
    assert "Fix: take the address out of the list." in caplog.text


def test_a_list_of_the_site_itself_stays(tmp_path: Path) -> None:
    site = site_of(tmp_path, {"veil.yaml": "moved_from: old/\n", "_redirects": ""})
    assert (site / "_redirects").read_text(encoding="utf-8").startswith("title: ")
    assert (site / "old/index.html").is_file()
