"""A trial becomes the recipe: its file is changed where the trial differs, and the recipe as it was is kept."""

import difflib
import os
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.trial_words import PUBLISH
from crumbcoat_calc.trials.changing import is_same_batch
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.outcomes import HELD, outcome_of
from crumbcoat_calc.trials.published import published_fields

from crumbcoat_site.command.edit_yaml import edited, put_differences
from crumbcoat_site.command.trial_book import TrialBook, TrialError, open_book
from crumbcoat_site.recipe_cards.source.file_text import text_of
from crumbcoat_site.recipe_cards.source.read_recipe import read_recipe
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.trial_folders import is_in_a_trial_folder, recipe_of, trial_folder


@dataclass(frozen=True, slots=True)
class Publication:
    """What publishing a trial changes: the new text of each file by its path; `diff` is that of the recipe.

    `notes` say what the difference alone does not, a sentence or two each.
    """

    recipe: Path
    version: Path
    files: Mapping[Path, str]
    diff: str
    notes: tuple[str, ...]

    def write(self) -> None:
        """Write every file, each whole or not at all; the recipe last."""
        for path, text in self.files.items():
            beside = path.with_name(f".{path.name}.new")
            beside.write_text(text, encoding="utf-8", newline="")
            os.replace(beside, path)


def publication_of(trial: Path, today: date) -> Publication:
    """What has to be written for a trial to become the recipe; nothing is written yet.

    The recipe as it was is kept beside the trials as a version, and the trials that changed it say so from then on.

    Args:
        trial: the file of the trial.
        today: the day, which a recipe that is published has as `updated` from then on.

    Raises:
        TrialError: if it cannot be used, or changes nothing.
    """
    shown = os.path.relpath(trial)
    if not is_in_a_trial_folder(trial.as_posix()) or not trial.is_file():
        raise TrialError(f"{shown}: this is not a trial file.\n    Fix: name one, such as `lemon-cream.trials/3.yaml`.")
    if not recipe_of(trial).is_file():
        raise TrialError(f"{shown}: there is no recipe for it.\n    Fix: see `crumbcoat check {shown}`.")
    book = open_book(trial)
    recipe, fields, made = book.path, book.fields, book.named
    assert made is not None  # A trial that is named and cannot be used is an error of `open_book`.
    new = _new_fields(made, book)
    text = text_of(recipe, book.shown)

    def put(content: Any) -> None:
        put_differences(content, fields, new)
        if "published" in content and str(fields["published"]) <= today.isoformat():
            if "updated" not in content:
                content.insert(list(content).index("published") + 1, "updated", today)
            content["updated"] = today

    new_text = edited(text, put)
    try:
        _, read = read_recipe(new_text, book.shown, book.own, book.site.region if book.site else None)
    except (SourceError, InputError) as error:
        raise TrialError(f"{shown}: the recipe that it makes cannot be read: {error}") from None
    if not is_same_batch(read, new):
        problem = f"{shown}: its changes cannot be written into {book.shown} without loss."
        raise TrialError(f"{problem}\n    Fix: change the recipe by hand.")
    version = _next_version(recipe)
    files = {version: text} | _rooted(book, version.stem) | {recipe: new_text}
    before = os.path.relpath(version)
    diff = difflib.unified_diff(text.splitlines(), new_text.splitlines(), before, book.shown, n=1, lineterm="")
    return Publication(recipe, version, files, "\n".join(diff), _notes(made, fields, new))


def _notes(made: MadeTrial, before: Mapping[str, object], after: Mapping[str, object]) -> tuple[str, ...]:
    notes = []
    if "measured" in before and "measured" not in after:
        notes.append("`measured` is gone: it was of the recipe before. Weigh a level cup of this one.")
    did = outcome_of(made.trial)
    if did not in (None, HELD):
        notes.append(f"The trial says of this batch: {did}.")
    verdict = made.trial.verdict
    if verdict not in (None, PUBLISH):
        notes.append(f"The verdict of the trial is `{verdict}`, not `{PUBLISH}`.")
    return tuple(notes)


def _new_fields(made: MadeTrial, book: TrialBook) -> dict[str, Any]:
    """The fields of the recipe after the trial: what was measured is that of the trial, and `made` counts its like."""
    new = published_fields(book.fields, made)
    if is_same_batch(new, book.fields):
        raise TrialError(f"{made.name}: this trial is the recipe as it is.\n    Fix: there is nothing to publish.")
    tried = [one for one in book.made if one.trial.was_made]
    alike = [one for one in tried if is_same_batch(published_fields(book.fields, one), new)]
    return {**new, "made": str(len(alike))}


def _next_version(recipe: Path) -> Path:
    numbers = [
        int(path.stem[1:]) for path in trial_folder(recipe).glob(f"v*{recipe.suffix}") if path.stem[1:].isdecimal()
    ]
    return trial_folder(recipe) / f"v{1 + max(numbers, default=0)}{recipe.suffix}"


def _rooted(book: TrialBook, version: str) -> dict[Path, str]:
    """The trials that changed the recipe as it was, each with its version in the place of the mark."""
    files = {}
    for made in book.made:
        if made.trial.came_from is not None:
            continue
        path = trial_folder(book.path) / Path(made.name).name

        def put_version(content: Any) -> None:
            place = list(content).index("recipe") if "recipe" in content else list(content).index("date") + 1
            content.pop("recipe", None)
            content.insert(place, "from", version)

        files[path] = edited(text_of(path, made.name), put_version)
    return files
