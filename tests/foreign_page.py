"""A page of another site that shows cards: an origin of its own, a strict policy, hostile styles."""

import contextlib
import html
import http.server
import re
import threading
from collections.abc import Iterator, Mapping
from pathlib import Path

HOSTILE = """
html { font-size: 62.5%; color-scheme: light; }
body { margin: 0; background: #def; font-size: 1.8rem; }
* { font-family: cursive !important; letter-spacing: 2px !important; color: #060 !important; }
*, ::before, ::after { box-sizing: content-box !important; margin: 0; padding: 0; border: 0; }
button, input, select, summary, details { all: unset !important; }
:is(h1, h2, h3, p, li, dt, dd, td, th, span) { display: block !important; font-size: 31px !important; }
iframe, img { height: auto; max-width: 100%; }
[hidden] { display: block !important; }
"""


def policy(site: str, **more: str) -> str:
    """A strict one: besides its own style sheet, a page may load no more than cards ask for.

    Args:
        site: the address of the site whose cards it shows.
        more: further directives.
    """
    origin = site.rstrip("/")
    own = {"default-src": "'none'", "style-src": "'self'", "img-src": f"data: {origin}"}
    others = {name.replace("_", "-"): value for name, value in more.items()}
    directives = own | {"script-src": origin, "frame-src": origin} | others
    return "; ".join(f"{name} {value}" for name, value in directives.items())


def line_of(site: tuple[Path, str], card: str, words: str) -> str:
    """The line to copy that a card's page offers under these words."""
    page = (site[0] / card / "index.html").read_text(encoding="utf-8")
    (line,) = re.findall(rf'{words} <code class="cc-line">(.*?)</code>', page, re.DOTALL)
    return html.unescape(line)


def page_with(*cards: str) -> str:
    """A page with these lines of HTML in it."""
    parts = "\n<p class='between'>Between two cards.</p>\n".join(cards)
    return (
        "<!doctype html><html lang='en'><meta charset='utf-8'><title>Post</title>"
        "<meta name='viewport' content='width=device-width'><link rel='icon' href='data:,'>"
        f"<link rel='stylesheet' href='hostile.css'><h1 id='ingredients'>A post</h1>{parts}<p>The end.</p></html>"
    )


@contextlib.contextmanager
def foreign(pages: Mapping[str, str], content_security_policy: str = "") -> Iterator[str]:
    """Serves pages, by path, and the hostile style sheet; gives the address, which is an origin of its own."""

    class Host(http.server.BaseHTTPRequestHandler):
        def log_message(self, *_: object) -> None:
            pass

        def do_GET(self) -> None:
            name = self.path.partition("?")[0]
            text = HOSTILE if name == "/hostile.css" else pages.get(name, "")
            self.send_response(200 if text else 404)
            kind = "css" if name.endswith(".css") else "html"
            self.send_header("content-type", f"text/{kind}; charset=utf-8")
            if content_security_policy:
                self.send_header("content-security-policy", content_security_policy)
            self.end_headers()
            self.wfile.write(text.encode())

    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), Host) as server:
        server.daemon_threads = True
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()
