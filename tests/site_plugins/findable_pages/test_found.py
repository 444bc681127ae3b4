"""What search engines get: sitemap, robots.txt, canonical addresses, breadcrumbs, and pages that are not for them."""

from collections.abc import Callable
from pathlib import Path
from urllib.robotparser import RobotFileParser
from xml.etree import ElementTree

import pytest
from mkdocs.exceptions import Abort

from tests.schema_org import breaches
from tests.site_plugins.findable_pages.conftest import SMALL, URL, cover
from tests.site_plugins.recipe_cards.conftest import read_html

pytestmark = pytest.mark.no_cover  # Whole sites are built here.

SPACES = {"s": "http://www.sitemaps.org/schemas/sitemap/0.9", "i": "http://www.google.com/schemas/sitemap-image/1.1"}


def said(site: Path, page: str) -> list[dict[str, object]]:
    """The JSON-LD of a page, read by pyld (JSON-LD 1.1 API, section 10.5: HTML content algorithms)."""
    from pyld import jsonld

    html = (site / page).read_text(encoding="utf-8")
    return list(jsonld.load_html(html, URL + page.replace(" ", "%20"), None, {"extractAllScripts": True}))


def meta_robots(site: Path, page: str) -> list[str]:
    head = read_html((site / page).read_text(encoding="utf-8"))
    return [element["content"] for element in head.all("meta", name="robots")]


def test_the_sitemap_has_the_pages_to_be_found_their_last_change_and_their_picture(kitchen: Path) -> None:
    """sitemaps.org, protocol 0.9; a date is by W3C Datetime, a form of ISO 8601."""
    tree = ElementTree.fromstring((kitchen / "sitemap.xml").read_text(encoding="utf-8"))
    found = {
        url.findtext("s:loc", namespaces=SPACES): (
            url.findtext("s:lastmod", namespaces=SPACES),
            [image.text for image in url.iterfind("i:image/i:loc", SPACES)],
        )
        for url in tree
    }
    assert found == {
        URL: (None, []),
        f"{URL}creams/": (None, []),
        f"{URL}creams/salt/": ("2026-04-05", []),
        f"{URL}creams/two%20milks/": ("2026-04-02", [cover(kitchen)]),
        f"{URL}story/": ("2026-04-07", []),
        f"{URL}groups/": (None, []),
    }


def test_pages_where_no_reader_should_begin_say_so(kitchen: Path) -> None:
    for page in ("creams/two milks/trials/index.html", "creams/two milks/handout/index.html", "private/index.html"):
        assert meta_robots(kitchen, page) == ["noindex"], page
    assert (kitchen / "creams/two milks/trials/sheets/index.html").exists()
    assert meta_robots(kitchen, "creams/two milks/trials/sheets/index.html") == ["noindex"]
    for page in ("index.html", "creams/two milks/index.html", "story/index.html"):
        assert meta_robots(kitchen, page) == [], page


def test_every_page_has_its_own_canonical_address(kitchen: Path) -> None:
    """RFC 6596."""
    for page in ("index.html", "creams/index.html", "creams/two milks/index.html", "story/index.html"):
        head = read_html((kitchen / page).read_text(encoding="utf-8"))
        place = page.removesuffix("index.html").replace(" ", "%20")
        assert [link["href"] for link in head.all("link", rel="canonical")] == [URL + place]


def test_robots_txt_names_the_sitemap(kitchen: Path) -> None:
    """RFC 9309, read by the standard library."""
    robots = RobotFileParser()
    robots.parse((kitchen / "robots.txt").read_text(encoding="utf-8").splitlines())
    assert robots.site_maps() == [f"{URL}sitemap.xml"]
    assert robots.can_fetch("*", f"{URL}creams/salt/")


def test_a_site_keeps_its_own_robots_txt_and_one_below_another_address_needs_none(site: Callable[..., Path]) -> None:
    own = site({"index.md": "# Home\n", "robots.txt": "User-agent: *\nDisallow: /\n"})
    assert (own / "robots.txt").read_text(encoding="utf-8") == "User-agent: *\nDisallow: /\n"
    (own.parent / "docs" / "robots.txt").unlink()
    assert not (site({}, site_url=f"{URL}cards/") / "robots.txt").exists()


def test_the_front_page_is_the_site_and_others_say_the_way_to_them(kitchen: Path) -> None:
    (front,) = said(kitchen, "index.html")
    assert front == {
        "@context": "https://schema.org",
        "@type": "WebSite",
        "url": URL,
        "name": "Lantern & Sons",
        "description": "Frostings for <tall> cakes",
        "inLanguage": "en",
    }
    ways = {}
    for page in ("creams/index.html", "creams/salt/index.html", "story/index.html"):
        (way,) = [found for found in said(kitchen, page) if found["@type"] == "BreadcrumbList"]
        assert list(breaches(way)) == []
        assert [crumb["position"] for crumb in way["itemListElement"]] == [*range(1, len(way["itemListElement"]) + 1)]
        ways[page] = [crumb["item"].removeprefix(URL) for crumb in way["itemListElement"]]
    assert list(breaches(front)) == []
    assert ways == {
        "creams/index.html": ["", "creams/"],
        "creams/salt/index.html": ["", "creams/", "creams/salt/"],
        "story/index.html": ["", "story/"],
    }


def test_a_recipe_on_its_page_is_whole_and_all_of_it_is_absolute(kitchen: Path) -> None:
    (recipe,) = [found for found in said(kitchen, "creams/two milks/index.html") if found["@type"] == "Recipe"]
    assert list(breaches(recipe)) == []
    assert recipe["url"] == f"{URL}creams/two%20milks/"
    assert recipe["author"] == {"@type": "Person", "name": "Mira Quill", "url": "https://lantern.example/mira/"}
    head = read_html((kitchen / "creams" / "two milks" / "index.html").read_text(encoding="utf-8"))
    anchors = {element["id"] for element in head.all() if "id" in element.attributes}
    steps = [step for section in recipe["recipeInstructions"] for step in section["itemListElement"]]
    assert {step["url"].partition("#")[2] for step in steps} <= anchors
    images = recipe["image"]
    assert images
    assert [image for image in images if not image.startswith(URL)] == []


def test_what_programs_read_of_author_dates_cuisine_and_video_is_on_the_page_too(kitchen: Path) -> None:
    shown = read_html((kitchen / "creams" / "two milks" / "index.html").read_text(encoding="utf-8"))
    (byline,) = shown.all("p", class_="cc-byline")
    assert byline.text.startswith("Mira Quill 31 March 2026 updated 2 April 2026 ")
    assert byline.text.endswith(" Video: Whipping the *cold* base")
    assert [link["href"] for link in byline.all("a")] == [
        "https://lantern.example/mira/",
        "https://lantern.example/whipping.mp4",
    ]
    assert [time["datetime"] for time in byline.all("time")] == ["2026-03-31", "2026-04-02"]
    assert shown.all("p", class_="cc-family")[0].text == "emulsified milk frosting, French"


def test_the_language_is_that_of_the_theme(site: Callable[..., Path]) -> None:
    theme = {"name": "material", "font": False, "language": "de"}
    made = site({"index.md": "# Home\n", "salt.yaml": f"{SMALL}\npublished: 2026-04-05\n"}, theme=theme)
    assert [found["inLanguage"] for page in ("index.html", "salt/index.html") for found in said(made, page)[:1]] == [
        "de",
        "de",
    ]
    assert 'xml:lang="de"' in (made / "feed.xml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("page", "problem"),
    [
        ("---\npublished: soon\n---\n# S\n", "published: 'soon' is not a date"),
        ("---\npublished: 2026-01-01\nupdated: [2]\n---\n# S\n", "updated: '[2]' is not a date"),
    ],
)
def test_a_date_that_is_none_stops_the_build_with_its_place(
    site: Callable[..., Path], caplog: pytest.LogCaptureFixture, page: str, problem: str
) -> None:
    with pytest.raises(Abort):
        site({"index.md": "# Home\n", "story.md": page})
    assert f"docs/story.md:1: {problem}.\n    Fix: write it like `2026-03-31` (ISO 8601)." in caplog.text


def test_the_build_says_once_what_a_site_without_an_address_lacks(
    site: Callable[..., Path], caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level("INFO", "mkdocs"):
        made = site({"index.md": "# Home\n", "salt.yaml": SMALL}, site_url=None)
    assert caplog.text.count("gets no feeds and no robots.txt") == 1
    assert "Fix: give the address of the finished site, such as `site_url: https://example.org/`." in caplog.text
    assert not (made / "robots.txt").exists()
    assert [found["@type"] for found in said(made, "salt/index.html")] == ["Recipe"]
