"""The `findable_pages` plug-in: its hooks write feeds and robots.txt, and complete the sitemap and heads of pages."""

import os
from collections.abc import Iterator
from pathlib import Path

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Section
from mkdocs.structure.pages import Page
from mkdocs.utils import get_build_datetime, get_relative_url

from crumbcoat_site.findable_pages.config import FindablePagesConfig
from crumbcoat_site.findable_pages.entries import (
    DateProblemError,
    absolute,
    entry_of,
    is_findable,
    last_change,
    newest,
    picture_place,
    title_text,
)
from crumbcoat_site.findable_pages.feeds import ATOM, JSON_FEED, Site, atom_feed, json_feed
from crumbcoat_site.findable_pages.head import breadcrumbs, feed_links, robots_meta, website, with_head
from crumbcoat_site.findable_pages.robots import ROBOTS, robots_txt

_THEME = Path(__file__).parent / "theme"
_LOG = get_plugin_logger("findable_pages")
_NO_ADDRESS = (
    "mkdocs.yml: site_url: the site has no address, so it gets no feeds and no robots.txt, and its sitemap is empty.\n"
    "    Fix: give the address of the finished site, such as `site_url: https://example.org/`."
)


class FindablePages(BasePlugin[FindablePagesConfig]):
    """Makes a published site known to feed readers and search engines; `mkdocs serve` leaves it as it is."""

    _serving = False
    _publishes = False
    _feeds = False

    def on_startup(self, *, command: str, dirty: bool) -> None:
        """Note whether the site is only shown to its author."""
        self._serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Put our sitemap in the place of MkDocs' own."""
        self._publishes = bool(config.site_url) and not self._serving
        # Before the theme, and after what the site itself puts in place of it.
        config.theme.dirs.insert(1 if config.theme.custom_dir else 0, str(_THEME))
        if not config.site_url:
            _LOG.info(_NO_ADDRESS)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add robots.txt, unless the site has its own."""
        content = robots_txt(config.site_url) if self._publishes and config.site_url else None
        if content and ROBOTS not in files.src_uris:
            files.append(File.generated(config, ROBOTS, content=content))
        return files

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """Write the feeds, and note for the sitemap which pages it lists, when they changed and what they show."""
        env.tests["findable"] = is_findable
        if not self._publishes:
            return env
        site, entries, problems = _site_of(config), [], []
        for page in _pages(files):
            _find_picture(page, files)
            try:
                page.meta["last_change"] = last_change(page.meta)
                entries.append(entry_of(page.canonical_url or "", title_text(page.title), page.meta, site.url))
            except DateProblemError as error:
                problems.append(f"{_source_of(page)}:1: {error}")
            if page.meta.get("image"):
                page.meta["absolute_image"] = absolute(str(page.meta["image"]), site.url)
        if problems:
            raise PluginError("\n" + "\n".join(problems))
        shown = newest([entry for entry in entries if entry], get_build_datetime().date().isoformat())
        self._feeds = bool(shown) and self.config.feeds
        for place, write in ((ATOM, atom_feed), (JSON_FEED, json_feed)) if self._feeds else ():
            files.append(File.generated(config, place, content=write(site, shown)))
        return env

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Add to the head of a page its feeds, the way to it, and whether it is to be found."""
        if not self._publishes:
            return output
        more = robots_meta(page.meta, output)
        if self._feeds:
            places = [get_relative_url(place, page.url) for place in (ATOM, JSON_FEED)]
            more += feed_links(config.site_name, *places)
        more += website(_site_of(config)) if page.is_homepage else breadcrumbs(list(_way_to(page, config)))
        return with_head(output, more)


def _pages(files: Files) -> Iterator[Page]:
    return (file.page for file in files.documentation_pages() if file.page)


def _find_picture(page: Page, files: Files) -> None:
    """Put the place of its picture into the front matter of a page that somebody wrote; leave out what is not there."""
    written = page.meta.get("image")
    if not written or page.file.generated_by:
        return
    page.meta["image"] = picture_place(str(written), page.file.src_uri, files.src_uris)
    if not page.meta["image"]:
        problem = f"{_source_of(page)}:1: image: {written!r} is not there"
        _LOG.warning(f"{problem}.\n    Fix: write the path of the picture from this page, or from the docs folder.")


def _site_of(config: MkDocsConfig) -> Site:
    return Site(
        url=config.site_url or "",
        title=config.site_name,
        description=config.site_description or "",
        author=config.site_author or config.site_name,
        language=str(config.theme.get("language") or config.theme.locale or "en"),
    )


def _way_to(page: Page, config: MkDocsConfig) -> Iterator[tuple[str, str]]:
    """The pages above a page, each with its address, and the page; a section that has no page is left out."""
    yield config.site_name, config.site_url or ""
    for section in reversed([above for above in page.ancestors if isinstance(above, Section)]):
        fronts = [child for child in section.children if isinstance(child, Page) and child.is_index]
        for front in fronts[:1]:
            if front is not page:
                yield title_text(section.title), front.canonical_url or ""
    yield title_text(page.title), page.canonical_url or ""


def _source_of(page: Page) -> str:
    return os.path.relpath(page.file.abs_src_path) if page.file.abs_src_path else page.file.src_uri
