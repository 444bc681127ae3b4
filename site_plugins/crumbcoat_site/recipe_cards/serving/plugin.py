"""The hooks that only `mkdocs serve` needs, and what the others ask about it."""

import logging
import os
from collections.abc import Callable, Mapping, Set
from pathlib import Path
from types import MappingProxyType

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, ConfigurationError
from mkdocs.livereload import LiveReloadServer
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation

from crumbcoat_site.recipe_cards.pages.changed_pages import ChangedPages, is_not_about_dirty_builds
from crumbcoat_site.recipe_cards.pages.problem_pages import errors_logged, put_into_pages
from crumbcoat_site.recipe_cards.source.source_errors import SourceError


class Serving:
    """The part of the plug-in that knows whether its author is looking, and which pages are old."""

    _is_serving = False
    _warned: Set[str] = frozenset()
    _changed: ChangedPages | None = None
    _published: Mapping[str, Path] = MappingProxyType({})

    def on_startup(self, *, command: str, dirty: bool) -> None:
        """Note whether it is the author who will look at the pages, and whether only changed pages are rendered."""
        self._is_serving, self._warned = command == "serve", frozenset()
        if self._is_serving and dirty:
            self._changed = ChangedPages()
            logging.getLogger("mkdocs.commands.build").addFilter(is_not_about_dirty_builds)

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Give pages that are not rendered again the titles that they had."""
        for page in nav.pages if self._changed else ():
            if self._changed and not page.file.is_modified():
                page.title = self._changed.titles.get(page.file.src_uri, page.title)
        return nav

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Callable[..., None]
    ) -> LiveReloadServer:
        """Keep the site up while mkdocs.yml cannot be read, and say so in every page."""
        build = server.builder

        def build_or_say() -> None:
            with errors_logged() as errors:
                try:
                    build()
                except (ConfigurationError, Abort) as error:
                    self._changed = self._changed and ChangedPages()
                    file, words = os.path.relpath(config.config_file_path), "; ".join(errors) or str(error)
                    put_into_pages(Path(server.root), SourceError(file, 1, words, "put this right, and save the file"))

        server.builder = build_or_say
        return server
