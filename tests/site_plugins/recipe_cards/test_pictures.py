"""Pictures on their way into a site: in sizes on cards, upright and without metadata everywhere, the same each time."""

import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from crumbcoat_site.recipe_cards.pictures.formats import is_picture
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from .conftest import Element, read_html
from .pictures.camera import metadata, photograph, read, scene

pytestmark = pytest.mark.no_cover  # Whole sites are built here; what is measured is tested part by part.

RECIPE = {
    "title": 'Cream "of" <stars>',
    "summary": "A cream.",
    "author": "Lantern Street",
    "family": "whipped cream",
    "yield": {"portions": "12", "of": "cupcakes"},
    "ingredients": {"cream": {"kind": "cream_heavy_whipping", "amount": "500 g"}},
    "stages": [
        {
            "title": "Whip",
            "steps": [
                {"do": "Whip the *cream*.", "add": "cream", "photo": "A soft peak"},
                {"do": "Rest it.", "look_for": "It is *still*.", "photo": [
                    {"file": "IMG_7.JPG", "alt": "Two bowls", "caption": "At rest", "credit": "Ana"}, "A spoon",
                ]},
            ],
        }
    ],
}  # fmt: skip


LIST = "# Home\n\n<!-- crumbcoat: recipe list -->\n"


def make_site(folder: Path, pictures: dict[str, bytes], page: str = LIST) -> Path:
    """A folder with a site of one recipe; pictures by their names in docs_dir, beside the one that the recipe names."""
    docs = folder / "docs"
    (docs / "creams").mkdir(parents=True)
    (docs / "creams" / "cream.yaml").write_text(json.dumps(RECIPE), encoding="utf-8")
    (docs / "index.md").write_text(page, encoding="utf-8")
    for name, content in {"creams/IMG_7.JPG": photograph(), **pictures}.items():
        (docs / name).parent.mkdir(parents=True, exist_ok=True)
        (docs / name).write_bytes(content)
    config = {
        "site_name": "Small",
        "site_url": "https://creams.example/kitchen/",
        "theme": {"name": "material", "font": False},
        "plugins": [{"recipe_cards": {"handouts": False}}],
    }
    (folder / "mkdocs.yml").write_text(json.dumps(config))
    return folder


def built(folder: Path, command: str = "build", **options: object) -> Path:
    config = load_config(str(folder / "mkdocs.yml"), site_dir=str(folder / "site"), **options)
    config.plugins.on_startup(command=command, dirty=False)
    build(config)
    return folder / "site"


def page_of(site: Path, name: str) -> Element:
    return read_html((site / name / "index.html").read_text(encoding="utf-8"))


ALL = {
    "creams/cream.jpeg": photograph(6, picture=scene(600, 400)),
    "creams/cream.1-1.PNG": photograph(kind="PNG", picture=scene(300, 300)),
    "creams/cream.1-1b.webp": photograph(kind="WEBP"),
    "creams/cream.1-2.tif": photograph(3, "TIFF", scene(250, 200)),
    "creams/IMG_7.JPG": photograph(8, picture=scene(500, 400)),
    "assets/stove.jpg": photograph(5),
    "creams/the shop.avif": photograph(2, "AVIF"),
    "creams/shown.jpg": photograph(4),
}
HOME = "# Home\n\n<!-- crumbcoat: recipe list -->\n\n![Shop](creams/the%20shop.avif) ![](creams/shown.jpg)\n"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built(make_site(tmp_path_factory.mktemp("pictures"), ALL, HOME), strict=True)


def pictures_in(site: Path) -> list[Path]:
    found = [path for path in site.rglob("*") if is_picture(path.name)]
    return [path for path in found if path.relative_to(site).as_posix() != "assets/images/favicon.png"]


def test_no_picture_of_the_site_says_anything_of_its_camera(site: Path) -> None:
    found = pictures_in(site)
    assert len(found) > 40
    assert {path.name: metadata(path.read_bytes()) for path in found if metadata(path.read_bytes())} == {}


def test_pictures_of_recipes_are_published_in_sizes_and_others_under_their_names(site: Path) -> None:
    own = {path.relative_to(site).as_posix() for path in pictures_in(site)}
    own = {path for path in own if not path.startswith("assets/pictures/")}
    assert own == {"assets/stove.jpg", "creams/the shop.avif", "creams/shown.jpg"}
    for name in own:
        picture = read((site / name).read_bytes())
        assert picture.size == (90, 60)


def shown(site: Path, page: str) -> list[Element]:
    return page_of(site, page).all("article")[0].all("picture")


def test_each_picture_has_all_its_sources_its_size_and_its_colour(site: Path) -> None:
    pictures = shown(site, "creams/cream")
    names = [picture.all("img")[0]["src"].rpartition("/")[2] for picture in pictures]
    assert names == [
        "cream-600.jpg", "cream-1-1-300.jpg", "cream-1-1b-90.jpg", "cream-1-2-500.jpg", "cream-1-2b-250.jpg",
    ]  # fmt: skip
    for picture in pictures:
        (image,) = picture.all("img")
        assert [source["type"] for source in picture.all("source")] == ["image/avif", "image/webp"]
        assert image["style"].startswith("background:#")
        assert int(image["width"]) > 0 < int(image["height"])
        for element in (*picture.all("source"), image):
            assert element["sizes"]
            for entry in element["srcset"].split(", "):
                address, width = entry.split(" ")
                file = read((site / "creams" / "cream" / address).resolve().read_bytes())
                assert f"{file.width}w" == width
                assert abs(file.height * int(image["width"]) - file.width * int(image["height"])) <= int(image["width"])
    assert [picture.all("img")[0].attributes.get("loading") for picture in pictures] == [None, *["lazy"] * 4]


def test_the_words_around_a_picture_are_its_author_s(site: Path) -> None:
    pictures = shown(site, "creams/cream")
    assert [picture.all("img")[0]["alt"] for picture in pictures] == [
        'Cream "of" <stars>', "A soft peak", "Whip the cream.", "Two bowls", "A spoon",
    ]  # fmt: skip
    figures = page_of(site, "creams/cream").all("figure", class_="cc-photo")
    assert [figure.text for figure in figures] == ["", "", "At rest Ana", ""]


def test_a_list_of_recipes_has_a_thumbnail(tmp_path: Path) -> None:
    site = built(make_site(tmp_path, {"creams/cream.jpg": photograph(picture=scene(1700, 900))}))
    (picture,) = shown(site, ".")
    (image,) = picture.all("img")
    widths = [entry.split(" ")[1] for entry in image["srcset"].split(", ")]
    assert widths == ["240w", "480w", "720w"]
    assert (site / image["src"]).is_file()
    assert len((site / image["src"]).read_bytes()) < 40_000


def test_other_programs_get_absolute_addresses_in_three_shapes(site: Path) -> None:
    (script,) = page_of(site, "creams/cream").all("script", type="application/ld+json")
    data = json.loads("".join(str(child) for child in script.children))
    steps = data["recipeInstructions"][0]["itemListElement"]
    images = [*data["image"], *steps[0]["image"], *steps[1]["image"]]
    assert [image.rpartition("/")[2] for image in images] == [
        "cream-1x1.jpg", "cream-4x3.jpg", "cream-16x9.jpg",
        "cream-1-1-300.jpg", "cream-1-1b-90.jpg", "cream-1-2-500.jpg", "cream-1-2b-250.jpg",
    ]  # fmt: skip
    start = "https://creams.example/kitchen/"
    assert [image for image in images if not (site / image.removeprefix(start)).is_file()] == []
    shapes = [read((site / image.removeprefix(start)).read_bytes()).size for image in data["image"]]
    assert shapes == [(400, 400), (533, 400), (600, 338)]


def test_a_recipe_has_a_picture_for_those_who_share_it(site: Path) -> None:
    page = page_of(site, "creams/cream")
    metas = [tag.attributes for tag in page.all("meta") if "content" in tag.attributes]
    tags = {meta.get("property") or meta.get("name"): meta["content"] for meta in metas}
    assert tags["og:title"] == tags["twitter:title"] == 'Cream "of" <stars>'
    assert tags["og:url"] == "https://creams.example/kitchen/creams/cream/"
    assert tags["og:image"] == tags["twitter:image"]
    assert tags["twitter:card"] == "summary_large_image"
    picture = read((site / tags["og:image"].removeprefix("https://creams.example/kitchen/")).read_bytes())
    assert picture.format == "JPEG"
    assert picture.size == (int(tags["og:image:width"]), int(tags["og:image:height"])) == (1200, 630)


def test_without_an_address_of_the_site_there_are_no_tags_that_need_one(tmp_path: Path) -> None:
    site = built(make_site(tmp_path, {}), site_url="")
    assert [tag for tag in page_of(site, "creams/cream").all("meta") if tag.attributes.get("property")] == []


def test_two_builds_from_nothing_give_the_same_bytes(tmp_path: Path, site: Path) -> None:
    again = built(make_site(tmp_path, ALL, HOME))
    before = {path.relative_to(site): path.read_bytes() for path in pictures_in(site)}
    assert {path.relative_to(again): path.read_bytes() for path in pictures_in(again)} == before


def test_a_picture_that_was_made_is_not_made_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = make_site(tmp_path, ALL, HOME)
    first = {path: path.read_bytes() for path in pictures_in(built(folder))}
    monkeypatch.setattr("crumbcoat_site.recipe_cards.pictures.prepare._make", None)
    assert {path: path.read_bytes() for path in pictures_in(built(folder))} == first


def test_what_no_build_has_used_for_a_month_is_taken_out_of_the_cache(tmp_path: Path) -> None:
    folder = make_site(tmp_path, {"creams/cream.jpg": photograph()})
    built(folder)
    kept = folder / ".cache" / "recipe_cards" / "pictures"
    before = {path.name for path in kept.iterdir()}
    (folder / "docs" / "creams" / "cream.jpg").write_bytes(photograph(picture=scene(120, 80)))
    built(folder)
    both = {path.name for path in kept.iterdir()}
    assert before < both
    used = both - before
    for path in kept.iterdir():
        os.utime(path / "facts.json", (0, 0))
    built(folder)
    left = {path.name for path in kept.iterdir()}
    assert used < left < both
    assert (folder / "site" / "creams" / "cream" / "index.html").is_file()


@pytest.mark.parametrize("cut", ["facts.json", "90.avif"])
def test_a_damaged_file_of_the_cache_is_made_again(tmp_path: Path, cut: str) -> None:
    folder = make_site(tmp_path, {"creams/cream.jpg": photograph()})
    first = {path: path.read_bytes() for path in pictures_in(built(folder))}
    for path in (folder / ".cache").rglob(cut):
        content = path.read_bytes()
        path.write_bytes(content[:20] if cut == "facts.json" else content[:-1] + b"?")
    assert {path: path.read_bytes() for path in pictures_in(built(folder))} == first


WRONG: list[tuple[str, dict[str, bytes], str]] = [
    ("a text", {"creams/cream.jpg": b"no picture"}, "cream.jpg:1: the picture cannot be used: it is not a picture."),
    ("half of one", {"creams/IMG_7.JPG": photograph()[:900]}, "IMG_7.JPG:1: the picture cannot be used: it is damaged"),
]


@pytest.mark.parametrize(("pictures", "words"), [(case[1], case[2]) for case in WRONG], ids=[case[0] for case in WRONG])
def test_a_picture_that_is_none_stops_a_build_and_leaves_a_served_card_with_its_drawing(
    tmp_path: Path, caplog: pytest.LogCaptureFixture, pictures: dict[str, bytes], words: str
) -> None:
    folder = make_site(tmp_path, pictures)
    with pytest.raises(Abort):
        built(folder)
    assert words in caplog.text
    assert caplog.text.count(words) == 1
    assert "    Fix: " in caplog.text
    site = built(folder, "serve")
    assert page_of(site, "creams/cream").all("svg", class_="cc-drawing")
    assert [path.name for path in pictures_in(site) if path.name in pictures] == []


def test_a_named_file_that_is_not_there_stops_a_build(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    folder = make_site(tmp_path, {})
    (folder / "docs" / "creams" / "IMG_7.JPG").rename(folder / "docs" / "creams" / "IMG_8.JPG")
    with pytest.raises(Abort):
        built(folder)
    assert "cream.yaml:1: there is no picture 'IMG_7.JPG' beside the recipe." in caplog.text
    assert "Fix: did you mean 'IMG_8.JPG'?" in caplog.text


def test_a_picture_that_nothing_shows_is_a_warning(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    others = {"creams/cream.2-1.jpg": photograph(), "creams/craem.jpg": photograph(), "creams/note.gif": b"none"}
    site = built(make_site(tmp_path, others))
    assert "cream.2-1.jpg:1: cream has no step 2-1." in caplog.text
    assert "craem.jpg:1: no recipe and no page shows this picture.\n    Fix: did you mean 'cream.jpg'?" in caplog.text
    assert "note.gif:1: the picture cannot be used: it is not a picture." in caplog.text
    left = {path.name for path in pictures_in(site)}
    assert {"cream.2-1.jpg", "craem.jpg"} <= left
    assert "note.gif" not in left


def test_the_pictures_of_a_draft_are_not_in_the_site(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    for said in ({"draft": "yes"}, {"published": "2999-01-01"}):
        folder = tmp_path / next(iter(said))
        make_site(folder, {"creams/cream.jpg": photograph()}, "# Home\n")
        (folder / "docs" / "creams" / "cream.yaml").write_text(json.dumps({**RECIPE, **said}), encoding="utf-8")
        assert pictures_in(built(folder, strict=True)) == []
        assert len(pictures_in(built(folder, "serve"))) > 6


def test_a_site_without_pictures_has_none_but_the_social_one(built: Callable[[Path], Path], tmp_path: Path) -> None:
    (tmp_path / "creams").mkdir()
    recipe = {**RECIPE, "stages": [{"title": "Whip", "steps": [{"do": "Whip.", "add": "cream"}]}]}
    (tmp_path / "creams" / "cream.yaml").write_text(json.dumps(recipe), encoding="utf-8")
    (tmp_path / "index.md").write_text("# Home\n", encoding="utf-8")
    assert [path.name for path in pictures_in(built(tmp_path))] == ["cream-social.jpg"]
