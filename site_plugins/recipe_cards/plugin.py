"""The hooks: they find, call and hand back."""

import os
from pathlib import Path

from markupsafe import escape
from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url
from mkdocs.utils.templates import TemplateContext

from calc.errors import InputError
from site_plugins.recipe_cards.assets import FOLDER, WHEN_USED, asset_places
from site_plugins.recipe_cards.cache import PageCache
from site_plugins.recipe_cards.collection import MARK, Entry, with_collection
from site_plugins.recipe_cards.config import RecipeCardsConfig
from site_plugins.recipe_cards.forms import Start, with_forms
from site_plugins.recipe_cards.handout import Frame
from site_plugins.recipe_cards.islands import whole
from site_plugins.recipe_cards.page import CARD_JSON, HANDOUT, ISLANDS, PageFiles, page_files
from site_plugins.recipe_cards.photos import photos_by_recipe
from site_plugins.recipe_cards.prices import load_prices
from site_plugins.recipe_cards.recipe_files import RecipeFileError

_THEME = Path(__file__).parent / "theme"


class RecipeCards(BasePlugin[RecipeCardsConfig]):
    """Recipe files -> pages."""

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        config.theme.dirs.insert(0, str(_THEME))
        self._places = asset_places()
        sheets = [place for place in self._places.values() if place.endswith(".css") and WHEN_USED not in place]
        config.extra_css[:0] = sheets[:2]
        config.extra_css += sheets[2:]
        script = ExtraScriptValue(self._places[f"{FOLDER}/reader.js"])
        script.type = "module"
        config.extra_javascript.append(script)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        for found in [file for file in files if file.src_uri in self._places]:
            files.remove(found)
            files.append(File.generated(config, self._places[found.src_uri], abs_src_path=found.abs_src_path))
        cache = self._cache = PageCache(Path(config.config_file_path).parent / self.config.cache)
        self._entries: list[Entry] = []
        self._cards: dict[str, PageFiles] = {}
        problems = []
        photos = photos_by_recipe(file.src_uri for file in files.media_files())
        prices = None
        try:
            path = Path(config.docs_dir) / self.config.prices
            prices = load_prices(path, os.path.relpath(path))
        except RecipeFileError as error:
            problems.append(str(error))
        frame = self._frame(config) if self.config.handouts else None
        for source in [file for file in files if file.src_uri.endswith(self.config.suffix)]:
            files.remove(source)
            name = source.src_uri.removesuffix(self.config.suffix)
            try:
                path = Path(source.abs_src_path or "")
                made = page_files(path, os.path.relpath(path), name, photos.get(name, {}), prices, frame, cache)
            except RecipeFileError as error:
                problems.append(str(error))
                continue
            page = File.generated(config, f"{name}.md", content=made.markdown)
            page.edit_uri = source.src_uri
            files.append(page)
            card_json = str(cache.path(made.key, CARD_JSON))
            files.append(File.generated(config, f"{name}/card.json", abs_src_path=card_json))
            if frame:
                path = cache.path(made.key, HANDOUT)
                files.append(File.generated(config, f"{name}/handout/index.html", abs_src_path=str(path)))
            self._entries.append(Entry(made=made, url=page.url))
            self._cards[name] = made
        if problems:
            raise PluginError("\n" + "\n".join(problems))
        return files

    def _frame(self, config: MkDocsConfig) -> Frame:
        """A handout stands outside the theme, with those of its files that it needs."""
        sheets = ("/pictures.css", "/calculators.css", "/handout.css")
        return Frame(
            styles=tuple(str(path) for path in config.extra_css if str(path).endswith(sheets)),
            scripts=tuple(str(path) for path in config.extra_javascript if str(path).endswith("/calculator.js")),
            language=str(config.theme.locale or "en"),
            site_url=config.site_url or "",
        )

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        if page.meta.get("template") == "recipe.html":  # The theme prints both as they are, and trusts what is Markup.
            page.meta |= {key: escape(page.meta[key]) for key in ("title", "description")}
        if MARK not in markdown:
            return markdown
        starts = [
            Start(
                name=name,
                title=made.title,
                family=made.family,
                data=made.data,
                card=get_relative_url(f"{name}/card.json", page.url),
            )
            for name, made in sorted(self._cards.items())
        ]
        try:
            return with_collection(with_forms(markdown, starts), self._entries, page.url)
        except InputError as error:
            place = f"{page.file.src_uri}: {error.problem}"
            raise PluginError(f"{place}.\n    To mend: {error.remedy}") from None

    @event_priority(-100)  # After the search has read the words.
    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        made = self._cards.get(page.file.src_uri.removesuffix(".md"))
        if made and page.content:
            page.content = whole(page.content, self._cache.path(made.key, ISLANDS).read_text(encoding="utf-8"))
        return context
