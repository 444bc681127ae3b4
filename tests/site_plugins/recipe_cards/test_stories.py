"""The story beside a recipe file on the page of its card, and a card by directive in any page."""

import json
import shutil
from pathlib import Path

import pytest
from crumbcoat_site.recipe_cards.pages.story_pages import story_parts
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from .conftest import Element, read_html

pytestmark = pytest.mark.no_cover  # Whole sites are built here; what is measured is tested part by part.

ROOT = Path(__file__).parents[3]
GOOD = (ROOT / "recipes" / "milk-emulsions" / "everyday-milk-frosting.yaml").read_text(encoding="utf-8")
STORY = """Why milk, and [who we are](../index.md).

## Ingredients

*Warm* hands, <b>cold</b> milk.

![The pan](everyday.story/pan.png)

<!-- crumbcoat: card -->

## Afterwards

<!-- crumbcoat: card milk/other -->
"""
HOME = "# Two in one post\n\nFirst:\n\n<!-- crumbcoat: card milk/everyday -->\n\n<!-- crumbcoat: card milk/other -->\n"
OTHER = GOOD.replace("title: Everyday milk frosting", "title: Another frosting").replace("low-fat/", "lower-fat/")


def write_site(folder: Path) -> None:
    docs = folder / "docs" / "milk"
    (docs / "everyday.story").mkdir(parents=True)
    (docs / "everyday.yaml").write_text(GOOD, encoding="utf-8")
    (docs / "other.yaml").write_text(OTHER, encoding="utf-8")
    (docs / "everyday.story.md").write_text(STORY, encoding="utf-8")
    (docs / "everyday.story" / "pan.png").write_bytes((ROOT / "recipes" / "reference" / "card.png").read_bytes())
    (docs.parent / "index.md").write_text(HOME, encoding="utf-8")
    config = {
        "site_name": "Small",
        "strict": True,
        "theme": {"name": "material", "font": False},
        "plugins": ["search", {"recipe_cards": {"handouts": False}}],
    }
    (folder / "mkdocs.yml").write_text(json.dumps(config))


@pytest.fixture(scope="module")
def computed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site with a story, built once."""
    folder = tmp_path_factory.mktemp("stories")
    write_site(folder)
    build_site(folder)
    return folder


@pytest.fixture
def site(tmp_path: Path, computed: Path) -> Path:
    """The files of the same site, to be changed, and what the build kept."""
    shutil.copytree(computed / ".cache", tmp_path / ".cache")
    write_site(tmp_path)
    return tmp_path


def build_site(folder: Path, command: str = "build") -> Path:
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"))
    config.plugins.on_startup(command=command, dirty=False)
    build(config)
    return folder / "site"


@pytest.fixture(scope="module")
def page(computed: Path) -> Element:
    return read_html((computed / "site" / "milk" / "everyday" / "index.html").read_text(encoding="utf-8"))


def test_a_story_is_around_the_card_in_its_two_parts(page: Element) -> None:
    before, after = page.all(class_="cc-story")
    order = [element for element in page.walk() if element in (before, after) or "cc-making" in str(element.attributes)]
    assert [element is before or element is after for element in order] == [True, False, True]
    assert before.text.startswith("To the ingredients Why milk, and who we are.")
    assert after.text.startswith("Afterwards")


def test_the_anchors_of_a_card_stay_its_own_whatever_a_story_calls_its_headings(page: Element) -> None:
    """A heading `Ingredients` of the story comes before that of the card."""
    ids = [element["id"] for element in page.walk() if "id" in element.attributes]
    assert len(ids) == len(set(ids))
    headings = [heading for heading in page.all("h2") if heading.text.startswith("Ingredients")]
    assert [heading["id"] for heading in headings] == ["ingredients_1", "ingredients"]


def test_the_table_of_contents_has_the_headings_in_the_order_of_the_page(page: Element) -> None:
    contents = page.all("nav", class_="md-nav--secondary")[0]
    links = [link["href"] for link in contents.all("a")]
    assert links[0] == "#ingredients_1"
    assert links[1] == "#ingredients"
    assert links[-1] == "#afterwards"


def test_links_and_pictures_of_a_story_lead_from_beside_its_recipe(page: Element, computed: Path) -> None:
    before = page.all(class_="cc-story")[0]
    assert [link["href"] for link in before.all("a")][:2] == ["#ingredients", "../../"]
    assert before.all("img")[0]["src"] == "../everyday.story/pan.png"
    assert (computed / "site" / "milk" / "everyday.story" / "pan.png").is_file()


def test_a_story_has_only_the_page_of_its_recipe(computed: Path) -> None:
    assert not (computed / "site" / "milk" / "everyday.story" / "index.html").exists()


def test_several_cards_are_in_one_post(computed: Path) -> None:
    home = read_html((computed / "site" / "index.html").read_text(encoding="utf-8"))
    cards = home.all("section", class_="cc-short")
    assert [card["aria-label"] for card in cards] == ["Everyday milk frosting", "Another frosting"]
    assert {link["href"] for link in cards[0].all("a")} == {"milk/everyday/"}
    figures = json.loads((computed / "site" / "milk" / "everyday" / "card.json").read_text(encoding="utf-8"))
    amounts = [row.all("td")[0].text for row in cards[0].all("tr")]
    assert amounts == [figures["texts"][f"amount.{entry['key']}"] for entry in figures["ingredients"]]
    names = [row.all("th")[0].text for row in cards[0].all("tr")]
    assert [name for name in names if name.endswith(", optional")] == ["fine salt, optional"]
    ids = [element["id"] for element in home.walk() if "id" in element.attributes]
    assert len(ids) == len(set(ids))
    assert "/pages.css" in str([link.attributes for link in home.all("link")])


def test_a_story_that_shows_another_card_has_its_style_sheet(page: Element) -> None:
    assert "/pages.css" in str([link.attributes for link in page.all("link")])


def test_the_story_of_a_draft_is_not_published_and_its_author_sees_it(site: Path) -> None:
    recipe = site / "docs" / "milk" / "everyday.yaml"
    recipe.write_text(f"draft: yes\n{GOOD}", encoding="utf-8")
    (site / "docs" / "index.md").write_text("# Home\n")
    built = build_site(site)
    assert not (built / "milk" / "everyday.story").exists()
    assert not (built / "milk" / "everyday").exists()
    assert not [path for path in built.rglob("*.html") if "Why milk" in path.read_text(encoding="utf-8")]
    shown = build_site(site, "serve") / "milk" / "everyday" / "index.html"
    assert "Why milk" in shown.read_text(encoding="utf-8")


def test_what_is_wrong_with_stories_is_reported_with_its_place(site: Path, caplog: pytest.LogCaptureFixture) -> None:
    milk = site / "docs" / "milk"
    (milk / "everyday.story.markdown").write_text("Twice.")
    (milk / "evryday.story.md").write_text("Misspelt.")
    (milk / "other.story.md").write_text("Fine.\n\n<!-- crumbcoat: fat charts -->\n")
    with pytest.raises(Abort):
        build_site(site)
    problems = caplog.text
    assert "everyday.story.md:1: 'milk/everyday' has two stories: 'everyday.story.markdown' is another." in problems
    assert "Fix: put them into one file, and delete the other." in problems
    assert "evryday.story.md:1: there is no recipe 'milk/evryday' for this story." in problems
    assert "Fix: name it `everyday.story.md`, beside the recipe 'milk/everyday'." in problems


def test_a_directive_of_a_story_that_cannot_be_used_is_reported_in_the_storys_file(
    site: Path, caplog: pytest.LogCaptureFixture
) -> None:
    story = site / "docs" / "milk" / "everyday.story.md"
    story.write_text("Before.\n\n<!-- crumbcoat: card -->\n\nAfter.\n\n<!-- crumbcoat: card milk/othr -->\n")
    with pytest.raises(Abort):
        build_site(site)
    assert "milk/everyday.story.md:7: there is no recipe 'milk/othr'." in caplog.text.replace("\\", "/")
    assert "Fix: did you mean 'milk/other'?" in caplog.text


@pytest.mark.parametrize(
    ("content", "line", "problem", "remedy"),
    [
        pytest.param("---\ntitle: A\n---\n", 1, "a story has no front matter", "delete the lines", id="front matter"),
        pytest.param("A\n\n# B\n", 3, "the one main heading", "begin the headings of a story with `##`", id="title"),
        pytest.param(
            "<!-- crumbcoat: card -->\n\n<!-- crumbcoat: card -->\n", 3, "a second place", "keep one", id="two places"
        ),
        pytest.param(
            "<!-- crumbcoat: compare from milk/a -->", 1, "'compare' cannot be on the page of a card",
            "give it a page of its own", id="a calculator",
        ),
    ],
)  # fmt: skip
def test_what_a_story_cannot_have(content: str, line: int, problem: str, remedy: str) -> None:
    with pytest.raises(SourceError) as caught:
        story_parts(content, "veil.story.md")
    assert caught.value.line == line
    assert problem in caught.value.problem
    assert remedy in caught.value.remedy


def test_a_heading_in_a_block_of_code_is_not_a_main_heading() -> None:
    assert story_parts("```\n# a comment\n```\n", "veil.story.md")[0] == ""
