"""Checks the trials of a recipe: every problem, and what can hardly be."""

import os
from collections.abc import Sequence
from pathlib import Path

from crumbcoat_calc.trials.doubts import doubts_of

from crumbcoat_site.command.recipe_warnings import RecipeWarning
from crumbcoat_site.command.recipes_read import RecipesRead
from crumbcoat_site.command.reports import Report
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds
from crumbcoat_site.recipe_cards.source.recipe_mark import recipe_mark
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.trial_files import TrialFiles, read_trials
from crumbcoat_site.recipe_cards.source.trial_folders import (
    FOLDER_ENDING,
    is_in_a_trial_folder,
    recipe_of,
    trial_folder,
)


def trial_reports(
    file: Path, own: OwnKinds, region: str | None, recipes: RecipesRead, with_warnings: bool
) -> list[Report]:
    """The reports of the trials of a recipe file; or of a single one, if that is the file.

    While the recipe itself cannot be read there is none: its own report says why.

    Args:
        own: the site's own ingredients.
        region: that of the site, if it has one.
        recipes: what has been read already.
    """
    alone = os.path.relpath(file) if is_in_a_trial_folder(file.as_posix()) else None
    recipe = recipe_of(file) if alone else file
    if not trial_folder(recipe).is_dir():
        return []
    if not recipe.is_file():
        return [_without_recipe(alone or os.path.relpath(recipe), recipe)]
    read = recipes.read(recipe, own, region)
    fields = read.fields
    if fields is None:
        remedy = f"put that right first: {os.path.relpath(recipe)}"
        problem = f"the recipe of this trial cannot be read: {read.problems[0].problem}"
        return [Report(alone, (SourceError(alone, 1, problem, remedy),), ())] if alone else []
    found = read_trials(recipe, fields, own, region)
    reports = _by_file(found, recipe_mark(fields) if with_warnings else None)
    return [report for report in reports if alone in (None, report.file)]


def lost_trials(docs: Path, suffix: str) -> list[Report]:
    """The reports of the folders of trials that have no recipe beside them."""
    folders = sorted(path for path in docs.rglob(f"*{FOLDER_ENDING}") if path.is_dir())
    recipes = [(folder, recipe_of(folder / f"1{suffix}")) for folder in folders]
    return [_without_recipe(os.path.relpath(folder), recipe) for folder, recipe in recipes if not recipe.is_file()]


def _without_recipe(shown: str, recipe: Path) -> Report:
    problem = f"there is no recipe for these trials: {os.path.relpath(recipe)}"
    remedy = f"give the folder the name of its recipe file, with `{FOLDER_ENDING}` at the end"
    return Report(shown, (SourceError(shown, 1, problem, remedy),), ())


def _by_file(found: TrialFiles, mark: str | None) -> Sequence[Report]:
    doubts: dict[str, list[RecipeWarning]] = {}
    for made in found.notebook.made if mark else ():
        document = found.documents[made.name]
        doubts[made.name] = [
            RecipeWarning(document.line_of(path), "trial", f"{text}.", f"{hint}.")
            for path, text, hint in doubts_of(made, mark or "")
        ]
    files = sorted({*found.documents, *(problem.file for problem in found.problems)})
    return [
        Report(
            file,
            tuple(problem for problem in found.problems if problem.file == file),
            tuple(doubts.get(file, ())),
        )
        for file in files
    ]
