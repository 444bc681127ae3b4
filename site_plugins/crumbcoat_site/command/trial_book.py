"""A recipe with its trials, as the commands about trials need them."""

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.trials.doubts import is_of_an_older_recipe
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.display import list_text
from crumbcoat_calc.values.region import REGIONS

from crumbcoat_site.command.site_files import SiteFiles, site_of
from crumbcoat_site.command.site_recipes import kinds_and_region
from crumbcoat_site.recipe_cards.source.kinds import OwnKinds
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.recipe_mark import recipe_mark
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.trial_files import read_trials
from crumbcoat_site.recipe_cards.source.trial_folders import is_in_a_trial_folder, next_number, recipe_of


class TrialError(Exception):
    """What was asked for cannot be done; the text has place, problem and remedy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialBook:
    """A recipe file, what is in it, and its trials that can be used; `unusable` are the files of the others.

    `named` is the trial whose file was named in the place of the recipe; `site` is the one that the recipe is in, and
    `own` has that site's own ingredients.
    """

    site: SiteFiles | None
    own: OwnKinds
    path: Path
    recipe: Recipe
    fields: Mapping[str, object]
    made: Sequence[MadeTrial]
    unusable: tuple[str, ...]
    named: MadeTrial | None

    @property
    def shown(self) -> str:
        return os.path.relpath(self.path)

    @property
    def region(self) -> str:
        """That of the site, or the default."""
        return (self.site and self.site.region) or REGIONS[0]

    def trial(self, number: int) -> MadeTrial | None:
        """The trial with a number, if it can be used."""
        return next((made for made in self.made if made.trial.number == number), None)

    @property
    def notes(self) -> list[str]:
        """What is to be known of the trials before anything is concluded from them, a sentence each."""
        notes = []
        if self.unusable:
            files = ", ".join(self.unusable)
            notes.append(f"Not counted, since they cannot be used: {files}. See `crumbcoat check`.")
        mark = recipe_mark(self.fields)
        moved = [str(made.trial.number) for made in self.made if is_of_an_older_recipe(made.trial, mark)]
        if moved:
            trials = "Trial" if len(moved) == 1 else "Trials"
            notes.append(
                f"{trials} {list_text(moved)}: the recipe has changed since, and what is not written there is taken "
                "from it as it is now. See `crumbcoat check`."
            )
        return notes

    @property
    def next_number(self) -> int:
        """The number of the next trial."""
        return next_number(self.path, [made.trial.number for made in self.made])


def open_book(path: Path) -> TrialBook:
    """The trials of a recipe file, or of the recipe that a trial file belongs to.

    Raises:
        TrialError: if the recipe, or the trial that is named, cannot be used.
    """
    site = site_of(path)
    own, region = kinds_and_region(site)
    trial = os.path.relpath(path) if is_in_a_trial_folder(path.as_posix()) else None
    path = recipe_of(path) if trial else path
    shown = os.path.relpath(path)
    if not path.is_file():
        raise TrialError(f"{shown}: there is no such recipe.\n    Fix: name a recipe file, or one of its trials.")
    try:
        recipe, fields = load_recipe(path, shown, own, region)
    except SourceError as error:
        raise TrialError(str(error)) from None
    files = read_trials(path, fields, own, region)
    named = next((made for made in files.notebook.made if made.name == trial), None)
    if trial and not named:
        raise TrialError(f"{trial}: this trial cannot be used.\n    Fix: see `crumbcoat check {trial}`.")
    unusable = tuple(sorted({problem.file for problem in files.problems}))
    return TrialBook(
        site=site,
        own=own,
        path=path,
        recipe=recipe,
        fields=fields,
        made=files.notebook.made,
        unusable=unusable,
        named=named,
    )
