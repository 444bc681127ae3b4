"""The pages of recipes' trials, each from the cache if nothing that it depends on has changed."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from crumbcoat_site.recipe_cards.build.assets import NOTEBOOK, PAGES
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.handout.shell import HandoutShell
from crumbcoat_site.recipe_cards.pages.kept_files import (
    ISLANDS,
    MARKDOWN,
    NOTEBOOK_ISLANDS,
    NOTEBOOK_MARKDOWN,
    TRIAL_SHEETS,
)
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.trial_folders import FOLDER_ENDING, trial_folder, trial_texts


@dataclass(frozen=True, slots=True, kw_only=True)
class NotebookPage:
    """The page of a recipe's trials: the name of the recipe, and the key of its files in the cache.

    `problems` are those of trials that cannot be used, and `pictures` the files of the trials' folder that it shows.
    `cards` are those of its trials, where the site has them.
    """

    name: str
    key: str
    title: str
    problems: tuple[SourceError, ...]
    pictures: tuple[str, ...]
    cards: tuple["TrialCard", ...] = ()

    islands: ClassVar[str] = NOTEBOOK_ISLANDS
    sheets: ClassVar[tuple[str, ...]] = (PAGES, NOTEBOOK)

    @property
    def place(self) -> str:
        """Where it is in docs_dir, for MkDocs."""
        return f"{self.name}/trials.md"

    @property
    def places(self) -> dict[str, str]:
        """Where its files go in the site, and the ending of each in the cache."""
        return {self.place: NOTEBOOK_MARKDOWN, f"{self.name}/trials/sheets/index.html": TRIAL_SHEETS}

    @property
    def pages(self) -> "tuple[NotebookPage | TrialCard, ...]":
        """It and the cards of its trials."""
        return self, *self.cards

    def shows(self, path: str) -> bool:
        """Whether a file in docs_dir is one of its pictures."""
        folder, _, file = path.rpartition("/")
        return folder == f"{self.name}{FOLDER_ENDING}" and file in self.pictures


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialCard:
    """The card of a trial: the name of its recipe, its number, and the key of its files in the cache."""

    name: str
    number: int
    key: str

    problems: ClassVar[tuple[SourceError, ...]] = ()
    islands: ClassVar[str] = ISLANDS
    sheets: ClassVar[tuple[str, ...]] = ()

    @property
    def place(self) -> str:
        """Where it is in docs_dir, for MkDocs."""
        return f"{self.name}/trials/{self.number}.md"

    @property
    def places(self) -> dict[str, str]:
        """Where its file goes in the site, and its ending in the cache."""
        return {self.place: MARKDOWN}


def notebook_page(
    file: RecipeFile,
    beside: Mapping[str, RecipeFile],
    prices: str | None,
    options: CardOptions,
    paper: HandoutShell,
    cache: PageCache,
) -> NotebookPage:
    """The page of the trials beside a recipe file, which can be read.

    Args:
        beside: the files of the other recipes that it shows beside the trials, by name.
        prices: the text of the file of prices.
        paper: what surrounds its sheets to print.
        options: what the site decides about all of its cards.
    """
    folder = sorted(trial_folder(file.path).iterdir())
    around = [
        options,
        paper.key,
        file.all_kinds,
        file.region,
        trial_texts(file.path),
        [path.name for path in folder],
        file.shown,
        [(name, other.path.read_text("utf-8", "replace")) for name, other in beside.items()],
    ]
    key = cache.key(file.path.read_bytes(), "notebook", file.name, json.dumps(around), prices or "")
    facts: Mapping[str, Any] | None = cache.get(key)
    if facts is None or any(cache.get(card) is None for _, card in facts["cards"]):
        # Imported here because a build that finds every page in the cache need not load calc.
        from crumbcoat_site.recipe_cards.pages.render_notebook import render_notebook

        facts, files = render_notebook(file, beside, prices if options.show_cost else None, options, paper, cache)
        cache.put(key, facts, files)
    return NotebookPage(
        name=file.name,
        key=key,
        title=facts["title"],
        problems=tuple(SourceError(*problem) for problem in facts["problems"]),
        pictures=tuple(facts["pictures"]),
        cards=tuple(TrialCard(name=file.name, number=number, key=card) for number, card in facts["cards"]),
    )
