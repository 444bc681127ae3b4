"""Recipe files -> their pages, each from the cache if nothing that it depends on has changed."""

import json
import os
import posixpath
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.handout.shell import NO_SHELL, HandoutShell
from crumbcoat_site.recipe_cards.pages.drafts import draft_mark, says_draft
from crumbcoat_site.recipe_cards.pages.kept_files import CARD_JSON, EMBED, HANDOUT, MARKDOWN
from crumbcoat_site.recipe_cards.pages.notebook_pages import NotebookPage, notebook_page
from crumbcoat_site.recipe_cards.pictures.formats import THUMBNAIL
from crumbcoat_site.recipe_cards.pictures.ready import Ready, Shown
from crumbcoat_site.recipe_cards.source.prices import load_prices
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from crumbcoat_site.recipe_cards.source.source_errors import SourceError, SourceErrors
from crumbcoat_site.recipe_cards.source.trial_folders import trial_texts


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipePage:
    """The page of a recipe file: its name, the key of its files in the cache, and what lists show of it.

    `pictures` are the name and the facts of each that it shows, `files` their paths from its folder, `slots` the places
    that a picture can have. `amounts` are the name, the amount and the household measure of each ingredient.
    `composition` is fat, sugars and water in g per 100 g. `allergens_absent` are those of egg, milk, gluten and nuts
    that no listed ingredient contains for certain. `keeps` are the places where it keeps, each with the time in s.
    `mark` is what the author sees on a draft; empty for a published recipe. `warnings` are for the log of a build.
    `beside` are the names of the recipes that its notebook shows beside the trials.
    `moved_from` are the addresses that it had before, in `moved_line` of the file that is `shown` so.
    """

    name: str
    key: str
    handout: bool
    title: str
    summary: str
    family: str
    made_for: str
    fat_percent: float | None
    fat_text: str
    cover: Mapping[str, Any] | None
    pictures: Sequence[tuple[str, Mapping[str, Any]]]
    files: Sequence[str]
    slots: Sequence[str]
    folder: Path
    makes: str = ""
    portions: str = ""
    time: str = ""
    amounts: Sequence[Sequence[str]] = ()
    keywords: Sequence[str] = ()
    tools: Sequence[str] = ()
    composition: Sequence[float | None] = (None, None, None)
    allergens_listed: Sequence[str] = ()
    allergens_absent: Sequence[str] = ()
    keeps: Sequence[tuple[str, float]] = ()
    notebook: bool = False
    beside: Sequence[str] = ()
    embed: bool = False
    draft: bool = False
    published: str | None = None
    warnings: tuple[str, ...] = ()
    mark: str = ""
    moved_from: Sequence[str] = ()
    moved_line: int = 1
    shown: str = ""

    @property
    def url(self) -> str:
        """The address from the root of the site."""
        return f"{self.name}/"

    @property
    def cover_file(self) -> Path | None:
        """The file of its cover."""
        return self.folder / str(self.cover["file"]) if self.cover else None

    @property
    def shown_files(self) -> list[str]:
        """The paths in docs_dir of the pictures that it shows."""
        folder = posixpath.dirname(self.name)
        return [posixpath.normpath(posixpath.join(folder, file)) for file in self.files]

    def cover_on(self, start: str) -> Shown | None:
        """Its cover as a small picture on another page, whose address from the root of the site is `start`."""
        if self.cover is None:
            return None
        ready = Ready.of(self.cover["ready"])
        return Shown(ready=ready, stem=self.cover["stem"], start=start, alt="", largest=THUMBNAIL)

    @property
    def in_lists(self) -> str:
        """All that other pages may show of it, as one text: everything but the key of its own files."""
        return json.dumps([getattr(self, name) for name in self.__slots__ if name != "key"], default=str)

    @property
    def places(self) -> dict[str, str]:
        """Where the files of the page go in the site, and the ending of each in the cache."""
        places = {f"{self.name}.md": MARKDOWN, f"{self.name}/card.json": CARD_JSON}
        below = (("handout", HANDOUT, self.handout), ("embed", EMBED, self.embed))
        return places | {f"{self.name}/{folder}/index.html": ending for folder, ending, has in below if has}


@dataclass(frozen=True, slots=True)
class RecipePages:
    """The pages of the recipe files that can be used, and every problem of the others, by the name of the file.

    Problems of other files, and of several recipes, are under the empty name; `drafts` are names of files left
    out. `notebooks` are those of the pages that have one.
    """

    pages: list[RecipePage]
    problems: dict[str, tuple[SourceError, ...]]
    drafts: list[str]
    notebooks: list[NotebookPage]

    def add_problems(self, problems: Sequence[SourceError]) -> None:
        """Add problems that are not those of one recipe file."""
        if problems:
            self.problems[""] = (*self.problems.get("", ()), *problems)


def recipe_pages(
    files: Iterable[RecipeFile],
    prices_file: Path,
    options: CardOptions,
    shell: HandoutShell | None,
    cache: PageCache,
    today: date,
    *,
    with_drafts: bool,
    paper: HandoutShell = NO_SHELL,
    whole: Collection[str] = (),
) -> RecipePages:
    """The pages of all recipe files, in their order.

    Args:
        prices_file: the file of prices, which need not exist.
        options: what the site decides about all of its cards.
        shell: what surrounds a handout; None if there are to be no handouts.
        whole: the names of recipes whose cards are whole in other pages of the site.
        today: the date of the build.
        paper: what surrounds the sheets of a notebook.
        with_drafts: whether drafts are among them, each with its mark; without them, mistakes in them do not count.
    """
    found = RecipePages([], {}, [], [])
    shown: dict[str, RecipeFile] = {}
    prices = None
    try:
        prices = load_prices(prices_file, os.path.relpath(prices_file), cache, options.region)
    except SourceErrors as errors:
        found.problems[""] = errors.errors
    for file in files:
        if not with_drafts and says_draft(file.path.read_bytes()):
            found.drafts.append(file.name)
            continue
        try:
            in_frames = options.to_copy or file.name in whole
            page = recipe_page(file, prices, options if in_frames else options._replace(embed=None), shell, cache)
        except SourceError as error:
            found.problems[file.name] = _problems_of(file) or (error,)
            continue
        mark = draft_mark(page.draft, page.published, today)
        if with_drafts or not mark:
            found.pages.append(replace(page, mark=mark))
            shown[file.name] = file
        else:
            found.drafts.append(file.name)
    for page in found.pages:
        if page.notebook:
            beside = {name: shown[name] for name in page.beside if name in shown}
            found.notebooks.append(notebook_page(shown[page.name], beside, prices, options, paper, cache))
    return found


def _problems_of(file: RecipeFile) -> tuple[SourceError, ...]:
    # Imported here because a build without problems need not load it.
    from crumbcoat_site.recipe_cards.source.every_problem import read_file

    return read_file(file.path, file.shown, file.all_kinds, file.region).problems


def recipe_page(
    file: RecipeFile, prices: str | None, options: CardOptions, shell: HandoutShell | None, cache: PageCache
) -> RecipePage:
    """The page of one recipe file; for the other arguments see `recipe_pages`.

    Args:
        prices: the text of the file of prices.

    Raises:
        SourceError: if the file holds no recipe.
    """
    photos = json.dumps({path: ready and ready.facts for path, ready in file.photos.items()}, sort_keys=True)
    trials = [trial_texts(file.path), file.all_kinds] if file.has_trials else None
    around = json.dumps([options, shell and shell.key, file.kinds, file.region, trials])
    key = cache.key(file.path.read_bytes(), file.name, photos, prices or "", around)
    facts = cache.get(key)
    if facts is None:
        # Imported here because a build that finds every page in the cache need not load calc, its tables and pint.
        from crumbcoat_site.recipe_cards.pages.render_recipe import render_recipe

        facts, files = render_recipe(file, prices, options, shell)
        cache.put(key, facts, files)
    has_embed = options.embed is not None
    return RecipePage(
        name=file.name, key=key, folder=file.path.parent, handout=shell is not None, embed=has_embed, **facts
    )


def recipe_fields(page: RecipePage, cache: PageCache) -> dict[str, object]:
    """The fields of the recipe file as texts, from the page's card.json."""
    card = json.loads(cache.path(page.key, CARD_JSON).read_text(encoding="utf-8"))
    fields: dict[str, object] = card["recipe"]
    return fields
