"""Checks recipe files and what is beside them: every problem of each, and what is worth a second look."""

import os
from collections.abc import Iterable
from pathlib import Path

from crumbcoat_site.command.moved_reports import moved_reports
from crumbcoat_site.command.option_reports import option_reports
from crumbcoat_site.command.picture_reports import picture_problems, unused_pictures
from crumbcoat_site.command.price_warnings import unused_prices
from crumbcoat_site.command.recipe_warnings import warnings_for
from crumbcoat_site.command.recipes_read import RecipesRead
from crumbcoat_site.command.reports import Report
from crumbcoat_site.command.site_files import SiteFiles, recipes_below, site_of
from crumbcoat_site.command.site_recipes import own_kinds
from crumbcoat_site.command.trial_reports import lost_trials, trial_reports
from crumbcoat_site.recipe_cards.pages.drafts import says_draft
from crumbcoat_site.recipe_cards.pages.story_pages import read_stories
from crumbcoat_site.recipe_cards.pages.written_directives import directive_problems
from crumbcoat_site.recipe_cards.source.file_text import text_of
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds
from crumbcoat_site.recipe_cards.source.notebook_beside import lost_beside
from crumbcoat_site.recipe_cards.source.own_ingredients import SiteIngredients
from crumbcoat_site.recipe_cards.source.prices import prices_text
from crumbcoat_site.recipe_cards.source.source_errors import SourceError, SourceErrors
from crumbcoat_site.recipe_cards.source.stories import recipe_of_story, with_others
from crumbcoat_site.recipe_cards.source.trial_folders import is_in_a_trial_folder


def check_files(files: Iterable[Path], recipes: RecipesRead, with_warnings: bool = True) -> list[Report]:
    """A report of each file, in their order; first, of the lists of ingredients of their sites that have problems.

    Args:
        recipes: what has been read already, and is read here.
    """
    files = list(files)
    sites = {folder: site_of(folder / "file") for folder in {file.parent for file in files}}
    own = {site.ingredients: own_kinds(site.ingredients) for site in sites.values() if site}
    reports = [Report(os.path.relpath(path), own[path].problems, ()) for path in sorted(own) if own[path].problems]
    for file in files:
        site = sites[file.parent]
        if file.suffix == ".csv":
            reports += _prices(file, site, own[site.ingredients].kinds if site else {}, recipes, with_warnings)
            continue
        if site and file.resolve() == site.ingredients.resolve():
            reports += _ingredients(file, own[site.ingredients])
            continue
        kinds, region = (own[site.ingredients].kinds, site.region) if site else ({}, None)
        if is_in_a_trial_folder(file.as_posix()):
            reports += trial_reports(file, kinds, region, recipes, with_warnings)
            continue
        reports.append(_report(file, site, kinds, recipes, with_warnings))
        reports += trial_reports(file, kinds, region, recipes, with_warnings)
    return reports


def _report(file: Path, site: SiteFiles | None, kinds: OwnKinds, recipes: RecipesRead, with_warnings: bool) -> Report:
    """The report of one file; a file with problems has no warnings yet."""
    region = site.region if site else None
    read = recipes.read(file, kinds, region)
    shown = os.path.relpath(file)
    if read.recipe is None or read.document is None:
        return Report(shown, read.problems, ())
    problems = list(read.problems)
    if site:
        known = [name for name in read.recipe.notebook.beside if (site.docs / f"{name}{site.suffix}").is_file()]
        problems += lost_beside(read.recipe, read.document, shown, known)
    problems += picture_problems(read.recipe, read.document, file, site, recipes)
    warnings = warnings_for(read.recipe, read.document, file, region) if with_warnings else ()
    return Report(shown, tuple(problems), warnings)


def check_site(site: SiteFiles, recipes: RecipesRead, with_warnings: bool = True) -> list[Report]:
    """The reports of a site's files that are not recipes."""
    own = own_kinds(site.ingredients)
    return [
        *option_reports(site),
        *_ingredients(site.ingredients, own),
        *_prices(site.prices, site, own.kinds, recipes, with_warnings),
        *lost_trials(site.docs, site.suffix),
        *moved_reports(site, own.kinds, recipes),
        *_pages(site.docs, site.suffix, site.ingredients),
        *(unused_pictures(site, own.kinds, recipes) if with_warnings else ()),
    ]


def _ingredients(file: Path, own: SiteIngredients) -> list[Report]:
    """The report of the file of the site's own ingredients, if there is one; its problems are with those of recipes."""
    return [Report(os.path.relpath(file), (), ())] if file.is_file() and not own.problems else []


def _prices(
    file: Path, site: SiteFiles | None, own: OwnKinds, recipes: RecipesRead, with_warnings: bool
) -> list[Report]:
    """The report of the file of prices, if there is one."""
    if not file.is_file():
        return []
    content, shown = file.read_bytes(), os.path.relpath(file)
    try:
        checked = prices_text(content, shown, site.region if site else None)
    except SourceErrors as errors:
        return [Report(shown, errors.errors, ())]
    if site is None or not with_warnings:
        return [Report(shown, (), ())]
    return [Report(shown, (), unused_prices(content.decode("utf-8"), checked, site, own, recipes))]


def _pages(docs: Path, suffix: str, ingredients: Path) -> list[Report]:
    """The reports of the pages with a directive that cannot be used, or a comment that was meant for one."""
    names: list[str] = []
    drafts: list[str] = []
    for file in recipes_below(docs, suffix):
        if file == ingredients:
            continue
        name = file.relative_to(docs).as_posix().removesuffix(suffix)
        (drafts if says_draft(file.read_bytes()) else names).append(name)
    reports = []
    for page in sorted(docs.rglob("*.md")):
        shown = os.path.relpath(page)
        own = recipe_of_story(page.relative_to(docs).as_posix())
        try:
            problems = directive_problems(text_of(page, shown), shown, sorted(names), drafts, own)
        except SourceError as error:
            problems = [error]
        if problems:
            reports.append(Report(shown, tuple(problems), ()))
    stories = {page.relative_to(docs).as_posix(): page for page in docs.rglob("*.md") if recipe_of_story(page.name)}
    of_stories = read_stories(with_others(stories), [*names, *drafts], drafts)[1]
    return reports + [Report(problem.file, (problem,), ()) for problem in of_stories]
