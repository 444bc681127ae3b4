"""A built site from loopback, as its host sends it."""

import gzip
from http import HTTPStatus
from pathlib import Path

import pytest
from crumbcoat_site.publishing.policy import digests
from crumbcoat_site.publishing.server import PublishedSite
from crumbcoat_site.publishing.table import ASK, FOR_EVER, NEVER

STYLE = "assets/site/0123456789ab/a.css"


def test_a_file_comes_with_its_headers_and_is_compressed_where_that_helps(site: Path) -> None:
    published = PublishedSite(site)
    plain = published.response(f"/{STYLE}?v=1", {})
    assert plain.content == (site / STYLE).read_bytes()
    assert plain.headers["Cache-Control"] == FOR_EVER
    packed = published.response(f"/{STYLE}", {"accept-encoding": "gzip, br"})
    assert packed.headers["Content-Encoding"] == "gzip"
    assert gzip.decompress(packed.content) == plain.content
    image = published.response("/assets/runtime/0123456789abcdef/memory.bin", {"accept-encoding": "gzip"})
    assert "Content-Encoding" not in image.headers
    assert published.response("/", {}).headers["Cache-Control"] == ASK
    assert published.response("/sw.js", {}).headers["Cache-Control"] == NEVER


def test_a_file_that_the_browser_has_is_not_sent_again(site: Path) -> None:
    published = PublishedSite(site)
    modified = published.response("/", {}).headers["Last-Modified"]
    again = published.response("/", {"if-modified-since": modified})
    assert (again.status, again.content) == (HTTPStatus.NOT_MODIFIED, b"")
    assert published.response("/", {"if-modified-since": "yesterday"}).status == HTTPStatus.OK


@pytest.mark.parametrize(
    "target",
    ["/no/", "/.htaccess", "/card/.git/x", "/../conftest.py", "/%2e%2e/site/index.html", "/%00", "/index.html/"],
)
def test_what_is_not_there_or_hidden_gives_the_page_of_the_site(site: Path, target: str) -> None:
    (site / ".htaccess").write_text("x")
    found = PublishedSite(site).response(target, {})
    assert found.status == HTTPStatus.NOT_FOUND
    assert found.content == (site / "404.html").read_bytes()


def test_below_a_path_the_host_has_nothing_else(site: Path) -> None:
    published = PublishedSite(site, "/creams/")
    assert published.response("/creams/card/", {}).status == HTTPStatus.OK
    assert published.response("/card/", {}).status == HTTPStatus.NOT_FOUND
    for target in ("/", "/creams"):
        assert published.response(target, {}).headers["Location"] == "/creams/"
    assert published.response("/creams/card", {}).headers["Location"] == "/creams/card/"


def test_the_policy_is_that_of_the_pages_as_they_are_now(site: Path) -> None:
    published = PublishedSite(site)
    assert digests(["here()"])[0] in published.response("/", {}).headers["Content-Security-Policy"]
    page = (site / "index.html").read_text(encoding="utf-8")
    (site / "index.html").unlink()
    (site / "index.html").write_text(page.replace("here()", "there()"), encoding="utf-8")
    assert digests(["there()"])[0] in published.response("/", {}).headers["Content-Security-Policy"]
    assert "frame-ancestors 'none'" in published.response("/card/", {}).headers["Content-Security-Policy"]
    assert "frame-ancestors *" in published.response("/card/embed/", {}).headers["Content-Security-Policy"]
