"""The `offline_pages` plug-in: hooks that make a built site installable, and let visited pages work offline."""

from pathlib import Path
from typing import Literal

from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import BasePlugin, CombinedEvent, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from crumbcoat_site.offline_pages.config import OfflinePagesConfig
from crumbcoat_site.offline_pages.precache import precache_of
from crumbcoat_site.offline_pages.scripts import registering_script, removing_worker, service_worker
from crumbcoat_site.offline_pages.web_app import MANIFEST, TOUCH_ICON, manifest, offline_page, with_links

_THEME = Path(__file__).parent / "theme"


class OfflinePages(BasePlugin[OfflinePagesConfig]):
    """Adds the service worker, the web app manifest and the offline page."""

    serving = False

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Under `mkdocs serve` nothing is kept, so that an author never sees an outdated page."""
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Add the registering script to every page."""
        config.theme.dirs.insert(0, str(_THEME))
        self._script_place, self._script = registering_script(self.config.large_files_in_use)
        if not self.serving:
            script = ExtraScriptValue(self._script_place)
            script.type = "module"
            config.extra_javascript.append(script)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the registering script and the manifest to the site."""
        if not self.serving:
            files.append(File.generated(config, self._script_place, content=self._script))
            description = config.site_description or config.site_name
            content = manifest(config.site_name, description, self.config.background)
            files.append(File.generated(config, MANIFEST, content=content))
        return files

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Link every page to the manifest and the icon."""
        if self.serving:
            return output
        return with_links(output, *(get_relative_url(place, page.url) for place in (MANIFEST, TOUCH_ICON)))

    @event_priority(-80)  # Before whatever looks at all pages.
    def _write_page(self, *, config: MkDocsConfig) -> None:
        """Write the page that is shown instead of one that is not kept."""
        if not self.serving:
            page = offline_page(config.site_name, str(config.theme.get("language") or "en"))
            (Path(config.site_dir) / "offline.html").write_text(page, encoding="utf-8")

    @event_priority(-100)  # When every other plug-in has written its files.
    def _write_worker(self, *, config: MkDocsConfig) -> None:
        """Write the service worker."""
        site = Path(config.site_dir)
        if self.serving:
            (site / "sw.js").write_bytes(removing_worker())
            return
        precache = precache_of(site, self.config.large_files, ("index.html", "offline.html"))
        (site / "sw.js").write_bytes(service_worker(precache))

    on_post_build = CombinedEvent(_write_page, _write_worker)
