"""The `journal_skin` plug-in: a style sheet for every page, an icon, and a drawing on the front page."""

import hashlib
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page

from crumbcoat_site.journal_skin.config import JournalSkinConfig
from crumbcoat_site.minified import minified

_HERE = Path(__file__).parent
_SOURCE = "assets/journal_skin/journal.css"


class JournalSkin(BasePlugin[JournalSkinConfig]):
    """Dresses the whole site: header, tabs, search, footer, headings and running text."""

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Add the theme's files, and the style sheet behind those of the other plug-ins."""
        config.theme.dirs.insert(0, str(_HERE / "theme"))
        source = (_HERE / "theme" / _SOURCE).read_text(encoding="utf-8")
        self._sheet = minified("journal.css", source)
        digest = hashlib.sha256(self._sheet).hexdigest()[:12]
        self._uri = f"assets/journal_skin/{digest}/journal.css"
        config.extra_css.append(self._uri)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the style sheet under the name of its content, in place of its source."""
        for source in [file for file in files if file.src_uri == _SOURCE]:
            files.remove(source)
        files.append(File.generated(config, self._uri, content=self._sheet))
        return files

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Begin the front page with the drawing."""
        if not (page.is_homepage and self.config.cover):
            return markdown
        return f"{(_HERE / 'cover.html').read_text(encoding='utf-8')}\n{markdown}"
