"""A whole card by directive in any page, without the option `embed`: CSP Level 3 is the outside standard."""

import json
import re
import shutil
from pathlib import Path
from urllib.parse import urljoin

import pytest
from crumbcoat_site.publishing.built_site import policy_of_folder
from crumbcoat_site.publishing.table import headers_of
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from .conftest import read_html

pytestmark = pytest.mark.no_cover  # Whole sites are built here; what is measured is tested part by part.

ROOT = Path(__file__).parents[3]
GOOD = (ROOT / "recipes" / "milk-emulsions" / "everyday-milk-frosting.yaml").read_text(encoding="utf-8")
ADDRESS = "https://kitchen.example/creams/"
POST = "# Two in one post\n\n<!-- crumbcoat: whole card milk/one -->\n\nShort:\n\n<!-- crumbcoat: card milk/two -->\n"
STORY = "Cold.\n\n<!-- crumbcoat: card -->\n\nWarm.\n\n<!-- crumbcoat: whole card milk/three -->\n"


def write_site(folder: Path, *, embed: bool = False) -> None:
    docs = folder / "docs"
    (docs / "milk").mkdir(parents=True, exist_ok=True)
    for name in ("one", "two", "three"):
        recipe = GOOD.replace("Everyday milk frosting", f"Frosting {name}").replace("low-fat/", f"{name}-fat/")
        (docs / "milk" / f"{name}.yaml").write_text(recipe, encoding="utf-8")
    (docs / "milk" / "two.story.md").write_text(STORY)
    (docs / "index.md").write_text("# Home\n")
    (docs / "post.md").write_text(POST)
    config = {
        "site_name": "Small",
        "site_url": ADDRESS,
        "theme": {"name": "material", "font": False},
        "plugins": ["search", {"recipe_cards": {"handouts": False, "embed": embed}}],
    }
    (folder / "mkdocs.yml").write_text(json.dumps(config))


@pytest.fixture(scope="module")
def computed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site with a whole card in a post and one in a story, built once."""
    folder = tmp_path_factory.mktemp("whole")
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


def frames(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.glob("milk/*/embed/index.html"))


@pytest.mark.parametrize(
    ("place", "name"), [("post/", "milk/one"), ("milk/two/", "milk/three")], ids=["in a post", "in a story"]
)
def test_the_page_has_the_card_in_short_and_the_address_of_its_frame(computed: Path, place: str, name: str) -> None:
    page = read_html((computed / "site" / place / "index.html").read_text(encoding="utf-8"))
    (whole,) = page.all("whole-card")
    frame = urljoin(f"{ADDRESS}{place}", whole["src"])
    assert frame == f"{ADDRESS}{name}/embed/", "not so on a sub-path"
    (short,) = whole.all("section", class_="cc-short")
    assert whole["data-title"] == short["aria-label"]
    assert {urljoin(f"{ADDRESS}{place}", link["href"]) for link in short.all("a")} == {f"{ADDRESS}{name}/"}
    assert "data-search-exclude" in short.attributes
    assert not page.all("iframe")
    assert "/pages.css" in str([link.attributes for link in page.all("link")])


def test_only_recipes_that_are_named_so_have_a_page_for_frames(computed: Path) -> None:
    site = computed / "site"
    assert frames(site) == ["milk/one/embed/index.html", "milk/three/embed/index.html"]
    for place in frames(site):
        page = read_html((site / place).read_text(encoding="utf-8"))
        assert [meta["content"] for meta in page.all("meta", name="robots")] == ["noindex"]
        for sheet in page.all("link", rel="stylesheet"):
            assert (site / urljoin(f"/{place}", sheet["href"])[1:]).is_file()
    assert not (site / "assets" / "embed.js").exists()
    assert not [path for path in site.rglob("*.html") if "cc-put-in" in path.read_text(encoding="utf-8")]
    assert "embed" not in (site / "sitemap.xml").read_text(encoding="utf-8")


def test_its_policy_allows_frames_of_the_site_in_the_site(computed: Path, site: Path) -> None:
    policy = policy_of_folder(computed / "site")
    assert headers_of("post/index.html", policy)["Content-Security-Policy"].endswith(
        "frame-ancestors 'none'; frame-src 'self'"
    )
    assert "frame-ancestors 'self'" in headers_of("milk/one/embed/index.html", policy)["Content-Security-Policy"]
    write_site(site, embed=True)
    built = build_site(site)
    assert len(frames(built)) == 3
    embed = headers_of("milk/one/embed/index.html", policy_of_folder(built))["Content-Security-Policy"]
    assert "frame-ancestors *" in embed
    assert "cc-put-in" in (built / "milk" / "two" / "index.html").read_text(encoding="utf-8")
    (site / "docs" / "post.md").unlink()
    (site / "docs" / "milk" / "two.story.md").unlink()
    assert "frame-src" not in policy_of_folder(build_site(site)).text()


def test_a_draft_is_refused_and_its_author_sees_it(site: Path, caplog: pytest.LogCaptureFixture) -> None:
    recipe = site / "docs" / "milk" / "one.yaml"
    recipe.write_text(f"draft: yes\n{recipe.read_text(encoding='utf-8')}", encoding="utf-8")
    with pytest.raises(Abort):
        build_site(site)
    assert re.search(r"post\.md:3: the recipe 'milk/one' is a draft, so it is not in this site\.", caplog.text)
    assert "milk/one/embed/index.html" in frames(build_site(site, "serve"))


@pytest.mark.parametrize(
    ("page", "words", "problem", "remedy"),
    [
        ("post.md", "whole card milk/oen", "there is no recipe 'milk/oen'", "did you mean 'milk/one'"),
        ("post.md", "whole card", "'whole card' names no recipe", "write `whole card` and the path of one recipe"),
        ("post.md", "whole card milk/one milk/two", "names several recipes", "write `whole card` and the path of one"),
        ("post.md", "whole card milk/one", "the whole card 'milk/one' is on this page already", "delete this line, or "
         "write `card milk/one`, which shows it in short"),
        ("milk/two.story.md", "whole card milk/two", "is the recipe of this page, whose card is here already",
         "delete this line; `<!-- crumbcoat: card -->` is the place of the card in its story"),
        ("milk/two.story.md", "whole card milk/three", "the whole card 'milk/three' is on this page already", "delete"),
    ],
    ids=["unknown", "none", "several", "twice", "its own page", "twice in a story"],
)  # fmt: skip
def test_what_cannot_be_has_its_place_and_a_fix(
    site: Path, page: str, words: str, problem: str, remedy: str, caplog: pytest.LogCaptureFixture
) -> None:
    file = site / "docs" / page
    file.write_text(f"{file.read_text(encoding='utf-8')}\n<!-- crumbcoat: {words} -->\n", encoding="utf-8")
    line = file.read_text(encoding="utf-8").count("\n")
    with pytest.raises(Abort):
        build_site(site)
    error = rf"docs/{re.escape(page)}:{line}: .*{re.escape(problem)}\.\n    Fix: {re.escape(remedy)}"
    assert re.search(error, caplog.text)


def test_before_and_after_the_card_a_story_is_one_page(site: Path, caplog: pytest.LogCaptureFixture) -> None:
    story = site / "docs" / "milk" / "two.story.md"
    story.write_text(f"<!-- crumbcoat: whole card milk/three -->\n\n{STORY}")
    with pytest.raises(Abort):
        build_site(site)
    assert "two.story.md:9: the whole card 'milk/three' is on this page already." in caplog.text
