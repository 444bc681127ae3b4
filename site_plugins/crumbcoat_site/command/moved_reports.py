"""Earlier addresses of cards at which there is something else, as a build would find them; drafts count as well."""

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from crumbcoat_site.command.recipes_read import RecipesRead
from crumbcoat_site.command.reports import Report
from crumbcoat_site.command.site_files import SiteFiles
from crumbcoat_site.recipe_cards.pages.moved_pages import moved_problems
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds


@dataclass(frozen=True, slots=True)
class _Moved:
    name: str
    title: str
    moved_from: tuple[str, ...]
    moved_line: int
    shown: str


def moved_reports(site: SiteFiles, kinds: OwnKinds, recipes: RecipesRead) -> list[Report]:
    """A report of each recipe file with such an address."""
    moved = []
    for file in site.recipes:
        read = recipes.read(file, kinds, site.region)
        if read.recipe and read.document:
            name = site.name_of(file)
            line = read.document.line_of(("moved_from",))
            moved.append(_Moved(name, read.recipe.title, read.recipe.moved_from, line, os.path.relpath(file)))
    if not any(one.moved_from for one in moved):
        return []
    return [Report(problem.file, (problem,), ()) for problem in moved_problems(moved, _others(site))]


def _others(site: SiteFiles) -> Iterator[str]:
    """The places in the site of all files that are not recipes."""
    recipes = set(site.recipes)
    for path in site.docs.rglob("*"):
        if path.is_file() and path not in recipes:
            place = path.relative_to(site.docs)
            yield _place(place).as_posix() if path.suffix == ".md" else place.as_posix()


def _place(page: Path) -> Path:
    return page.with_name("index.html") if page.stem in ("index", "README") else page.with_suffix("") / "index.html"
