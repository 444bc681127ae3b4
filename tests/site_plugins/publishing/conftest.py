"""A small built site, with a file of each kind."""

from pathlib import Path

import pytest

PAGE = """<!doctype html><html><head><meta charset="utf-8"><script id="__config" type="application/json">{}</script>
<link rel="stylesheet" href="%(up)sassets/site/0123456789ab/a.css"><script>here()</script></head>
<body><h1 id="top">Creams</h1><a href="#top">Up</a> <a href="%(up)scard/">A card</a>
<img src="%(up)sassets/pictures/0123456789ab/a.webp" alt=""></body></html>
"""
FILES = {
    "index.html": PAGE % {"up": ""},
    "404.html": PAGE % {"up": "/creams/"},
    "card/index.html": PAGE % {"up": "../"},
    "card/embed/index.html": PAGE % {"up": "../../"},
    "assets/site/0123456789ab/a.css": f"a {{ background: url(b.svg) }} /* {'x' * 2000} */",
    "assets/site/0123456789ab/b.svg": "<svg xmlns='http://www.w3.org/2000/svg'/>",
    "assets/site/plain.js": "1",
    "assets/embed.js": "1",
    "assets/pictures/0123456789ab/a.webp": "RIFF",
    "assets/runtime/0123456789abcdef/a.wasm": "\0asm",
    "assets/runtime/0123456789abcdef/a.mjs": "export default 1",
    "assets/runtime/0123456789abcdef/memory.bin": "1",
    "feed.xml": "<feed/>",
    "feed.json": "{}",
    "sitemap.xml": "<urlset><url><loc>http://creams.example/card/</loc></url></urlset>",
    "sw.js": 'const SITE = {"shell": ["assets/runtime/0123456789abcdef/a.mjs"], "later": ["feed.json"]};\n',
}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    for name, text in FILES.items():
        (tmp_path / "site" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "site" / name).write_text(text, encoding="utf-8")
    return tmp_path / "site"
