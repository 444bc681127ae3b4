"""The page `embed/` below a card: the HTML Living Standard and RFC 6596 (canonical) are the outside standards."""

import re
from pathlib import Path
from urllib.parse import urljoin

import pytest
from crumbcoat_site.recipe_cards.build.assets import CARDS, EMBED, assets
from crumbcoat_site.recipe_cards.contrast.variables import Palette
from crumbcoat_site.recipe_cards.embed.colours import embed_colours, light_and_dark
from mkdocs.commands.build import build
from mkdocs.config import load_config

from ..conftest import ROOT, Element, read_html
from ..html_rules import problems_in

NAMES = [
    path.relative_to(ROOT / "recipes").with_suffix("").as_posix()
    for path in sorted((ROOT / "recipes").glob("*/*.yaml"))
]
ADDRESS = "https://kitchen.example/"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("embed")
    cards = {"recipe_cards": {"cache": str(folder / "cache"), "embed": True, "region": "US"}}
    plugins = ["search", "journal_skin", cards]
    config = load_config(str(ROOT / "mkdocs.yml"), site_dir=str(folder / "site"), site_url=ADDRESS, plugins=plugins)
    build(config)
    return folder / "site"


def page(site: Path, name: str) -> Element:
    return read_html((site / name / "embed" / "index.html").read_text(encoding="utf-8"))


@pytest.mark.no_cover  # A built page is read here.
@pytest.mark.parametrize("name", NAMES)
def test_the_page_is_the_card_alone(site: Path, name: str) -> None:
    text = (site / name / "embed" / "index.html").read_text(encoding="utf-8")
    shown = read_html(text)
    assert problems_in(text[text.index("<article") : text.index("</body>")]) == []
    assert [link["href"] for link in shown.all("link", rel="canonical")] == [f"{ADDRESS}{name}/"]
    assert [meta["content"] for meta in shown.all("meta", name="robots")] == ["noindex"]
    assert not [element.name for element in shown.all() if element.name in ("header", "nav", "footer", "style")]
    assert not shown.all("recipe-calculator", name="cake")
    assert [script["src"].rpartition("/")[2] for script in shown.all("script")] == ["embedded_card.js"]
    assert not [element for element in shown.all() if any(key.startswith("on") for key in element.attributes)]


@pytest.mark.no_cover
@pytest.mark.parametrize("name", NAMES)
def test_every_address_in_it_leads_to_a_file_of_the_site(site: Path, name: str) -> None:
    shown = page(site, name)
    found = [element[key] for element in shown.all() for key in ("href", "src") if key in element.attributes]
    found += shown.all("body")[0]["data-scripts"].split()
    ids = {element["id"] for element in shown.all() if "id" in element.attributes}
    base = f"{ADDRESS}{name}/embed/"
    for address in found:
        url = urljoin(base, address)
        if address.startswith("#"):
            assert address[1:] in ids
        elif url.startswith(ADDRESS):
            place = site / url.removeprefix(ADDRESS).partition("#")[0]
            assert (place / "index.html" if url.partition("#")[0].endswith("/") else place).is_file(), address


@pytest.mark.no_cover
@pytest.mark.parametrize("name", NAMES)
def test_every_class_that_a_card_styles_is_styled_there(site: Path, name: str) -> None:
    """Style sheets of some components are left out of what an embedded card is sent."""
    sent = assets()
    classes = {word for element in page(site, name).all() for word in element.attributes.get("class", "").split()}
    cards, embed = (set(re.findall(rb"\.(cc-[\w-]+)", sent.content[sent.place(name)])) for name in (CARDS, EMBED))
    assert {word for word in classes if word.encode() in cards - embed} == set()


@pytest.mark.no_cover
@pytest.mark.parametrize("name", NAMES)
def test_it_has_the_tips_notes_and_questions_of_the_card(site: Path, name: str) -> None:
    card = read_html((site / name / "index.html").read_text(encoding="utf-8"))
    for part in ("cc-tips", "cc-notes", "cc-asked", "cc-keeping", "cc-equipment"):
        ours, theirs = ([found.text for found in one.all(class_=part)] for one in (card, page(site, name)))
        assert theirs == ours, part


@pytest.mark.no_cover
@pytest.mark.parametrize("name", NAMES)
def test_the_line_to_copy_names_the_page_and_the_script(site: Path, name: str) -> None:
    card = read_html((site / name / "index.html").read_text(encoding="utf-8"))
    line, _ = card.all("code", class_="cc-line")
    copied = read_html(line.text)
    (frame,) = copied.all("iframe")
    assert frame["src"] == f"{ADDRESS}{name}/embed/"
    assert frame["title"] == card.all("h1")[0].text.rstrip("¶")
    (script,) = copied.all("script")
    assert script["src"] == f"{ADDRESS}assets/embed.js"
    assert (site / "assets" / "embed.js").is_file()


@pytest.mark.no_cover
@pytest.mark.parametrize("name", NAMES)
def test_the_line_for_the_element_has_the_recipe_in_plain_html(site: Path, name: str) -> None:
    card = read_html((site / name / "index.html").read_text(encoding="utf-8"))
    _, line = card.all("code", class_="cc-line")
    copied = read_html(line.text)
    (element,) = copied.all("crumbcoat-card")
    assert element["src"] == f"{ADDRESS}{name}/embed/"
    (link,) = element.all("a")
    assert (link["href"], link.text) == (f"{ADDRESS}{name}/", card.all("h1")[0].text.rstrip("¶"))
    embedded = page(site, name)
    steps = [step.text for step in embedded.all("p", class_="cc-do")]
    in_short = [item.text for item in element.all("ol")[0].all("li")]
    assert len(in_short) == len(steps)
    assert all(short in step for short, step in zip(in_short, steps, strict=True))
    names = [shown.text for shown in embedded.all() if shown.attributes.get("data-text", "").startswith("name.")]
    at_hand = " ".join(item.text for item in element.all("ul")[0].all("li"))
    assert [shown for shown in names if shown not in at_hand] == []
    assert [script["src"] for script in copied.all("script")] == [f"{ADDRESS}assets/embed.js"]


def test_without_the_option_only_recipes_that_the_demo_itself_shows_whole_have_such_a_page(demo: Path) -> None:
    post = read_html((demo / "last-evening" / "index.html").read_text(encoding="utf-8"))
    shown = {urljoin("/last-evening/", card["src"]) for card in post.all("whole-card")}
    assert {f"/{path.parent.relative_to(demo).as_posix()}/" for path in demo.glob("**/embed/index.html")} == shown
    assert not (demo / "assets" / "embed.js").exists()
    assert "cc-put-in" not in (demo / NAMES[0] / "index.html").read_text(encoding="utf-8")


THEME = """
:root { --md-hue: 232; --md-unused: 1px }
[data-md-color-scheme="default"] { color-scheme: light; --md-default-bg-color: white; --md-typeset-a-color: red }
[data-md-color-scheme="slate"] { color-scheme: dark; --md-default-bg-color: hsl(var(--md-hue), 15%, 14%) }
[data-md-color-scheme="slate"] { --md-typeset-a-color: pink }
"""
DAY, NIGHT = Palette(scheme="default"), Palette(scheme="slate")


def test_the_colours_are_those_of_the_palettes_light_and_dark() -> None:
    sheets = ["a { color: var(--md-typeset-a-color) }", "b { color: var(--md-default-bg-color) }"]
    css = embed_colours([NIGHT, DAY], [THEME], sheets)
    light = "--md-default-bg-color:white;--md-typeset-a-color:red;color-scheme:light"
    dark = "--md-default-bg-color:hsl(var(--md-hue), 15%, 14%);--md-hue:232;--md-typeset-a-color:pink;color-scheme:dark"
    assert css == (
        "@media screen{"
        f'body[data-md-color-scheme="default"]{{{light}}}'
        f'body[data-md-color-scheme="slate"]{{{dark}}}'
        f"@media (prefers-color-scheme:dark){{body[data-md-color-scheme][data-unscripted]{{{dark}}}}}"
        "}"
        f"@media print{{body[data-md-color-scheme]{{{light}}}}}"
    )


@pytest.mark.parametrize(
    ("palettes", "chosen"),
    [
        pytest.param([DAY, NIGHT], (DAY, NIGHT), id="light and dark"),
        pytest.param([NIGHT, DAY], (DAY, NIGHT), id="dark and light"),
        pytest.param([DAY], (DAY, None), id="light alone"),
        pytest.param([NIGHT], (NIGHT, None), id="dark alone"),
    ],
)
def test_a_site_with_one_palette_has_it_for_all_pages(
    palettes: list[Palette], chosen: tuple[Palette, Palette | None]
) -> None:
    assert light_and_dark(palettes, [THEME]) == chosen
