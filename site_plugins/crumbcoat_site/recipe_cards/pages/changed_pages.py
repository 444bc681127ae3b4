"""Which pages `mkdocs serve --dirty` must render again: it goes by the age of files, and pages depend on others."""

import logging
import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Protocol

from crumbcoat_site.recipe_cards.build.kept_templates import KeptTemplates
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage
from crumbcoat_site.recipe_cards.pages.related_recipes import RelatedRecipes


class Source(Protocol):
    """The file that a page is made from."""

    @property
    def abs_src_path(self) -> str | None:
        """Where it is, if it is a file of the writer."""

    @property
    def content_string(self) -> str:
        """What is in it."""


class ChangedPages:
    """What the last build of a served site was made from, the titles of its pages, and the theme's templates."""

    def __init__(self) -> None:
        self._keys: Mapping[str, str] = {}
        self._shared = ""
        self._compared: Sequence[object] = ()
        self._related: Mapping[str, str] = {}
        self.titles: dict[str, str] = {}
        self.templates = KeptTemplates()

    @property
    def places(self) -> frozenset[str]:
        """The pages of the last build, by their places in docs_dir."""
        return frozenset(self._keys)

    def related(self, pages: Sequence[RecipePage]) -> Mapping[str, str]:
        """The related recipes of each recipe as a text, by its name; found again only when a composition changes."""
        compared = [(page.name, page.composition, page.allergens_listed, page.allergens_absent) for page in pages]
        if compared != self._compared:
            self._compared = compared
            recipes = RelatedRecipes(pages)
            found = {page.name: recipes.of(page) for page in pages}
            self._related = {name: repr([(other.name, words) for other, words in near]) for name, near in found.items()}
        return self._related

    def outdated(self, keys: Mapping[str, str], with_directives: Iterable[str], shared: str) -> Callable[[str], bool]:
        """Whether a page, by its place in docs_dir, must be rendered again; keeps what is asked for the next build.

        Args:
            keys: of each page, what its content follows from.
            with_directives: the pages that show other pages.
            shared: what all pages show, such as navigation and settings.
        """
        before, self._keys = self._keys, keys
        is_all_new, self._shared = shared != self._shared, shared
        if is_all_new:  # Other settings may read the same template in another way.
            self.templates = KeptTemplates()
        changed = {place for place, key in keys.items() if before.get(place) != key}
        if changed:
            changed |= set(with_directives)
        return lambda place: is_all_new or place in changed


def age_of(file: Source) -> str:
    """What changes when the file of a page does."""
    return str(os.stat(file.abs_src_path).st_mtime_ns) if file.abs_src_path else file.content_string


def is_not_about_dirty_builds(record: logging.LogRecord) -> bool:
    """Leaves out MkDocs' warning that such a build is likely to be wrong, which it is not with `ChangedPages`."""
    return not record.getMessage().startswith("A 'dirty' build is being performed")
