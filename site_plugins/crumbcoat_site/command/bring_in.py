"""`crumbcoat bring-in`: drafts of recipe files from saved pages, in a folder of the site."""

import os
import shutil
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from crumbcoat_calc.values.fields import UNPRINTABLE

from crumbcoat_site.bring_in.draft import Draft, Settings, draft_of
from crumbcoat_site.bring_in.found_recipe import FoundRecipe
from crumbcoat_site.bring_in.html_page import NoReaderError
from crumbcoat_site.bring_in.pictures import Pictures, pictures_of
from crumbcoat_site.bring_in.report import RecipeReport, Report
from crumbcoat_site.bring_in.saved_pages import PageProblem, ReadPage, pages_in, read_page
from crumbcoat_site.command.new_recipe import file_name
from crumbcoat_site.command.site_files import SiteFiles, SiteFilesError, site_around
from crumbcoat_site.command.site_recipes import own_kinds

MOST_SAME_NAMES = 99


class BringInError(Exception):
    """Nothing was brought in; the text has place, problem and remedy."""


@dataclass(frozen=True, slots=True)
class _Target:
    """Where drafts go: a folder of the site; nothing is written in a dry run."""

    site: SiteFiles
    folder: Path
    here: Path
    is_dry_run: bool


def bring_in(here: Path, paths: Sequence[Path], folder: Path | None, measures: str, is_dry_run: bool) -> Report:
    """Write a draft for each recipe of the pages, with the pictures that were saved with them.

    Args:
        folder: where in docs_dir; else in its folder `recipes`, if there is one.
        measures: whose cups and spoons all pages mean; empty where each page decides.

    Raises:
        BringInError: if there is no site, the folder is outside of it, or the library for HTML is missing.
    """
    try:
        site = site_around(here)
    except SiteFilesError as error:
        raise BringInError(str(error)) from None
    usual = "recipes" if (site.docs / "recipes").is_dir() else ""
    target = _Target(site, site.docs / (folder or usual), here, is_dry_run)
    if not target.folder.resolve().is_relative_to(site.docs.resolve()):
        docs = os.path.relpath(site.docs, here)
        raise BringInError(
            f"{os.path.relpath(target.folder, here)}: this is outside {docs}.\n    Fix: name a folder in it."
        )
    schema = site.config.parent / "recipe.schema.json"
    shown = os.path.relpath(schema, target.folder)
    head = f"# yaml-language-server: $schema={shown}" if schema.is_file() else ""
    settings = Settings(author=site.author, own=own_kinds(site.ingredients).kinds, measures=measures, head=head)
    report = Report()
    taken: set[str] = set()
    for path in pages_in(paths):
        try:
            page = read_page(path, UNPRINTABLE.sub("?", os.path.relpath(path, here)))
        except NoReaderError as error:
            raise BringInError(str(error)) from None
        report.problems += page.problems
        for found in page.recipes:
            _bring(found, page, settings, target, taken, report)
    return report


def _bring(
    found: FoundRecipe, page: ReadPage, settings: Settings, target: _Target, taken: set[str], report: Report
) -> None:
    """Write one draft and its pictures; a file that is there stays as it is."""
    draft = draft_of(found, settings)
    name = _free_name(draft.title, taken)
    path = target.folder / f"{name}{target.site.suffix}"
    pictures = pictures_of(name, draft.cover, draft.step_pictures, page.path, page.pictures)
    shown = os.path.relpath(path, target.here)
    there = [place for place in (path, *(target.folder / file for file in pictures.files)) if os.path.lexists(place)]
    if there:
        place = os.path.relpath(there[0], target.here)
        remedy = "move that file, or choose another folder with --in"
        report.problems.append(PageProblem(place, f"there is such a file already, for {draft.title[:80]!r}", remedy))
        shown = ""
    elif not target.is_dry_run:
        target.folder.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(draft.text)
        for file_there, source in pictures.files.items():
            shutil.copyfile(source, target.folder / file_there)
    report.recipes.append(_report_of(draft, shown, page, found.syntax, pictures))


def _free_name(title: str, taken: set[str]) -> str:
    """The name of a file that no other draft of this run has."""
    name = file_name(title)
    names = [name, *(f"{name}-{number}" for number in range(2, MOST_SAME_NAMES))]
    free = next((one for one in names if one not in taken), name)
    taken.add(free)
    return free


def _report_of(draft: Draft, shown: str, page: ReadPage, syntax: str, pictures: Pictures) -> RecipeReport:
    return RecipeReport(
        title=draft.title,
        file=shown,
        page=page.shown,
        syntax=syntax,
        measures=draft.system,
        findings=draft.findings.listed,
        moved_from=draft.moved_from,
        lost_addresses=draft.lost_addresses,
        pictures=tuple(pictures.files),
        remote_pictures=pictures.remote,
        unusable_pictures=pictures.unusable,
    )
