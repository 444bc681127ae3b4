"""The pictures of a site, made ready: what each recipe can show, and the files that the site gets."""

import os
import posixpath
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import quote

from crumbcoat_site.recipe_cards.pages.drafts import says_draft
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage
from crumbcoat_site.recipe_cards.pictures.formats import is_picture
from crumbcoat_site.recipe_cards.pictures.kept import PictureCache
from crumbcoat_site.recipe_cards.pictures.prepare import Order, Prepared, prepare
from crumbcoat_site.recipe_cards.pictures.ready import Ready, stem_of
from crumbcoat_site.recipe_cards.source.photo_names import COVER, beside, by_owner, named_in, unused_photos
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.trial_folders import is_in_a_trial_folder


@dataclass(frozen=True, slots=True)
class Published:
    """`files` of the site, by place; the places in docs_dir that they take; and what the author should look at."""

    files: dict[str, Path]
    replaced: list[str]
    problems: list[SourceError]


@dataclass(slots=True)
class SitePictures:
    """The folder of the cache, what one build has used of it, and the problems of recipes' pictures.

    A card can be shown without a picture that cannot be used, with a drawing in its place.
    """

    folder: Path
    _used: set[str] = field(default_factory=set)
    problems: list[SourceError] = field(default_factory=list)
    _may_be_of: dict[str, list[str]] = field(default_factory=dict)

    @property
    def cache(self) -> PictureCache:
        """What is kept of pictures."""
        return PictureCache(self.folder)

    def of_recipes(
        self, recipes: Mapping[str, Path], media: Mapping[str, Path], *, with_drafts: bool
    ) -> dict[str, dict[str, Ready | None]]:
        """For each recipe the pictures that it may show, by the path from its folder; None if one cannot be used.

        Args:
            recipes: the recipe files, by their paths in docs_dir without the ending.
            media: the files in docs_dir that are not pages, by their paths there.
            with_drafts: whether the pictures of drafts are wanted.
        """
        wanted: list[tuple[str, str]] = []
        orders: list[Order] = []
        owned = by_owner(path for path in media if not is_in_a_trial_folder(path))
        for name, file in recipes.items():
            content = file.read_bytes()
            named = [path for path in named_in(content.decode("utf-8", "replace"), name) if path in media]
            paths = sorted({*owned.get(name, ()), *filter(is_picture, named)})
            self._may_be_of[name] = paths
            if not with_drafts and says_draft(content):
                continue
            of_steps = {path for slot, found in beside(name, paths).items() if slot != COVER for path in found}
            for path in paths:
                # What is not a step's by its name may be the cover, which is cut for other programs too.
                cover = posixpath.basename(path) not in of_steps
                wanted.append((name, path))
                orders.append(Order(kind="sizes", file=media[path], inputs={"cover": cover}))
        ready: dict[str, dict[str, Ready | None]] = {name: {} for name in recipes}
        for (name, path), order, made in zip(wanted, orders, self._made(orders), strict=True):
            problem = _problem(order, made)
            if problem and str(problem) not in map(str, self.problems):
                self.problems.append(problem)
            start = posixpath.dirname(name) or "."
            ready[name][posixpath.relpath(path, start)] = None if problem else Ready.of({"key": made.key, **made.facts})
        return ready

    def published(
        self,
        media: Mapping[str, Path],
        pages: Sequence[RecipePage],
        drafts: Iterable[str],
        markdown: str,
        before: Mapping[str, Path],
    ) -> Published:
        """What the site gets of its pictures, and what it gets in their places.

        A picture of a recipe is published in sizes for pages; under its own name only where a page mentions it. All
        other pictures keep their names and formats, upright and without metadata.

        Args:
            media: the files of docs_dir that would be published, by place.
            pages: the pages of the recipes.
            drafts: the recipes that are not published yet; nor are their pictures.
            markdown: the text of all other pages.
            before: the `files` of the build before, while a site is served.
        """
        of_recipes = {path for page in pages for path in page.shown_files}
        files: dict[str, Path] = {}
        for page in pages:
            for stem, facts in page.pictures:
                ready = Ready.of(facts)
                files |= {place: self.cache.path(ready.key, part) for place, part in ready.places(stem)}
        replaced = [place for place in media if is_picture(place)]
        of_drafts = {path for name in drafts for path in self._may_be_of[name]}
        own_name = [place for place in replaced if place not in of_recipes | of_drafts or _is_in(place, markdown)]
        orders = [Order(kind="copy", file=media[place]) for place in own_name]
        problems = []
        for place, order, made in zip(own_name, orders, self._made(orders), strict=True):
            problem = _problem(order, made)
            if problem:
                problems.append(problem)
                continue
            files[place] = self.cache.path(made.key, "copy")
            if files[place] != before.get(place):
                os.utime(files[place])  # MkDocs copies what is newer than the site.
        slots = {page.name: page.slots for page in pages}
        shown = {place: os.path.relpath(path) for place, path in media.items()}
        for place, problem_text, remedy in unused_photos(replaced, slots, of_recipes | of_drafts, markdown):
            problems.append(SourceError(shown[place], 1, problem_text, remedy))
        return Published(files, replaced, problems)

    def social(self, orders: Mapping[str, Order]) -> dict[str, tuple[str, Path]]:
        """For each recipe the place of its social picture in the site, and its file."""
        pictures = dict(zip(orders, self._made(list(orders.values())), strict=True))
        return {
            name: (
                f"assets/pictures/{picture.key[:12]}/{stem_of(posixpath.basename(name))}-social.jpg",
                self.cache.path(picture.key, "social.jpg"),
            )
            for name, picture in pictures.items()
        }

    def prune(self) -> None:
        """Take away what no build has used for a while."""
        self.cache.prune(self._used)

    def _made(self, orders: Sequence[Order]) -> list[Prepared]:
        made = prepare(orders, self.cache)
        self._used |= {picture.key for picture in made}
        return made


def _problem(order: Order, made: Prepared) -> SourceError | None:
    if made.problem is None or order.file is None:
        return None
    problem, remedy = made.problem
    return SourceError(os.path.relpath(order.file), 1, f"the picture cannot be used: {problem}", remedy)


def _is_in(place: str, text: str) -> bool:
    file = posixpath.basename(place)
    return file in text or quote(file) in text
