"""The hooks through which each page goes: directives and stories in its Markdown, cards in its HTML."""

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from markupsafe import escape
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import event_priority
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import get_relative_url
from mkdocs.utils.templates import TemplateContext

from crumbcoat_site.recipe_cards.build.assets import HANDOUT, PAGES, Assets
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.page_parts import join, searched
from crumbcoat_site.recipe_cards.pages.changed_pages import ChangedPages
from crumbcoat_site.recipe_cards.pages.directives import with_directives
from crumbcoat_site.recipe_cards.pages.kept_files import ISLANDS
from crumbcoat_site.recipe_cards.pages.more_recipes import more_recipes
from crumbcoat_site.recipe_cards.pages.not_found import NAME as NOT_FOUND
from crumbcoat_site.recipe_cards.pages.not_found import not_found
from crumbcoat_site.recipe_cards.pages.notebook_pages import NotebookPage, TrialCard
from crumbcoat_site.recipe_cards.pages.problem_pages import problem_box
from crumbcoat_site.recipe_cards.pages.recipe_groups import Group, groups_of
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage
from crumbcoat_site.recipe_cards.pages.related_recipes import RelatedRecipes
from crumbcoat_site.recipe_cards.pages.story_pages import Story, in_order_of_page, story_around_card, with_story
from crumbcoat_site.recipe_cards.pages.written_directives import directives_in
from crumbcoat_site.recipe_cards.source.source_errors import SourceError


class Rendering:
    """The part of the plug-in that works on one page after the other, with what was found in all files."""

    config: Any
    _pages: Mapping[str, RecipePage]
    _problems: Mapping[str, tuple[SourceError, ...]]
    _notebooks: Mapping[str, NotebookPage | TrialCard]
    _stories: Mapping[str, Story]
    _groups: Sequence[Group]
    _related: RelatedRecipes
    _social: Mapping[str, tuple[str, Path]]
    _drafts: frozenset[str]
    _sheets: dict[str, list[str]]
    _errors: list[SourceError]
    _assets: Assets
    _cache: PageCache
    _is_serving: bool
    _changed: ChangedPages | None

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Replace the directives of a page, or add to a card its story."""
        if page.file.src_uri in {*self._pages, *self._notebooks}:  # The theme trusts what is Markup, and prints both.
            shown = {"title", "description", "author"} & page.meta.keys()
            page.meta.update({key: escape(page.meta[key]) for key in shown})
            story = self._stories.get(page.file.src_uri)
            if story is None:
                return markdown
            parts = [self._replaced(part, story.shown, story.content, page) for part in (story.before, story.after)]
            return with_story(markdown, *parts)
        source = os.path.relpath(page.file.abs_src_path) if page.file.abs_src_path else page.file.src_uri
        return self._replaced(markdown, source, page.file.content_string, page)

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Put what our style sheets are for into one element: they reach no other."""
        ours = page.file.src_uri in self._pages or page.file.src_uri in self._sheets
        recipe_page = self._pages.get(page.file.src_uri)
        mark = component("draft", mark=recipe_page.mark) if recipe_page and recipe_page.mark else ""
        others = [problem for name, of in self._problems.items() if f"{name}.md" != page.file.src_uri for problem in of]
        box = problem_box(others, "What cannot be used is left out")
        notebook = self._notebooks.get(page.file.src_uri) if self._is_serving else None
        box += problem_box(notebook.problems, "The other trials are below") if notebook else ""
        html, before, after = story_around_card(searched(html))
        for heading in page.toc.items[:1] if before else ():
            heading.children[:] = in_order_of_page(heading.children, before, after)
        return f'<div class="cc-card">{mark}{box}{html}</div>' if ours or self._problems else html

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Add to a card the links to related recipes and its groups, which the theme prints below it."""
        if self._changed:
            self._changed.titles[page.file.src_uri] = str(page.title)
        recipe_page = self._pages.get(page.file.src_uri)
        if recipe_page is not None:
            page.meta["social"] = self._social[recipe_page.name][0]
            page.meta["more"] = self._more(page, recipe_page)
        return context

    def on_template_context(
        self, context: TemplateContext, *, template_name: str, config: MkDocsConfig
    ) -> TemplateContext:
        """Give the page for an address that is not there what could help."""
        if template_name == NOT_FOUND:
            root = f"{context['base_url'].rstrip('/')}/"
            search = any(name.rpartition("/")[2] == "search" for name in config.plugins)
            shown = not_found(list(self._pages.values()), self._groups, root, with_search=search)
            more = {"not_found": shown, "not_found_sheet": f"{root}{self._assets.place(PAGES)}"}
            context.update(more)  # type: ignore[typeddict-item]
        return context

    @event_priority(100)  # Before other plug-ins work on the finished page.
    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Put the HTML of a card into its page, and the style sheets that a page needs beyond those of cards."""
        recipe_page = self._pages.get(page.file.src_uri)
        if recipe_page is not None:
            output = join(output, self._cache.path(recipe_page.key, ISLANDS).read_text(encoding="utf-8"))
        notebook = self._notebooks.get(page.file.src_uri)
        if notebook is not None:
            output = join(output, self._cache.path(notebook.key, notebook.islands).read_text(encoding="utf-8"))
        places = [self._assets.place(name) for name in self._sheets.get(page.file.src_uri, ())]
        links = [f'<link rel="stylesheet" href="{get_relative_url(place, page.url)}">' for place in places]
        return output.replace("</head>", "".join(links) + "</head>", 1)

    def _more(self, page: Page, recipe: RecipePage) -> str:
        """What follows a card: related recipes, or else its section, and its groups."""
        section = [other for other in page.parent.children if isinstance(other, Page)] if page.parent else []
        links = [(str(other.title), get_relative_url(other.url, page.url)) for other in section]
        here = section.index(page) if page in section else 0
        title = page.parent.title if page.parent else ""
        near = self._related.of(recipe)
        related = [(other.title, get_relative_url(other.url, page.url), words) for other, words in near]
        return more_recipes(title, links, here, related, groups_of(recipe, self._groups))

    def _replaced(self, markdown: str, source: str, content: str, page: Page) -> str:
        """A Markdown text with its directives replaced; notes the style sheets that it needs beyond those of a card.

        Args:
            source: the file that the text is from, as errors show it.
            content: all of that file.
        """
        place, region, pages = page.file.src_uri, self.config.region, list(self._pages.values())
        directives = directives_in(markdown)
        if directives:
            handouts = any(words.startswith("handout ") for words in directives)
            self._sheets[place] = [PAGES, HANDOUT] if handouts else [PAGES]
        try:
            return with_directives(
                markdown, source, content, page.url, pages, self._cache, self._drafts, region, self._groups
            )
        except SourceError as error:
            self._errors.append(error)
            self._sheets.setdefault(place, [])
            return f"{problem_box([error], 'It goes when the page is saved without it')}\n\n{markdown}"
