"""The feeds of a site: Atom read by feedparser, JSON Feed checked by a JSON Schema of its specification."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from crumbcoat_site.findable_pages.entries import MOST, Entry, newest
from crumbcoat_site.findable_pages.feeds import Site, json_feed
from jsonschema import Draft202012Validator, FormatChecker

from tests.site_plugins.findable_pages.conftest import SMALL, URL, cover, png

pytestmark = pytest.mark.no_cover  # Whole sites are built here.

TEXT = {"type": "string", "minLength": 1}
LINK = {"type": "string", "pattern": "^https?://[^/]"}
TIME = {"type": "string", "pattern": r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$"}
AUTHORS = {
    "type": "array",
    "minItems": 1,
    "items": {"type": "object", "properties": {"name": TEXT, "url": LINK, "avatar": LINK}, "minProperties": 1},
}
JSON_FEED = {
    "type": "object",
    "required": ["version", "title", "items"],
    "properties": {
        "version": {"const": "https://jsonfeed.org/version/1.1"},
        "title": TEXT,
        "home_page_url": LINK,
        "feed_url": LINK,
        "description": TEXT,
        "user_comment": TEXT,
        "next_url": LINK,
        "icon": LINK,
        "favicon": LINK,
        "authors": AUTHORS,
        "language": {"type": "string", "pattern": "^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$"},
        "expired": {"type": "boolean"},
        "hubs": {"type": "array"},
        "items": {
            "type": "array",
            "items": {
                "type": "object",
                "required": ["id"],
                "anyOf": [{"required": ["content_html"]}, {"required": ["content_text"]}],
                "properties": {
                    "id": TEXT,
                    "url": LINK,
                    "external_url": LINK,
                    "title": TEXT,
                    "content_html": TEXT,
                    "content_text": TEXT,
                    "summary": TEXT,
                    "image": LINK,
                    "banner_image": LINK,
                    "date_published": TIME,
                    "date_modified": TIME,
                    "authors": AUTHORS,
                    "tags": {"type": "array", "items": TEXT},
                    "language": TEXT,
                    "attachments": {"type": "array"},
                },
                "additionalProperties": False,
            },
        },
    },
    "additionalProperties": False,
}
"""JSON Feed, version 1.1, from memory of its published text: every field but `author`, which is deprecated there."""


def entry(url: str, published: str) -> Entry:
    return Entry(url=url, title="t", summary="s", published=published, updated=published)


def test_atom_has_an_entry_for_each_published_page_newest_first(kitchen: Path) -> None:
    import feedparser

    feed = feedparser.parse((kitchen / "feed.xml").read_bytes())
    assert not feed.bozo
    assert feed.version == "atom10"
    assert (feed.feed.title, feed.feed.id, feed.feed.author) == ("Lantern & Sons", URL, "Lantern Street")
    assert {link.rel: link.href for link in feed.feed.links} == {"alternate": URL, "self": f"{URL}feed.xml"}
    assert feed.feed.updated == "2026-04-07T00:00:00+00:00"
    places = ["creams/salt/", "story/", "creams/two%20milks/"]
    assert (
        [found.id for found in feed.entries]
        == [found.link for found in feed.entries]
        == [URL + place for place in places]
    )
    assert [found.published[:10] for found in feed.entries] == ["2026-04-05", "2026-04-03", "2026-03-31"]
    assert [found.updated[:10] for found in feed.entries] == ["2026-04-05", "2026-04-07", "2026-04-02"]
    assert feed.entries[0].title.startswith("Salt & ")
    assert feed.entries[1].title == "Tea & story"
    assert feed.entries[1].summary == "A &amp; B"
    assert feed.entries[2].author == "Mira Quill"
    assert f'<img alt="{feed.entries[2].title}" src="{cover(kitchen)}" />' in feed.entries[2].content[0].value


def test_the_json_feed_keeps_to_its_specification_and_has_the_same_entries(kitchen: Path) -> None:
    import feedparser

    atom = feedparser.parse((kitchen / "feed.xml").read_bytes())
    feed = json.loads((kitchen / "feed.json").read_text(encoding="utf-8"))
    Draft202012Validator(JSON_FEED, format_checker=FormatChecker()).validate(feed)
    assert feed["feed_url"] == f"{URL}feed.json"
    assert [item["id"] for item in feed["items"]] == [found.id for found in atom.entries]
    assert [item["date_modified"] for item in feed["items"]] == [found.updated for found in atom.entries]
    assert [item["image"] for item in feed["items"] if "image" in item] == [cover(kitchen)]
    assert "".join(item["summary"] for item in feed["items"]).count("&") == 1


@pytest.mark.parametrize(
    ("place", "value", "refused_at"),
    [
        (("version",), "https://jsonfeed.org/version/1", "version"),
        (("title",), None, ""),
        (("items",), None, ""),
        (("items", 0, "id"), None, "items.0"),
        (("items", 0, "id"), 7, "items.0.id"),
        (("items", 0, "content_html"), None, "items.0"),
        (("items", 0, "url"), "creams/salt/", "items.0.url"),
        (("items", 0, "date_published"), "2026-04-05", "items.0.date_published"),
        (("items", 0, "date_modified"), "2026-04-05T00:00:00", "items.0.date_modified"),
        (("items", 0, "tags"), "salt", "items.0.tags"),
        (("items", 0, "authors"), [{}], "items.0.authors.0"),
        (("items", 0, "author"), {"name": "Mira"}, "items.0"),
        (("authors",), [], "authors"),
        (("language",), "in English", "language"),
        (("home_page_url",), "", "home_page_url"),
        (("item",), [], ""),
    ],
    ids=lambda value: ".".join(map(str, value)) if isinstance(value, tuple) else None,
)
def test_a_feed_with_one_fault_does_not_keep_to_the_specification(
    place: tuple[str | int, ...], value: object, refused_at: str
) -> None:
    """Each fault is one that the specification (jsonfeed.org, 1.1; from memory) forbids; None takes a field away."""
    site = Site(url=URL, title="Lantern", description="d", author="Mira", language="en")
    made = Entry(
        url=f"{URL}a/",
        title="t",
        summary="s",
        published="2026-04-05",
        updated="2026-04-05",
        author="A",
        keywords=("k",),
    )
    feed = json.loads(json_feed(site, [made]))
    valid = Draft202012Validator(JSON_FEED)
    assert valid.is_valid(feed)
    inner = feed
    for step in place[:-1]:
        inner = inner[step]
    if value is None:
        del inner[place[-1]]
    else:
        inner[place[-1]] = value
    assert [".".join(map(str, error.absolute_path)) for error in valid.iter_errors(feed)] == [refused_at]


@pytest.mark.parametrize("page", ["index.html", "creams/salt/index.html", "creams/two milks/trials/index.html"])
def test_each_page_links_both_feeds(kitchen: Path, page: str) -> None:
    text = (kitchen / page).read_text(encoding="utf-8")
    up = "../" * page.count("/") or ""
    for kind, file in (("atom+xml", "feed.xml"), ("feed+json", "feed.json")):
        assert f'<link rel="alternate" type="application/{kind}" title="Lantern &amp; Sons" href="{up}{file}">' in text


def test_a_second_build_writes_the_same_feeds(kitchen: Path, site: Callable[..., Path]) -> None:
    files = {"index.md": "# Home\n", "salt.yaml": f"{SMALL}\npublished: 2026-04-05\n"}
    first, second = ((site(files) / "feed.xml").read_bytes() for _ in range(2))
    assert first == second


@pytest.mark.parametrize(
    ("command", "settings"),
    [
        pytest.param("build", {"site_url": None}, id="without an address"),
        pytest.param("serve", {}, id="for its author"),
        pytest.param("build", {"plugins": [{"findable_pages": {"feeds": False}}, "recipe_cards"]}, id="by the option"),
    ],
)
def test_without_feeds_no_page_links_them(site: Callable[..., Path], command: str, settings: dict[str, object]) -> None:
    made = site({"index.md": "# Home\n", "salt.yaml": f"{SMALL}\npublished: 2026-04-05\n"}, command, **settings)
    assert not (made / "feed.xml").exists()
    assert not (made / "feed.json").exists()
    assert "feed.xml" not in (made / "index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("written", ["figs.png", "posts/figs.png", "/posts/figs.png", f"{URL}posts/figs.png"])
def test_the_picture_of_a_page_is_named_from_the_page_from_the_docs_folder_or_in_full(
    site: Callable[..., Path], written: str
) -> None:
    post = f"---\npublished: 2026-04-05\nimage: {written}\n---\n# Supper\n"
    made = site({"index.md": "# Home\n", "posts/supper.md": post, "posts/figs.png": png()})
    (item,) = json.loads((made / "feed.json").read_text(encoding="utf-8"))["items"]
    assert item["image"] == f"{URL}posts/figs.png"
    assert f"<image:loc>{item['image']}</image:loc>" in (made / "sitemap.xml").read_text(encoding="utf-8")


def test_a_picture_of_a_page_that_is_not_there_is_reported_and_in_no_feed(
    site: Callable[..., Path], caplog: pytest.LogCaptureFixture
) -> None:
    files = {"index.md": "# Home\n", "posts/supper.md": "---\npublished: 2026-04-05\nimage: ../no.png\n---\n# Supper\n"}
    made = site(files, strict=False)
    assert "posts/supper.md:1: image: '../no.png' is not there.\n    Fix: " in caplog.text
    assert "no.png" not in (made / "feed.xml").read_text(encoding="utf-8")


def test_a_site_without_a_date_has_no_feed(site: Callable[..., Path]) -> None:
    assert not (site({"index.md": "# Home\n"}) / "feed.xml").exists()


def test_the_newest_come_first_what_is_to_come_is_left_out_and_there_is_an_end() -> None:
    entries = [entry("b", "2026-01-02"), entry("a", "2026-01-02"), entry("c", "2026-01-03"), entry("d", "2026-02-01")]
    assert [found.url for found in newest(entries, "2026-01-31")] == ["c", "a", "b"]
    many = [entry(f"{number:03}", "2026-01-02") for number in range(MOST + 1)]
    assert len(newest(many, "2026-01-31")) == MOST
