"""The `journal_skin` plug-in: its hooks add a style sheet to every page, and a drawing to the front page."""

import hashlib
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page

from crumbcoat_site.journal_skin.config import JournalSkinConfig
from crumbcoat_site.minified import minified

_HERE = Path(__file__).parent


class JournalSkin(BasePlugin[JournalSkinConfig]):
    """Gives a whole site the look of a kitchen journal, cards and all."""

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Add the style sheet to every page, in a folder named for its content."""
        # Before the theme, for the page that is not there, and after what the site itself puts in place of it.
        config.theme.dirs.insert(1 if config.theme.custom_dir else 0, str(_HERE / "theme"))
        self._sheet = minified("journal.css", (_HERE / "journal.css").read_text(encoding="utf-8"))
        self._place = f"assets/journal_skin/{hashlib.sha256(self._sheet).hexdigest()[:12]}/journal.css"
        config.extra_css.append(self._place)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the style sheet to the site."""
        files.append(File.generated(config, self._place, content=self._sheet))
        return files

    @event_priority(50)  # Before other plug-ins work on the content.
    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Open the front page with a drawing."""
        if not (page.is_homepage and self.config.cover):
            return html
        drawing = (_HERE / "cake.svg").read_text(encoding="utf-8")
        return f'<div class="cj-cover">{drawing}</div>{html}'
