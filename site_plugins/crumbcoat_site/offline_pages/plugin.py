"""The `offline_pages` plugin: hooks that make a built site installable and of use without a network."""

import hashlib
import html
import json
from pathlib import Path
from typing import Literal

from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from crumbcoat_site.minified import minified
from crumbcoat_site.offline_pages.config import OfflinePagesConfig
from crumbcoat_site.offline_pages.shell import shell_of

_HERE = Path(__file__).parent


class OfflinePages(BasePlugin[OfflinePagesConfig]):
    """Adds the service worker, the web app manifest and the page for pages that are not kept."""

    serving = False

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """While pages are being written none is kept, or yesterday's would be seen."""
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Name the script that registers the worker to every page."""
        config.theme.dirs.insert(0, str(_HERE / "theme"))
        source = (_HERE / "register.js").read_text(encoding="utf-8")
        self.register = minified("register.js", f"const USED = {json.dumps(self.config.used)};\n{source}")
        digest = hashlib.sha256(self.register).hexdigest()[:12]
        self.register_uri = f"assets/offline_pages/{digest}/register.js"
        if not self.serving:
            script = ExtraScriptValue(self.register_uri)
            script.type = "module"
            config.extra_javascript.append(script)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the registering script and the manifest."""
        if self.serving:
            return files
        files.append(File.generated(config, self.register_uri, content=self.register))
        manifest = {
            "name": config.site_name,
            "description": config.site_description or config.site_name,
            "start_url": "./",
            "scope": "./",
            "display": "standalone",
            "background_color": self.config.paper,
            "theme_color": self.config.paper,
            "icons": [
                {"src": "assets/offline_pages/icon-192.png", "sizes": "192x192", "type": "image/png"},
                {"src": "assets/offline_pages/icon-512.png", "sizes": "512x512", "type": "image/png"},
                {
                    "src": "assets/offline_pages/icon-full-512.png",
                    "sizes": "512x512",
                    "type": "image/png",
                    "purpose": "maskable",
                },
            ],
        }
        content = json.dumps(manifest, ensure_ascii=False, indent=1) + "\n"
        files.append(File.generated(config, "site.webmanifest", content=content))
        return files

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Name the manifest and the icon in the page's head."""
        if self.serving:
            return output
        place, icon = (
            get_relative_url(uri, page.url) for uri in ("site.webmanifest", "assets/offline_pages/icon-192.png")
        )
        head = f'<link rel="manifest" href="{place}"><link rel="apple-touch-icon" href="{icon}">'
        return output.replace("</head>", f"{head}</head>", 1)

    @event_priority(-100)  # When every other plugin has written its files.
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Write the worker; for `mkdocs serve`, one that takes down whatever an earlier visit left."""
        site = Path(config.site_dir)
        if self.serving:
            (site / "sw.js").write_text((_HERE / "take_down.js").read_text(encoding="utf-8"), encoding="utf-8")
            return
        page = (_HERE / "offline.html").read_text(encoding="utf-8")
        for word, text in (("SITE_NAME", config.site_name), ("LANGUAGE", config.theme.get("language") or "en")):
            page = page.replace(word, html.escape(text))
        (site / "offline.html").write_text(page, encoding="utf-8")
        shell = shell_of(site, self.config.later, ("index.html", "offline.html"))
        worker = (_HERE / "worker.js").read_text(encoding="utf-8")
        (site / "sw.js").write_bytes(shell.script.encode() + minified("sw.js", worker))
