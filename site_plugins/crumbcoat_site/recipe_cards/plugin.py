"""The hooks: they find, call and hand back."""

import json
import os
from pathlib import Path

from crumbcoat_calc.errors import InputError
from markupsafe import escape
from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url

from crumbcoat_site.recipe_cards.build.assets import CARDS, PAGES, assets
from crumbcoat_site.recipe_cards.build.assets import HANDOUT as HANDOUT_SHEET
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.build.page_files import PageFiles, page_files
from crumbcoat_site.recipe_cards.build.page_parts import join
from crumbcoat_site.recipe_cards.build.parts import CARD_JSON, HANDOUT, ISLANDS, MARKDOWN
from crumbcoat_site.recipe_cards.build.prices import load_prices
from crumbcoat_site.recipe_cards.config import RecipeCardsConfig
from crumbcoat_site.recipe_cards.handout.shell import Frame
from crumbcoat_site.recipe_cards.pages.collection import MARK, Entry, with_collection
from crumbcoat_site.recipe_cards.pages.forms import with_forms
from crumbcoat_site.recipe_cards.pages.start import Start
from crumbcoat_site.recipe_cards.source.file_errors import RecipeFileError
from crumbcoat_site.recipe_cards.source.photos import photos_by_recipe

_THEME = Path(__file__).parent / "theme"


class RecipeCards(BasePlugin[RecipeCardsConfig]):
    """Recipe files -> pages."""

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        config.theme.dirs.insert(0, str(_THEME))
        self._assets = assets()
        config.extra_css.insert(0, self._assets.place(CARDS))
        script = ExtraScriptValue(self._assets.place("recipe_reader.js"))
        script.type = "module"
        config.extra_javascript.append(script)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        for source in [file for file in files if file.src_uri in self._assets.sources]:
            files.remove(source)
        for place, content in self._assets.content.items():
            files.append(File.generated(config, place, content=content))
        cache = self._cache = PageCache(Path(config.config_file_path).parent / self.config.cache)
        self._entries: list[Entry] = []
        self._cards: dict[str, PageFiles] = {}
        problems = []
        photos = photos_by_recipe(file.src_uri for file in files.media_files())
        prices = None
        try:
            path = Path(config.docs_dir) / self.config.prices
            prices = load_prices(path, os.path.relpath(path), cache)
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
            parts = {f"{name}.md": MARKDOWN, f"{name}/card.json": CARD_JSON}
            if frame:
                parts[f"{name}/handout/index.html"] = HANDOUT
            page, *others = (
                File.generated(config, uri, abs_src_path=str(cache.path(made.key, ending)))
                for uri, ending in parts.items()
            )
            page.edit_uri = source.src_uri
            for file in (page, *others):
                files.append(file)
            self._entries.append(Entry(made=made, url=page.url))
            self._cards[name] = made
        if problems:
            raise PluginError("\n" + "\n".join(problems))
        return files

    def _frame(self, config: MkDocsConfig) -> Frame:
        """A handout stands outside the theme, with those of its files that it needs."""
        others = [str(path) for path in config.extra_css if str(path).endswith("/calculators.css")]
        return Frame(
            styles=(self._assets.place("pictures.css"), *others, self._assets.place(HANDOUT_SHEET)),
            scripts=tuple(str(path) for path in config.extra_javascript if str(path).endswith("/calculator.js")),
            language=str(config.theme.locale or "en"),
            site_url=config.site_url or "",
        )

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        if page.meta.get("template") == "recipe.html":  # The theme prints both as they are, and trusts what is Markup.
            page.meta.update({key: escape(page.meta[key]) for key in ("title", "description")})
        if page.is_homepage or MARK in markdown:
            names = (PAGES, HANDOUT_SHEET) if f"{MARK} handout from" in markdown else (PAGES,)
            page.meta["sheets"] = [self._assets.place(name) for name in names]
        if MARK not in markdown:
            return markdown
        starts = [
            Start(name=name, title=made.title, card=get_relative_url(f"{name}/card.json", page.url))
            for name, made in sorted(self._cards.items())
        ]
        try:
            markdown = with_forms(markdown, starts, self._data_of, self._cache)
            return with_collection(markdown, self._entries, page.url)
        except InputError as error:
            place = f"{page.file.src_uri}: {error.problem}"
            raise PluginError(f"{place}.\n    Fix: {error.remedy}") from None

    def _data_of(self, name: str) -> dict[str, object]:
        """The fields of a recipe of the site, by its path in docs_dir without ending."""
        card = json.loads(self._cache.path(self._cards[name].key, CARD_JSON).read_text(encoding="utf-8"))
        fields: dict[str, object] = card["recipe"]
        return fields

    @event_priority(100)  # Before other plugins work on the page as it is written.
    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        made = self._cards.get(page.file.src_uri.removesuffix(".md"))
        if made is None:
            return output
        return join(output, self._cache.path(made.key, ISLANDS).read_text(encoding="utf-8"))
