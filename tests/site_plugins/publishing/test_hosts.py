"""The files for hosts: each makes its host send what the table says, tried with the hosts themselves where they are."""

import os
import re
import shutil
import socket
import subprocess
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator, Mapping
from fnmatch import fnmatchcase
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from crumbcoat_site.publishing.built_site import files_of, policy_of_folder
from crumbcoat_site.publishing.hosts.headers_file import MOST_EMBEDS, headers_file
from crumbcoat_site.publishing.hosts.pages import with_policy
from crumbcoat_site.publishing.page_parts import page_parts
from crumbcoat_site.publishing.policy import sources_in
from crumbcoat_site.publishing.site_files import host_file
from crumbcoat_site.publishing.table import ASK, FOR_EVER, headers_of
from playwright.sync_api import Browser, Route

from tests.site_plugins.publishing.conftest import FILES

pytestmark = pytest.mark.no_cover  # Other programs run here.

SERVERS = {"apache": ("apache2", "httpd"), "nginx": ("nginx",)}
ALONE = "127.0.0.1"


def rules_for(text: str, path: str) -> dict[str, list[str]]:
    """The headers that a file `_headers` gives a path, as hosts read it: every rule that fits counts."""
    found: dict[str, list[str]] = {}
    applies = False
    for line in text.splitlines():
        if not line.startswith(" "):
            applies = fnmatchcase(path, line)
        elif applies:
            name, value = line.strip().split(": ", 1)
            found.setdefault(name, []).append(value)
    return found


@pytest.mark.parametrize("root", ["/", "/creams/"])
def test_the_rules_of_headers_give_every_file_what_the_table_says(site: Path, root: str) -> None:
    shutil.rmtree(site / "card" / "embed")
    policy = policy_of_folder(site)
    text = headers_file(policy, files_of(site), root)
    for name in files_of(site):
        found = rules_for(text, root + name)
        wanted = headers_of(name, policy)
        assert [key for key, values in found.items() if len(values) > 1] == [], name
        assert found.get("Cache-Control", [ASK]) == [wanted["Cache-Control"]], name
        assert found.get("Content-Type", [wanted["Content-Type"]]) == [wanted["Content-Type"]], name
        for header in wanted.keys() - {"Cache-Control", "Content-Type"}:
            assert found[header] == [wanted[header]], (name, header)
    assert rules_for(text, "/elsewhere/") == ({} if root != "/" else rules_for(text, "/"))
    assert FOR_EVER in text


def is_framed(sent: Mapping[str, list[str]], host_takes: str) -> bool:
    """Whether other sites may show a page, by the HTML Standard ("The `X-Frame-Options` header") and by CSP Level 3.

    Args:
        host_takes: `all` the values that rules have for a header, or the `last`, as the host of the file reads it.
    """
    texts = sent.get("Content-Security-Policy", [])
    policies = [sources_in(text) for text in (texts if host_takes == "all" else texts[-1:])]
    ancestors = [policy["frame-ancestors"] for policy in policies if "frame-ancestors" in policy]
    return all(sources == ("*",) for sources in ancestors) if ancestors else "X-Frame-Options" not in sent


@pytest.mark.parametrize("root", ["/", "/creams/"])
@pytest.mark.parametrize("host_takes", ["all", "last"])
def test_the_rules_of_headers_allow_frames_for_cards_alone(site: Path, root: str, host_takes: str) -> None:
    policy = policy_of_folder(site)
    text = headers_file(policy, files_of(site), root)
    framed = [
        path
        for path in ("", "404.html", "card/", "card/embed/", "card/index.html")
        if is_framed(rules_for(text, root + path), host_takes)
    ]
    assert framed == ["card/embed/"]
    for path in ("card/", "card/embed/"):
        for sent in rules_for(text, root + path)["Content-Security-Policy"]:
            found, wanted = sources_in(sent), sources_in(policy.text())
            assert {name: found[name] for name in found if name != "frame-ancestors"} == {
                name: wanted[name] for name in wanted if name != "frame-ancestors"
            }


def test_with_more_cards_than_rules_that_hosts_read_no_card_is_kept_from_frames(site: Path) -> None:
    files = [*files_of(site), *(f"{number}/embed/index.html" for number in range(MOST_EMBEDS))]
    text = headers_file(policy_of_folder(site), files, "/")
    for path in ("/card/embed/", f"/{MOST_EMBEDS - 1}/embed/", "/card/"):
        assert is_framed(rules_for(text, path), "all")
    assert sum(not line.startswith(" ") for line in text.splitlines()) < 100
    fewer = headers_file(policy_of_folder(site), files[: len(files) - 1], "/")
    assert sum(not line.startswith(" ") for line in fewer.splitlines()) < 100
    assert not is_framed(rules_for(fewer, "/card/"), "all")


def test_the_name_of_a_file_cannot_begin_a_rule(site: Path) -> None:
    """RFC 3986: what is not a letter, a digit or `-._~/` is escaped in a path."""
    names = ["a\n/*\n  X-Evil: 1/embed/index.html", ":all/embed/index.html", "*/embed/index.html", "b\n  c.atom"]
    text = headers_file(policy_of_folder(site), [*files_of(site), *names], "/")
    assert "X-Evil:" not in text
    assert [line for line in text.splitlines() if line.startswith(("/*", "/:", "  c"))] == ["/*"]
    assert "/%3Aall/embed/" in text


@pytest.mark.parametrize("path", ["card/", "card/embed/"])
def test_a_browser_shows_a_card_in_a_frame_of_another_site_and_no_other_page(
    site: Path, browser: Browser, path: str
) -> None:
    """What Chromium makes of the headers, each rule's policy as a header of its own."""
    text = headers_file(policy_of_folder(site), files_of(site), "/")

    def answer(route: Route) -> None:
        address = urlsplit(route.request.url)
        if address.netloc == "blog.example":
            route.fulfill(content_type="text/html", body=f'<iframe src="http://creams.example/{path}"></iframe>')
        elif address.path.endswith("/"):
            sent = {name: ", ".join(values) for name, values in rules_for(text, address.path).items()}
            route.fulfill(headers=sent, content_type="text/html", body="<h1>Creams</h1>")
        else:
            route.fulfill(status=404)

    with browser.new_context() as context:  # Of its own: the shared page may ask no other site.
        page = context.new_page()
        page.route("**/*", answer)
        page.goto("http://blog.example/")
        assert page.frames[1].locator("h1").count() == (1 if path.endswith("embed/") else 0)


def test_a_page_names_the_policy_before_its_first_script() -> None:
    page = with_policy(FILES["index.html"], policy_of_folder(Path("none")).text_in_pages)
    assert page.index("Content-Security-Policy") < page.index("<script")
    assert page_parts(page).policy.startswith("default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; ")
    assert "frame-ancestors" not in page


@pytest.fixture(params=SERVERS)
def host(request: pytest.FixtureRequest, site: Path, tmp_path: Path) -> Iterator[tuple[str, Path]]:
    """The address of a site below a path, at a host that reads the file written for it."""
    program = next(filter(None, (shutil.which(name, path=SEARCHED) for name in SERVERS[request.param])), None)
    if program is None:
        pytest.skip(f"{request.param} is not installed")
    root = tmp_path / "www"
    root.mkdir()
    site.rename(root / "creams")
    name, text = host_file(root / "creams", request.param, policy_of_folder(root / "creams"), "/creams/")
    (root / "creams" / name).write_text(text, encoding="utf-8")
    with socket.socket() as free:
        free.bind((ALONE, 0))
        port = free.getsockname()[1]
    command = COMMANDS[request.param](Path(program), tmp_path, root, port)
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True) as running:
        try:
            _wait(running, port)
            yield f"http://{ALONE}:{port}/creams/", root / "creams"
        finally:
            running.terminate()
            running.wait()


SEARCHED = os.pathsep.join([os.environ["PATH"], "/usr/sbin", "/usr/local/sbin"])


def _nginx(program: Path, tmp_path: Path, root: Path, port: int) -> list[str]:
    places = "".join(
        f"{name}_temp_path {tmp_path}/{name}; " for name in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    )
    (tmp_path / "host.conf").write_text(
        f"daemon off; pid {tmp_path}/pid; error_log stderr; {'user root;' if os.geteuid() == 0 else ''} events {{}}\n"
        f"http {{ access_log off; {places}\nserver {{ listen {ALONE}:{port}; root {root};\n"
        f"include {root}/creams/nginx.conf; }} }}\n"
    )
    return [str(program), "-p", str(tmp_path), "-c", str(tmp_path / "host.conf"), "-e", "stderr"]


def _apache(program: Path, tmp_path: Path, root: Path, port: int) -> list[str]:
    modules = program.parents[1] / "lib" / "apache2" / "modules"
    names = ("mpm_event", "authz_core", "headers", "setenvif", "mime", "dir", "filter", "deflate", "autoindex")
    tmp_path.chmod(0o755)
    for folder in tmp_path.parents[:2]:
        folder.chmod(0o755)
    lines = [
        f"ServerRoot {tmp_path}\nPidFile {tmp_path}/pid\nListen {ALONE}:{port}\nServerName {ALONE}",
        "ErrorLog /dev/stderr",
        *(f"LoadModule {name}_module {modules}/mod_{name}.so" for name in names),
        *(["User www-data\nGroup www-data"] if os.geteuid() == 0 else []),
        f"TypesConfig /dev/null\nDocumentRoot {root}",
        f"<Directory {root}>\nAllowOverride All\nRequire all granted\n</Directory>",
        '<FilesMatch "^\\.ht">\nRequire all denied\n</FilesMatch>',  # As every Apache comes.
    ]
    (tmp_path / "host.conf").write_text("\n".join(lines) + "\n")
    return [str(program), "-f", str(tmp_path / "host.conf"), "-DFOREGROUND"]


COMMANDS: Mapping[str, Callable[[Path, Path, Path, int], list[str]]] = {"nginx": _nginx, "apache": _apache}


def _wait(running: "subprocess.Popen[str]", port: int) -> None:
    for _ in range(200):
        if running.poll() is not None:
            assert running.stderr is not None
            pytest.fail(running.stderr.read())
        with socket.socket() as trying:
            if trying.connect_ex((ALONE, port)) == 0:
                return
        time.sleep(0.1)
    pytest.fail("the host does not answer")


def asked(url: str) -> tuple[int, dict[str, str]]:
    request = urllib.request.Request(url, headers={"Accept-Encoding": "gzip"})
    try:
        with urllib.request.urlopen(request) as answer:
            return answer.status, dict(answer.headers.items())
    except urllib.error.HTTPError as answer:
        with answer:
            return answer.code, dict(answer.headers.items())


def test_a_real_host_sends_every_file_as_the_table_says(host: tuple[str, Path]) -> None:
    address, folder = host
    policy = policy_of_folder(folder)
    for name in FILES:
        status, sent = asked(address + re.sub(r"index\.html$", "", name))
        assert status == 200, name
        for header, value in headers_of(name, policy).items():
            assert sent.get(header, "").lower() == value.lower(), (name, header)
    assert asked(f"{address}assets/site/0123456789ab/a.css")[1]["Content-Encoding"] == "gzip"
    assert "Content-Encoding" not in asked(f"{address}assets/runtime/0123456789abcdef/memory.bin")[1]


def test_a_real_host_shows_the_page_of_the_site_for_one_that_is_not_there(host: tuple[str, Path]) -> None:
    address, folder = host
    for name in ("no/such/", "assets/site/0123456789ab/gone.js"):
        status, sent = asked(address + name)
        assert status == 404
        assert sent["Content-Security-Policy"] == policy_of_folder(folder).text()
        assert "immutable" not in sent.get("Cache-Control", "")
    for name in (".htaccess", "nginx.conf"):
        assert asked(address + name)[0] in (403, 404)
