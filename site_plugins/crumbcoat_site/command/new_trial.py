"""A new trial file beside its recipe, to fill in at the bench."""

import os
import textwrap
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.trials.model import OUTCOMES, TESTS, VERDICTS
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.display import mass_text
from crumbcoat_calc.values.region import text_in

from crumbcoat_site.command.trial_book import TrialBook, TrialError, open_book
from crumbcoat_site.command.us_kitchen import fahrenheit
from crumbcoat_site.recipe_cards.source.recipe_mark import recipe_mark
from crumbcoat_site.recipe_cards.source.trial_folders import is_in_a_trial_folder, recipe_of, trial_folder

_WIDTH = 110

_CHANGES = """\
# Take away the # before the lines that you fill in; the others may go.
#
# Only what differs from {origin}, which has {ingredients}.
#changed:
#  ingredients:
#    {key}: 100 g
#  steps:
#    1.1: {{time: 4 min}}
#
"""

_TO_FILL_IN = """\
# What was really weighed, where it differs.
#weighed: {{{key}: 101 g}}
#
# `at` is a stage or a step; without it, the finished batch. Also: mass, ph, brix, water_activity, spread, penetration.
#readings:
#  - {{at: 1.1, temperature: 60 °C}}
#  - {{temperature: 20 °C, cup: US cup, cup_weighs: 200 g}}
#mixing: [{{at: 1.1, from: 18 °C, to: 20 °C, time: 5 min}}]
#chilling: [{{from: 30 °C, to: 20 °C, cold: 4 °C, time: 25 min}}]
#
{checkpoints}# Tests: {tests}. What it did: {outcomes}.
#tests:
#  - {{test: keeping, where: in the refrigerator, temperature: 4 °C, time: 1 day, weeping: 0 mm, did: held}}
#tasted: [{{attribute: liking, marks: [7, 8, 6]}}]
#
#did: held
# The verdict is one of: {verdicts}.
#verdict: go on from here
#because: One sentence.
"""


def write_trial(path: Path, came_from: int | None, who: str | None, today: date) -> Path:
    """Write the file of the next trial of a recipe, and give its path.

    Args:
        path: a recipe file, or one of its trials, which the new one then comes from.
        came_from: the number of the trial that it changes; None for the recipe.
        who: who makes it.
        today: the date that it gets.

    Raises:
        TrialError: if the recipe or that trial cannot be used.
    """
    book = open_book(path) if came_from is None else _book_with(path, came_from)
    before = book.named if came_from is None else book.trial(came_from)
    origin = f"trial {before.trial.number}" if before else "the recipe"
    recipe = before.recipe if before else book.recipe
    changes = in_region(book, _CHANGES)
    filled = changes.format(origin=origin, ingredients=_ingredients(book, recipe), key=recipe.ingredients[0].key)
    head = trial_head(book, book.next_number, before, who, today)
    return put_down(book, book.next_number, [*head, "aim: What do you want to know?", *filled.splitlines()], recipe)


def _book_with(path: Path, number: int) -> TrialBook:
    """The trials of a recipe, one of which has this number; the trial that may be named besides need not be usable."""
    recipe = recipe_of(path) if is_in_a_trial_folder(path.as_posix()) else path
    book = open_book(recipe)
    if not book.trial(number):
        numbers = ", ".join(str(made.trial.number) for made in book.made)
        remedy = f"use one of {numbers}" if numbers else "leave it out for the first trial"
        raise TrialError(f"--from {number}: {book.shown} has no such trial that can be used.\n    Fix: {remedy}.")
    return book


def trial_head(book: TrialBook, number: int, before: MadeTrial | None, who: str | None, today: date) -> list[str]:
    """The first lines of a trial: its number, its date, and the recipe or the trial that it changes."""
    origin = (
        f"from: {before.trial.number}" if before else f"recipe: {recipe_mark(book.fields)} # the recipe as it is today"
    )
    return [f"number: {number}", f"date: {today.isoformat()}", *([f"who: {who}"] if who else []), origin]


def put_down(book: TrialBook, number: int, lines: Sequence[str], recipe: Recipe) -> Path:
    """Write a trial file: these lines, and below them everything that can be filled in at the bench.

    Args:
        recipe: what is made, as far as it is known.
    """
    path = trial_folder(book.path) / f"{number}{book.path.suffix}"
    path.parent.mkdir(exist_ok=True)
    schema = book.site.config.parent / "trial.schema.json" if book.site else None
    first = (
        [f"# yaml-language-server: $schema={os.path.relpath(schema, path.parent)}"]
        if schema and schema.is_file()
        else []
    )
    filled = [*first, *lines, *_to_fill_in(book, recipe).splitlines()]
    text = "\n".join([part for line in filled for part in _wrapped(line)]) + "\n"
    path.write_text(text, encoding="utf-8")
    return Path(os.path.relpath(path))


def in_region(book: TrialBook, text: str) -> str:
    """A text without words of the recipe's author, with the degrees that are usual in the region of the site."""
    return fahrenheit(text) if book.region == "US" else text


def _ingredients(book: TrialBook, recipe: Recipe) -> str:
    """Each with its mass, and in front of it the amount as the recipe has it, where that is not in g."""
    found = []
    for ingredient in recipe.ingredients:
        mass = mass_text(ingredient.mass_g)
        written = "" if ingredient.amount.unit == "gram" else text_in(book.region, ingredient.amount.written)
        found.append(f"{ingredient.key} {f'{written} ({mass})' if written else mass}")
    return ", ".join(found)


def _to_fill_in(book: TrialBook, recipe: Recipe) -> str:
    return in_region(book, _TO_FILL_IN).format(
        key=recipe.ingredients[0].key,
        checkpoints=_checkpoints(recipe),
        tests=", ".join(TESTS),
        outcomes=", ".join(OUTCOMES),
        verdicts=", ".join(VERDICTS),
    )


def _wrapped(line: str) -> list[str]:
    if len(line) <= _WIDTH or not line.startswith("#"):
        return [line]
    return textwrap.wrap(line, _WIDTH, subsequent_indent="# ", break_long_words=False, break_on_hyphens=False)


def _checkpoints(recipe: Recipe) -> str:
    """The checkpoints with what to look for, and an entry for what was seen at the first one."""
    found = [
        (f"{stage_number}.{step_number}", step.checkpoint)
        for stage_number, stage in enumerate(recipe.stages, 1)
        for step_number, step in enumerate(stage.steps, 1)
        if step.checkpoint
    ]
    if not found:
        return ""
    lines = [
        f"# Checkpoint {place} passes: {' '.join(checkpoint.passes)} "
        f"Signs of trouble: {' '.join(trouble.sign for trouble in checkpoint.troubles)}"
        for place, checkpoint in found
    ]
    entry = f"#  - {{at: {found[0][0]}, sign: what you saw, remedy: what you did, worked: yes}}"
    return "\n".join([*(" ".join(line.split()) for line in lines), "#seen:", entry, "#\n"])
