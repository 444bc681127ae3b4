"""The `recipe_cards` plug-in: its hooks find things, call what works on them, and hand the result to MkDocs."""

import json
import logging
import os
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from jinja2 import Environment
from mkdocs.config.config_options import ExtraScriptValue
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.utils import get_build_datetime

from crumbcoat_site.recipe_cards.build.assets import CARDS, SHEETS, assets
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.build.site_pages import SitePages
from crumbcoat_site.recipe_cards.card.card_options import NO_ADDRESS, CardOptions
from crumbcoat_site.recipe_cards.config import RecipeCardsConfig
from crumbcoat_site.recipe_cards.contrast.check import contrast_problems, site_contrast_problems, theme_sheets
from crumbcoat_site.recipe_cards.contrast.variables import palettes_of
from crumbcoat_site.recipe_cards.embed.site_files import embed_files, embed_shell
from crumbcoat_site.recipe_cards.handout.shell import handout_shell
from crumbcoat_site.recipe_cards.pages.changed_pages import ChangedPages, age_of
from crumbcoat_site.recipe_cards.pages.drafts import nav_without
from crumbcoat_site.recipe_cards.pages.kept_files import MARKDOWN
from crumbcoat_site.recipe_cards.pages.moved_pages import moved_files, moved_problems
from crumbcoat_site.recipe_cards.pages.notebook_pages import NotebookPage, TrialCard
from crumbcoat_site.recipe_cards.pages.problem_pages import problem_page
from crumbcoat_site.recipe_cards.pages.recipe_groups import group_pages, recipe_groups
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage, RecipePages, recipe_pages
from crumbcoat_site.recipe_cards.pages.related_recipes import RelatedRecipes
from crumbcoat_site.recipe_cards.pages.site_pictures import SitePictures
from crumbcoat_site.recipe_cards.pages.social_pictures import social_orders
from crumbcoat_site.recipe_cards.pages.story_pages import read_stories
from crumbcoat_site.recipe_cards.pages.written_directives import directives_in, page_with, whole_cards_in
from crumbcoat_site.recipe_cards.rendering.plugin import Rendering
from crumbcoat_site.recipe_cards.serving.plugin import Serving
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile, recipe_files
from crumbcoat_site.recipe_cards.source.site_ingredients import load_site_ingredients
from crumbcoat_site.recipe_cards.source.source_errors import SourceError, SourceErrors
from crumbcoat_site.recipe_cards.source.stories import is_beside_story_of, recipe_of_story, with_others
from crumbcoat_site.recipe_cards.source.trial_folders import is_in_a_trial_folder

_THEME, _THEME_FIRST = Path(__file__).parent / "theme", Path(__file__).parent / "theme_first"
_MATERIAL = "write `theme: {name: material, font: false}`, or a fork of Material"
_LOG = get_plugin_logger("recipe_cards")


class RecipeCards(Serving, Rendering, BasePlugin[RecipeCardsConfig]):
    """Makes a page of every recipe file, and lists, charts and forms of the directives in other pages."""

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Add our templates to the theme, and our style sheet and script to every page."""
        config.theme.dirs.append(str(_THEME))
        # Before the theme, and after what the site itself puts in place of it.
        config.theme.dirs.insert(1 if config.theme.custom_dir else 0, str(_THEME_FIRST))
        self._assets = assets()
        config.extra_css.insert(0, self._assets.place(CARDS))
        script = ExtraScriptValue(self._assets.place("recipe_reader.js"))
        script.type = "module"
        config.extra_javascript.append(script)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Replace every recipe file by its page, card.json and handout."""
        self._cache = PageCache(Path(config.config_file_path).parent / self.config.cache)
        self._errors: list[SourceError] = []
        self._pictures = SitePictures(self._cache.folder / "pictures")
        lists = (self.config.prices, self.config.ingredients)
        stories = {file.src_uri: file for file in files.documentation_pages() if recipe_of_story(file.src_uri)}
        in_trials = [file for file in files if is_in_a_trial_folder(file.src_uri)]
        others = [file for file in files if file not in in_trials and file.src_uri not in lists]
        sources = [file for file in others if file.src_uri.endswith(self.config.suffix)]
        pages = [file for file in files.documentation_pages() if file.src_uri not in stories]
        markdown = {file.url: file.content_string for file in pages}
        list_of_own = Path(config.docs_dir) / self.config.ingredients
        own = load_site_ingredients(list_of_own, os.path.relpath(list_of_own), self._cache)
        in_docs = [file for file in files.media_files() if file.src_dir == config.docs_dir]
        media = {file.src_uri: Path(file.abs_src_path or "") for file in in_docs}
        paths = {file.src_uri.removesuffix(self.config.suffix): Path(file.abs_src_path or "") for file in sources}
        photos = self._pictures.of_recipes(paths, media, with_drafts=self._is_serving)
        in_stories = with_others({path: Path(file.abs_src_path or "") for path, file in stories.items()})
        of_stories = [path.read_text(encoding="utf-8", errors="replace") for path in in_stories.values()]
        whole = whole_cards_in([*markdown.values(), *of_stories])
        recipes = recipe_files(paths, photos, own, self.config.region)
        found = self._recipe_pages(recipes, config, markdown, whole)
        self._theirs = {file.dest_uri for file in files if file not in sources}
        self._places = {file.src_uri.replace("README.md", "index.md") for file in pages}
        self._groups = recipe_groups(found.pages, self.config.groups, self.config.smallest_group)
        moved = moved_problems(found.pages, [*self._theirs, *(f"{group.url}index.html" for group in self._groups)])
        self._stories, in_them = read_stories(in_stories, paths, found.drafts)
        found.add_problems([*own.problems, *moved, *self._pictures.problems, *in_them])
        self._pages = {f"{page.name}.md": page for page in found.pages}
        self._related = RelatedRecipes(found.pages)
        self._problems, self._drafts = found.problems, frozenset(found.drafts)
        self._notebooks = {page.place: page for notebook in found.notebooks for page in notebook.pages}
        self._sheets = {place: [*page.sheets] for place, page in self._notebooks.items()}
        self._report([problem for problems in found.problems.values() for problem in problems])
        self._warn(found)
        self._hide_drafts(config)
        hidden = [file for file in in_trials if not any(page.shows(file.src_uri) for page in found.notebooks)]
        hidden += [file for file in files if is_beside_story_of(file.src_uri, self._drafts)]
        ours = [file for file in files if file.src_uri in {*self._assets.sources, *lists}]
        for file in [*sources, *stories.values(), *hidden, *ours]:
            files.remove(file)
        texts = [*markdown.values(), *(story.content for story in self._stories.values())]
        self._publish_pictures(files, media, config, "\n".join(texts))
        for file in self._generated(config):
            files.append(file)
        if self._changed:
            self._outdate(self._changed, files, config)
        return files

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """Stop if a directive cannot be used; say what the site's settings keep from cards and handouts."""
        self._report(self._errors)
        env.bytecode_cache = self._changed.templates if self._changed else env.bytecode_cache
        palettes, theme = palettes_of(config.theme.get("palette")), theme_sheets(config.theme.dirs)
        others = [files.get_file_from_path(path) for path in config.extra_css if path not in self._assets.content]
        own = [file.content_string for file in others if file]
        for problem in [*contrast_problems(palettes, [*theme, *own]), *site_contrast_problems(palettes, theme, own)]:
            _LOG.warning(problem)
        orders = social_orders(self._pages.values(), config.site_name, palettes, [*theme, *own])
        self._social = self._pictures.social(orders)
        for place, path in self._social.values():
            files.append(File.generated(config, place, abs_src_path=str(path)))
        self._pictures.prune()
        if any(page.embed for page in self._pages.values()):
            of_frames = embed_files(self._assets, palettes, theme, own, to_copy=self.config.embed)
            for place, content in of_frames.items():
                files.append(File.generated(config, place, content=content))
        if self._pages and not theme:
            _LOG.warning(f"mkdocs.yml: theme: cards are made for Material.\n    Fix: {_MATERIAL}.")
        if self._pages and not config.site_url:
            _LOG.info(f"mkdocs.yml: site_url: {NO_ADDRESS}")
        return env

    def _recipe_pages(
        self, recipes: Iterable[RecipeFile], config: MkDocsConfig, markdown: Mapping[str, str], whole: Collection[str]
    ) -> RecipePages:
        """The pages of the recipes; drafts are among them only for their author."""
        site, serving = self._site_pages(config), self._is_serving
        shell = handout_shell(self._assets, site, page_with("handout from", markdown))
        show_cost, notebooks = self.config.show_cost or serving, self.config.notebooks or serving
        trials = serving if self.config.trials is None else self.config.trials
        to_copy = self.config.embed
        palettes = palettes_of(config.theme.get("palette")) if to_copy or whole else ()
        embed = embed_shell(self._assets, site, palettes, theme_sheets(config.theme.dirs)) if palettes else None
        models, region = page_with("models", markdown), self.config.region
        options = CardOptions(models, show_cost, region, notebooks, trials, site.url, site.language, embed, to_copy)
        paper, handouts = shell.for_sheets(self._assets.place(SHEETS)), shell if self.config.handouts else None
        prices, today = Path(config.docs_dir) / self.config.prices, get_build_datetime().date()
        return recipe_pages(
            recipes, prices, options, handouts, self._cache, today, with_drafts=serving, paper=paper, whole=whole
        )

    def _warn(self, found: RecipePages) -> None:
        """What the author should look at; a trial that cannot be used does not stop a build.

        While a site is served, of a page that was made again only: the author has read the rest.
        """
        for warning in [warning for page in found.pages if page.key not in self._warned for warning in page.warnings]:
            _LOG.warning(warning)
        notebooks = [page for page in found.notebooks if page.key not in self._warned]
        for problem in [problem for page in notebooks for problem in page.problems]:
            _LOG.log(logging.INFO if self._is_serving else logging.WARNING, problem)
        made: list[RecipePage | NotebookPage] = [*found.pages, *found.notebooks]
        self._warned = {page.key for page in made} if self._is_serving else set()

    def _report(self, problems: Sequence[SourceError]) -> None:
        """Stop at problems; or, while the author looks at the pages, only say them: the pages show them too."""
        if problems and not self._is_serving:
            raise PluginError(f"\n{SourceErrors(problems)}")
        for problem in problems:
            _LOG.info(problem)

    def _outdate(self, changed: ChangedPages, files: Files, config: MkDocsConfig) -> None:
        """Make the pages old that must be rendered again, and the files that come with them."""
        pages = {file.src_uri: file for file in files.documentation_pages()}
        recipes = list(self._pages.values())
        near = changed.related(recipes)
        ours = {place: f"{page.key}{page.mark}{near[page.name]}" for page in recipes for place in page.places}
        ours |= {place: f"{ours[place]} {story.content}" for place, story in self._stories.items() if place in ours}
        ours |= {place: page.key for page in self._notebooks.values() for place in page.places}
        listed = {page.name: hash(page.in_lists) for page in recipes}
        made = [group for group in self._groups if group.place not in self._places]
        ours |= {group.place: repr([listed[page.name] for page in group.recipes]) for group in made}
        theirs = {place: age_of(file) for place, file in pages.items() if place not in ours}
        lists = [place for place in theirs if directives_in(pages[place].content_string)]
        titles: list[object] = [sorted((page.name, page.title) for page in recipes)]
        titles += [(group.name, group.words, [page.name for page in group.recipes]) for group in self._groups]
        shared = [Path(config.config_file_path).read_text(encoding="utf-8"), titles, theirs, repr(self._problems)]
        for place in changed.places - {*pages, *ours}:
            gone = File(place, config.docs_dir, config.site_dir, config.use_directory_urls)
            Path(gone.abs_dest_path).unlink(missing_ok=True)
        is_outdated = changed.outdated({**theirs, **ours}, lists, json.dumps(shared, sort_keys=True))
        for place in {*pages, *ours}:
            file = files.get_file_from_path(place)
            if file and is_outdated(place) and os.path.isfile(file.abs_dest_path):
                os.utime(file.abs_dest_path, (0, 0))

    def _hide_drafts(self, config: MkDocsConfig) -> None:
        """Take the places of drafts out of the navigation."""
        ends = (".md", self.config.suffix)
        config.nav = nav_without(config.nav, {f"{name}{end}" for name in self._drafts for end in ends})
        if self._drafts:
            _LOG.info(f"Drafts, not in this site: {', '.join(sorted(self._drafts))}")

    def _publish_pictures(self, files: Files, media: Mapping[str, Path], config: MkDocsConfig, markdown: str) -> None:
        """Put what was made of pictures in the place of the files of docs_dir, and say which nothing shows."""
        left = {file.src_uri: media[file.src_uri] for file in files.media_files() if file.src_uri in media}
        pages = list(self._pages.values())
        published = self._pictures.published(left, pages, self._drafts, markdown, self._published)
        self._published = published.files
        for file in [file for file in files if file.src_uri in published.replaced]:
            files.remove(file)
        for place, path in published.files.items():
            files.append(File.generated(config, place, abs_src_path=str(path)))
        for problem in published.problems:
            _LOG.log(logging.INFO if self._is_serving else logging.WARNING, problem)

    def _site_pages(self, config: MkDocsConfig) -> SitePages:
        scripts = [script for script in config.extra_javascript if isinstance(script, ExtraScriptValue)]
        modules = tuple(script.path for script in scripts if script.type == "module")
        language = str(config.theme.get("language") or config.theme.locale or "en")
        return SitePages(tuple(config.extra_css), modules, language, config.site_name, config.site_url or "")

    def _generated(self, config: MkDocsConfig) -> Iterator[File]:
        """The files that this plug-in adds to the site."""
        moved = moved_files(self._pages.values(), self._cache, self._assets, config.site_url or "", self._theirs)
        for place, content in {**self._assets.content, **moved}.items():
            yield File.generated(config, place, content=content)
        for name, problems in self._problems.items():
            if name:
                yield File.generated(config, f"{name}.md", content=problem_page(name, problems))
        for place, content in group_pages(self._groups, self._places).items():
            key = self._cache.key(content.encode(), place)  # A file has an age, and is rendered only if it is new.
            if self._cache.get(key) is None:
                self._cache.put(key, {}, {MARKDOWN: content})
            file = File.generated(config, place, abs_src_path=str(self._cache.path(key, MARKDOWN)))
            file.inclusion = InclusionLevel.NOT_IN_NAV
            yield file
        pages: list[RecipePage | NotebookPage | TrialCard] = [*self._pages.values(), *self._notebooks.values()]
        for page in pages:
            for place, ending in page.places.items():
                file = File.generated(config, place, abs_src_path=str(self._cache.path(page.key, ending)))
                file.edit_uri = page.name + self.config.suffix
                file.inclusion = InclusionLevel.NOT_IN_NAV if place in self._notebooks else file.inclusion
                yield file
