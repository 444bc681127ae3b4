"""The whole way of a blogger's pictures: camera files, shot list, check, build, and a live card in another blog.

Exif 2.32 (orientation, place), WHATWG HTML (`picture`, `srcset`) and CSP Level 3 are the outside standards.
"""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from crumbcoat_site.calculators.artefacts import Artefacts
from crumbcoat_site.recipe_cards.pictures.formats import is_picture
from playwright.sync_api import Browser, Frame, Locator, expect

from tests.browser.test_embed import FACTOR, frame_line, frames_of, shows
from tests.chromium import visit
from tests.conftest import ROOT
from tests.foreign_page import foreign, page_with, policy
from tests.hosts import serving
from tests.site_plugins.command.conftest import new_site, run
from tests.site_plugins.recipe_cards.conftest import Element, read_html
from tests.site_plugins.recipe_cards.pictures.camera import CORNERS, SECRETS, metadata, photograph, read, scene

CARD = "recipes/loft-cream/"
RECIPE = """\
title: Loft cream
summary: Whipped cream, held by a little cornflour custard.
author: Blue Door bakes
family: whipped cream
yield: {portions: 12, of: cupcakes}
cover: {shows: a swirl on a cupcake, credit: Lantern Street}
ingredients:
  milk: {kind: milk_whole, amount: 100 g, role: water for the starch}
  cornflour: {kind: cornstarch, amount: 8 g, role: thickens the milk}
  cream: {kind: cream_heavy_whipping, amount: 400 g, role: its fat globules hold the air}
  icing_sugar: {kind: sugar_powdered, amount: 40 g, role: sweetness}
measured: {density: 0.6 g/mL}
stages:
  - title: Custard
    makes: custard
    steps:
      - do: Whisk milk and cornflour in the pan.
        add: [milk, cornflour]
        photo: no lumps on the whisk
      - do: Bring it to the boil, stirring, and let it cool.
        heat_to: 96 °C
        cool_to: 20 °C
        photo: [{file: IMG_2014.HEIC, alt: A path in the custard, caption: It stays open}, the custard under film]
  - title: Whip
    steps:
      - do: Whip the cream with the sugar.
        add: [cream, icing_sugar]
        checkpoint:
          passes: [Soft peaks.]
          troubles: [{sign: It looks grainy., remedy: Fold in a little cold cream by hand.}]
      - do: Fold in the custard.
        add: custard
        look_for: No streaks.
"""
"""As it is written before the day of the photographs; the name of a file has two digits the wrong way round."""

SIZES = {
    "loft-cream": (900, 1300), "loft-cream-1-1": (500, 400), "loft-cream-1-2": (90, 60),
    "loft-cream-1-2b": (1700, 1100), "loft-cream-2-1": (640, 480),
    "loft-cream-2-1b": (300, 360), "loft-cream-2-2": (250, 200),
}  # fmt: skip
"""Of each picture as its author saw it, in pixels, by its name in the site, in the order of the card."""


def camera_files() -> dict[str, bytes]:
    """What telephones, cameras and a drawing program write, by its name beside the recipe; one name is misspelt."""
    clear = scene(640, 480)
    clear.putalpha(200)
    return {
        "loft-cream.JPG": photograph(6, picture=scene(900, 1300)),
        "loft-cream.1-1.Jpeg": photograph(8, picture=scene(500, 400)),
        "IMG_2041.HEIC": (ROOT / "tests" / "reference" / "telephone.heic").read_bytes(),
        "loft-cream.1-2b.jpg": photograph(3, picture=scene(1700, 1100)),
        "loft-cream.2-1.PNG": photograph(kind="PNG", picture=clear),
        "loft-cream.2-1b.WEBP": photograph(5, "WEBP", scene(300, 360)),
        "loft-craem.2-2.TIF": photograph(7, "TIFF", scene(250, 200)),
    }


@pytest.fixture
def made(runtime: Artefacts, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[tuple[Path, str]]:
    """The folder of a new site with the recipe and without pictures, and the address that it is published at."""
    folder = new_site(tmp_path, monkeypatch, "UK")
    with serving(folder / "site") as address:
        config = folder / "mkdocs.yml"
        text = config.read_text(encoding="utf-8")
        for old, new in (
            ("# site_url: https://example.org/", f"site_url: {address}"),
            ("      region: UK\n", "      region: UK\n      embed: true\n"),
            ("  - calculators\n", f"  - calculators: {{cache: {runtime.folder.parent}}}\n"),
        ):
            assert old in text
            text = text.replace(old, new)
        config.write_text(text, encoding="utf-8")
        (folder / "docs" / "recipes" / "loft-cream.yaml").write_text(RECIPE, encoding="utf-8")
        yield folder, address


def said(*arguments: str, code: int = 0) -> str:
    """What a command says; its exit code must be the one expected."""
    done = run(*arguments)
    assert done.exit_code == code, done.output
    return done.output


def to_take(output: str) -> list[str]:
    """The pictures of a shot list by the names of their files."""
    return re.findall(r"save as (\S+)", output)


def put_pictures_beside_the_recipe(recipes: Path) -> None:
    """The day of the photographs: what is still to take, what is misspelt, until nothing is left to say."""
    recipe, files = recipes / "loft-cream.yaml", camera_files()
    wanted = said("shot-list")
    assert to_take(wanted) == [
        "loft-cream.jpg", "loft-cream.1-1.jpg", "IMG_2014.HEIC", "loft-cream.1-2b.jpg",
        "loft-cream.2-1.jpg", "loft-cream.2-2.jpg",
    ]  # fmt: skip
    assert "[ ] cover: a swirl on a cupcake" in wanted
    assert "4 pictures to take, none there; 2 more steps have something to see." in wanted

    for name in ("IMG_2041.HEIC", "loft-cream.1-1.Jpeg", "loft-craem.2-2.TIF"):
        (recipes / name).write_bytes(files.pop(name))
    wrong = said("check", code=1)
    assert re.search(r"loft-cream\.yaml:23: there is no picture 'IMG_2014\.HEIC' beside the recipe\.", wrong), wrong
    assert "    Fix: did you mean 'IMG_2041.HEIC'?" in wrong
    assert "2 places: no recipe and no page shows this picture." in wrong
    assert "- docs/recipes/loft-craem.2-2.TIF:1\n      Fix: did you mean 'loft-cream.2-2.TIF'?" in wrong
    recipe.write_text(RECIPE.replace("IMG_2014", "IMG_2041"), encoding="utf-8")
    (recipes / "loft-craem.2-2.TIF").rename(recipes / "loft-cream.2-2.TIF")
    assert to_take(said("shot-list", "--wanted")) == ["loft-cream.jpg", "loft-cream.1-2b.jpg"]

    for name, content in files.items():
        (recipes / name).write_bytes(content)
    assert "no problems" in said("check", "--strict")
    assert said("shot-list") == "no pictures to take, 7 there; no more steps have something to see.\n"


def offered(picture: Element) -> dict[str, set[int]]:
    """The widths that a `picture` offers, by media type."""
    (image,) = picture.all("img")
    sets = {source["type"]: source["srcset"] for source in picture.all("source")} | {"image/jpeg": image["srcset"]}
    return {kind: {int(width) for width in re.findall(r" (\d+)w", entries)} for kind, entries in sets.items()}


def file_of(image: Locator) -> tuple[str, int]:
    """The file that the browser took for an `img`: the name of its picture, and its width."""
    address = str(image.evaluate("image => image.currentSrc"))
    name, _, width = address.rpartition("/")[2].removesuffix(".avif").rpartition("-")
    return name, int(width)


PIXELS = """image => {
  const { naturalWidth: width, naturalHeight: height } = image;
  const canvas = new OffscreenCanvas(width, height).getContext("2d");
  canvas.drawImage(image, 0, 0, width, height);
  const at = (x, y) => [...canvas.getImageData(Math.floor(x * width / 8), Math.floor(y * height / 8), 1, 1).data];
  return [at(1, 1), at(7, 1), at(1, 7), at(7, 7)].map((pixel) => pixel.slice(0, 3));
}"""
"""The colours near the corners of a picture as the browser decoded it: the order of `CORNERS`."""


def is_upright(image: Locator) -> bool:
    """Whether a picture shows the scene as its author saw it, to 24 of 255: the HEIC was made by a lossy encoder."""
    found = image.evaluate(PIXELS)
    return all(
        abs(a - b) <= 24
        for pixel, wanted in zip(found, CORNERS, strict=True)
        for a, b in zip(pixel, wanted, strict=True)
    )


def shown_pictures(place: Frame | Locator) -> dict[str, tuple[int, float]]:
    """The pictures of a card once each is there and upright: by name the width of the file and the shape as shown.

    `naturalWidth` is in CSS pixels of the place that `sizes` gives it (HTML, 4.8.4), so only its shape counts here.
    """
    found = {}
    for image in place.locator("picture img").all():
        image.scroll_into_view_if_needed()
        expect(image).to_be_visible()
        expect(image).to_have_js_property("complete", True)
        width, height = image.evaluate("image => [image.naturalWidth, image.naturalHeight]")
        name, file_width = file_of(image)
        assert width > 0, name
        assert is_upright(image), name
        found[name] = file_width, width / height
    return found


def test_a_folder_of_camera_files_becomes_a_live_card_with_pictures_in_another_blog(
    browser: Browser, made: tuple[Path, str]
) -> None:
    folder, address = made
    put_pictures_beside_the_recipe(folder / "docs" / "recipes")
    said("build", "--strict")
    site = folder / "site"

    # No file of the site says who took a picture, where, or what was noted in it.
    files = {path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()}
    words = [secret for secret in SECRETS if secret != b"GPS"]  # Pyodide's files have those three letters.
    assert [name for name, content in files.items() if any(word in content for word in words)] == []
    pictures = {name: content for name, content in files.items() if is_picture(name)}
    pictures.pop("assets/images/favicon.png")  # The theme's own.
    assert [name for name, content in pictures.items() if metadata(content)] == []
    assert {Path(name).suffix for name in files if "loft" in name and is_picture(name)} == {".avif", ".webp", ".jpg"}
    assert [name for name in files if "IMG_" in name] == []

    # Each picture of the card in three formats, never larger than the file that the camera wrote.
    page = read_html(files[f"{CARD}embed/index.html"].decode())
    cards = page.all("picture")
    names = [one.all("img")[0]["src"].rpartition("/")[2].rpartition("-")[0] for one in cards]
    assert names == list(SIZES)
    for picture, (width, height) in zip(cards, SIZES.values(), strict=True):
        widths = offered(picture)
        assert set(widths) == {"image/avif", "image/webp", "image/jpeg"}
        assert all(max(some) == min(width, 1600) for some in widths.values())
        largest = read((site / CARD / "embed" / picture.all("img")[0]["src"]).resolve().read_bytes())
        assert abs(largest.height * width - largest.width * height) <= max(width, height)
    assert [words.text for words in page.all("small", class_="cc-credit")] == ["Lantern Street"]
    assert [words.text for words in page.all("figcaption")] == ["It stays open"]

    with visit(browser, viewport={"width": 390, "height": 800}) as blog:
        # The list of recipes at home has a small one.
        blog.goto(address)
        thumbnails = shown_pictures(blog.locator("article"))
        assert set(thumbnails) == {"loft-cream"}
        assert all(width <= 480 for width, _ in thumbnails.values())

        # The line "In a frame" in a blog of another origin, whose policy is strict and whose styles are hostile.
        line = frame_line((site, address), CARD)
        refused: list[str] = []
        blog.on("console", lambda message: refused.append(message.text) if message.type == "error" else None)
        with foreign({"/": page_with(line)}, policy(address)) as other:
            blog.goto(other)
            (frame,) = frames_of(blog)
            found = shown_pictures(frame)
            assert list(found) == list(SIZES)
            for (width, shape), (whole_width, whole_height) in zip(found.values(), SIZES.values(), strict=True):
                assert width <= whole_width
                assert shape == pytest.approx(whole_width / whole_height, rel=0.02)
            expect(frame.locator("[data-text='amount.cream']").first).to_have_text("400 g")
            frame.locator(FACTOR).fill("2")
            shows(frame, "2")
            expect(frame.locator("[name='amount.cream']")).to_have_value("800 g")
        assert refused == []
