"""`crumbcoat check --published`: a site as it should be has no findings, and each fault has one with place and fix."""

import functools
import re
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from http import HTTPStatus
from pathlib import Path

import pytest
from crumbcoat_site.publishing.running.crawl import check_published
from crumbcoat_site.publishing.running.findings import Finding, json_of, text_of
from crumbcoat_site.publishing.server import PublishedSite, Response, SiteHandler, SiteServer

from tests.site_plugins.command.conftest import run

STYLE = "assets/site/0123456789ab/a.css"
Change = Callable[[str, Response], Response]


class Changed(PublishedSite):
    """A host with a fault."""

    def __init__(self, folder: Path, change: Change) -> None:
        super().__init__(folder, "/creams/")
        self._change = change

    def response(self, target: str, asked: Mapping[str, str]) -> Response:
        return self._change(target, super().response(target, asked))


@contextmanager
def served(site: PublishedSite) -> Iterator[str]:
    with SiteServer(("127.0.0.1", 0), functools.partial(SiteHandler, site=site)) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/creams/"
        server.shutdown()


def found_at(site: Path, change: Change = lambda _, response: response) -> list[tuple[str, str, bool]]:
    """Place, problem and whether it is a warning, without the address of the host."""
    with served(Changed(site, change)) as address:
        findings, files = check_published(address)
    assert files > 0
    assert all(found.remedy for found in findings)
    return [
        (found.place.replace(address, ""), found.problem.replace(address, ""), found.is_warning) for found in findings
    ]


def test_a_site_as_it_should_be_has_no_findings(site: Path) -> None:
    assert found_at(site) == []


@pytest.mark.parametrize(
    ("file", "old", "new", "place", "problem"),
    [
        ("index.html", 'href="card/"', 'href="cards/"', ":3",
         "a link (a href) leads to cards/, which is not there (status 404)"),
        ("index.html", '"#top"', '"#end"', ":3", "a link leads to #end of , and nothing there has that id"),
        ("index.html", 'src="assets/pictures/0123456789ab/a.webp"', 'srcset="a.webp 320w, b.webp 640w"', ":4",
         "a link (img srcset) leads to a.webp, which is not there (status 404)"),
        (STYLE, "b.svg", "c.svg", STYLE,
         "a style sheet leads to assets/site/0123456789ab/c.svg, which is not there (status 404)"),
        ("sw.js", "a.mjs", "b.mjs", "sw.js", "the list of what is kept offline leads to "
         "assets/runtime/0123456789abcdef/b.mjs, which is not there (status 404)"),
        ("index.html", "<body>", '<body onload="go()">', ":3", "its security policy blocks `onload`"),
    ],
)  # fmt: skip
def test_what_leads_nowhere_has_its_place(site: Path, file: str, old: str, new: str, place: str, problem: str) -> None:
    text = (site / file).read_text(encoding="utf-8")
    assert old in text
    (site / file).write_text(text.replace(old, new), encoding="utf-8")
    assert found_at(site)[0] == (place, problem, False)


def with_header(ending: str, name: str, value: str | None) -> Change:
    """A host that sends another value of a header, or none, with files of that ending."""

    def change(target: str, response: Response) -> Response:
        headers = {key: kept for key, kept in response.headers.items() if key != name or not target.endswith(ending)}
        if value is not None and target.endswith(ending):
            headers[name] = value
        return Response(response.status, headers, response.content)

    return change


LOOSE = "default-src 'self' 'unsafe-inline'"


@pytest.mark.parametrize(
    ("change", "finding"),
    [
        (with_header(".css", "Content-Type", "text/plain"), (STYLE, "it comes as text/plain, and is text/css", False)),
        (with_header("feed.json", "Content-Type", None),
         ("feed.json", "it comes as nothing, and is application/feed+json", True)),
        (with_header(".css", "Cache-Control", "max-age=600"),
         (STYLE, "its name changes with its content, and it is kept for 600 s only", True)),
        (with_header("sw.js", "Cache-Control", "max-age=600"), ("sw.js", "the service worker is kept for 600 s", True)),
        (with_header("card/", "Cache-Control", "max-age=86400"),
         ("card/", "it is kept for 86400 s, and may change", True)),
        (with_header("card/", "Content-Security-Policy", None), ("card/", "it has no security policy", False)),
        (with_header("card/", "Content-Security-Policy", LOOSE),
         ("card/", f"its security policy allows default-src {LOOSE.removeprefix('default-src ')}", False)),
        (with_header("card/", "Content-Security-Policy", "default-src 'none'"),
         ("card/", "its security policy refuses an inline script of the page", False)),
        (with_header("card/", "X-Content-Type-Options", None),
         ("card/", "the header X-Content-Type-Options is missing", True)),
    ],
)  # fmt: skip
def test_headers_that_differ_are_named(site: Path, change: Change, finding: tuple[str, str, bool]) -> None:
    assert finding in found_at(site, change)


def test_a_host_that_compresses_nothing_is_named(site: Path) -> None:
    with served(PublishedSite(site, "/creams/", compresses=False)) as address:
        findings, _ = check_published(address)
    assert [(found.place, found.problem) for found in findings] == [(address + STYLE, "it is not compressed")]


def test_a_page_that_is_not_there_must_not_look_as_if_it_were(site: Path) -> None:
    def always_there(_: str, response: Response) -> Response:
        return Response(HTTPStatus.OK, response.headers, response.content)

    assert "a page that is not there has the status 200" in [problem for _, problem, _ in found_at(site, always_there)]


def test_where_there_is_no_site_it_says_so() -> None:
    findings, _ = check_published("http://127.0.0.1:9/")
    assert "there is no page here" in findings[0].problem
    assert run("check", "--published", "my-kitchen.example").exit_code == 1


def test_the_command_ends_with_1_if_there_is_a_problem(site: Path) -> None:
    with served(PublishedSite(site, "/creams/")) as address:
        done = run("check", "--published", address)
        assert (done.exit_code, "no problems, no warnings" in done.output) == (0, True)
        (site / STYLE).unlink()
        done = run("check", "--published", address)
    assert done.exit_code == 1
    assert f"{address}:2: a link (link href) leads to {address}{STYLE}, which is not there (status 404)." in done.output
    assert "    Fix: put the address right, or upload all files of the site again." in done.output


def test_what_many_files_have_in_common_is_said_once() -> None:
    findings = [Finding(f"a/{number}", "it is old", "make it new", True) for number in range(12)]
    text = text_of([*findings, Finding("b", "it is gone", "bring it")], 13)
    assert text.startswith(
        "b: it is gone.\n    Fix: bring it.\nWarnings:\n12 places: it is old.\n    Fix: make it new.\n"
    )
    assert "    - 2 more\n13 files, 1 problem, 12 warnings." in text
    assert '"place": "a/0"' in json_of(findings)


@pytest.mark.parametrize(
    ("policy", "option", "problem"),
    [
        ("frame-ancestors *", "DENY", ""),
        ("frame-ancestors 'self'", "", ""),
        ("frame-ancestors 'none'", "", "its security policy keeps other sites from showing this card in a frame"),
        (
            "frame-ancestors *, frame-ancestors 'self'",
            "",
            "its security policy keeps other sites from showing this card",
        ),
        ("", "SAMEORIGIN", "its X-Frame-Options keeps other sites from showing this card in a frame"),
    ],
)
def test_a_card_that_other_sites_cannot_show_is_reported(site: Path, policy: str, option: str, problem: str) -> None:
    def change(target: str, response: Response) -> Response:
        if not target.endswith("embed/"):
            return response
        base = re.sub(r"; frame-ancestors [^;]*", "", response.headers["Content-Security-Policy"])
        sent = {**response.headers, "Content-Security-Policy": ", ".join(filter(None, (base, policy)))}
        return replace(response, headers=sent | ({"X-Frame-Options": option} if option else {}))

    index = site / "card" / "index.html"
    index.write_text(index.read_text(encoding="utf-8").replace("A card</a>", 'A card</a><a href="embed/">Frame</a>'))
    found = found_at(site, change)
    assert [problem in said for _, said, _ in found] == ([True] if problem else [])
