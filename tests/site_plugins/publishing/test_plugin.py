"""The plug-in in a build: what it writes for a host, below a path, and what it warns about."""

import logging
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from crumbcoat_site.command.published import published_site
from crumbcoat_site.command.site_files import SiteFilesError, site_around
from crumbcoat_site.publishing.built_site import policy_of_folder
from crumbcoat_site.publishing.page_parts import page_parts
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from tests.site_plugins.command.conftest import run

pytestmark = pytest.mark.no_cover  # Whole sites are built here.

PAGE = "# Creams\n\n| cream | fat |\n| --- | ---: |\n| double | 48 g |\n"
Built = Callable[..., Path]


@pytest.fixture
def built(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Built:
    """Builds a site of one page with these options of the plug-in; gives its folder."""

    def make(options: str, page: str = PAGE, files: dict[str, str] | None = None) -> Path:
        (tmp_path / "docs").mkdir()
        for name, text in {"index.md": page, **(files or {})}.items():
            (tmp_path / "docs" / name).write_text(text)
        (tmp_path / "mkdocs.yml").write_text(
            "site_name: Small\nsite_url: https://lantern.example/creams/\ntheme: {name: material, font: false}\n"
            f"plugins: [offline_pages, publishing: {options}]\n"
        )
        config = load_config(str(tmp_path / "mkdocs.yml"))
        config.plugins.on_startup(command="build", dirty=False)
        build(config)
        monkeypatch.chdir(tmp_path)
        return tmp_path / "site"

    return make


@pytest.mark.parametrize(
    ("host", "name", "line"),
    [
        ("headers", "_headers", "/creams/sw.js\n  Cache-Control: no-cache\n"),
        ("apache", ".htaccess", "ErrorDocument 404 /creams/404.html\n"),
        ("nginx", "nginx.conf", "error_page 404 /creams/404.html;\n"),
    ],
)
def test_the_file_of_a_host_begins_with_the_path_of_the_site(built: Built, host: str, name: str, line: str) -> None:
    site = built(f"{{host: {host}}}")
    text = (site / name).read_text(encoding="utf-8")
    assert line in text
    assert policy_of_folder(site).text() in text


def test_for_a_forge_every_page_has_the_policy_and_it_fits(built: Built) -> None:
    site = built("{host: pages}")
    policies = {page_parts(path.read_text(encoding="utf-8")).policy for path in site.rglob("*.html")}
    assert policies == {policy_of_folder(site).text_in_pages}
    assert (site / ".nojekyll").is_file()


def test_without_a_host_nothing_is_written_and_tables_need_no_style(built: Built) -> None:
    site = built("{}")
    assert not {"_headers", ".htaccess", "nginx.conf", ".nojekyll"} & {path.name for path in site.iterdir()}
    assert '<td align="right">48 g</td>' in (site / "index.html").read_text(encoding="utf-8")
    assert "unsafe" not in policy_of_folder(site).text().replace("wasm-unsafe-eval", "")


def test_what_the_policy_refuses_is_named_in_the_build(built: Built, caplog: pytest.LogCaptureFixture) -> None:
    page = (
        '<b onclick="go()">Go</b>\n<img src="https://cream.example/a.jpg">\n<iframe src="//film.example/1"></iframe>\n'
    )
    with caplog.at_level(logging.WARNING):
        built("{host: apache, allow: {frame-src: ['https://film.example']}}", page, {".htaccess": "mine"})
    words = "\n".join(record.getMessage() for record in caplog.records)
    assert "the security policy blocks `onclick`. Fix: move it to a script file." in words
    assert "refuses https://cream.example/a.jpg. Fix: put the file into your site, or allow its host" in words
    assert "film.example" not in words


def test_a_file_of_the_author_stays(built: Built, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.WARNING):
        site = built("{host: headers}", files={"_headers": "mine"})
    assert (site / "_headers").read_text() == "mine"
    assert "_headers: your own file is left as it is. Fix:" in caplog.text


@pytest.mark.parametrize(
    "allow", ["{script-src: [\"'unsafe-eval'\"]}", "{frame: [https://film.example]}", "{img-src: a}"]
)
def test_only_hosts_can_be_allowed(built: Built, caplog: pytest.LogCaptureFixture, allow: str) -> None:
    with pytest.raises(Abort):
        built(f"{{allow: {allow}}}")
    assert re.search(r"publishing: allow: .*Fix: write ", caplog.text)


def test_the_finished_site_is_served_as_published(built: Built) -> None:
    site = built("{allow: {img-src: ['https://cream.example']}}")
    published = published_site(site_around(site.parent))
    assert published.root == "/creams/"
    assert "img-src 'self' data: https://cream.example;" in published.policy.text()
    (site / "404.html").unlink()
    with pytest.raises(SiteFilesError, match="Fix: run `crumbcoat build` first"):
        published_site(site_around(site.parent))
    for arguments, words in (
        (("--dirty",), "--dirty: --as-published has no such option."),
        (("--dev-addr", "0.0.0.0:80"), "0.0.0.0:80: this is not an address of this machine."),
    ):
        done = run("serve", "--as-published", *arguments)
        assert (done.exit_code, words in done.output, "Fix: leave it out" in done.output) == (1, True, True)
