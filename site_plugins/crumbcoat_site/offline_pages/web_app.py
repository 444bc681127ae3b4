"""The texts that make a site an installable web app: its manifest, the links in each page, and the offline page."""

import html
import json
from pathlib import Path

MANIFEST = "site.webmanifest"
_ICONS = "assets/offline_pages"
TOUCH_ICON = f"{_ICONS}/icon-192.png"
_OFFLINE = Path(__file__).parent / "offline.html"


def manifest(name: str, description: str, background: str) -> str:
    """The web app manifest.

    Source:
        W3C, Web Application Manifest.
    """
    icons = {f"{_ICONS}/icon-{size}.png": {"sizes": f"{size}x{size}"} for size in (192, 512)}
    icons[f"{_ICONS}/icon-full-512.png"] = {"sizes": "512x512", "purpose": "maskable"}
    content = {
        "name": name,
        "description": description,
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "background_color": background,
        "theme_color": background,
        "icons": [{"src": place, "type": "image/png", **facts} for place, facts in icons.items()],
    }
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def with_links(page: str, manifest_url: str, icon_url: str) -> str:
    """The page with links to the manifest and the icon in its head."""
    links = f'<link rel="manifest" href="{manifest_url}"><link rel="apple-touch-icon" href="{icon_url}">'
    return page.replace("</head>", f"{links}</head>", 1)


def offline_page(site_name: str, language: str) -> str:
    """The page that is shown instead of one that is not kept on the device."""
    page = _OFFLINE.read_text(encoding="utf-8")
    return page.replace("SITE_NAME", html.escape(site_name)).replace("LANGUAGE", html.escape(language))
