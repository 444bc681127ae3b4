"""The trials of a plan for two ingredients: files, weigh sheets in random order with blind codes, and the key."""

import os
import random
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.ingredients import amount_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.trials.next_step import batch_with
from crumbcoat_calc.trials.plans import Bounds, change_at, points_of
from crumbcoat_calc.values.display import mass_text, number_text
from crumbcoat_calc.values.fields import did_you_mean

from crumbcoat_site.command.new_trial import put_down, trial_head
from crumbcoat_site.command.next_trial import changed_lines
from crumbcoat_site.command.trial_book import TrialBook, TrialError
from crumbcoat_site.recipe_cards.source.trial_folders import trial_folder


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One batch of a plan: its trial number, blind code, levels and what is made."""

    number: int
    code: str
    levels: tuple[int, int]
    recipe: Recipe


def bounds_from(book: TrialBook, written: Sequence[tuple[str, str, str]]) -> tuple[Bounds, Bounds]:
    """The bounds of two ingredients, each as its short name, `160..220` and a unit.

    Raises:
        TrialError: at what cannot be used.
    """
    recipe = book.named.recipe if book.named else book.recipe
    if len(written) != 2 or written[0][0] == written[1][0]:
        remedy = "give it for two ingredients, such as `--vary butter 160..220 g --vary sugar 120..180 g`"
        raise TrialError(f"--vary: a plan is for two ingredients.\n    Fix: {remedy}.")
    first, second = [_bounds(recipe, *one) for one in written]
    return first, second


def _bounds(recipe: Recipe, key: str, ends: str, unit: str) -> Bounds:
    shown = f"--vary {key} {ends} {unit}"
    found = next((one for one in recipe.ingredients if one.key == key), None)
    if found is None:
        remedy = did_you_mean(key, [one.key for one in recipe.ingredients], "use the short name of an ingredient")
        raise TrialError(f"{shown}: the recipe has no ingredient {key!r}.\n    Fix: {remedy}.")
    low, points, high = ends.partition("..")
    try:
        low_g, high_g = [amount_of(found.food, f"{end} {unit}").mass_g for end in (low, high or low)]
    except InputError as error:
        raise TrialError(f"{shown}: {error.problem}.\n    Fix: {error.remedy}.") from None
    if not points or not 0 < low_g < high_g:
        raise TrialError(
            f"{shown}: these are not two bounds.\n    Fix: write the lower one first, such as `160..220 g`."
        )
    return Bounds(key, low_g, high_g)


def write_plan(
    book: TrialBook, bounds: tuple[Bounds, Bounds], plan: str, centres: int, seed: int, who: str | None, today: date
) -> list[Path]:
    """Write the trials of a plan, its weigh sheets and its key, and give their paths.

    Args:
        book: with a trial that is named, the plan changes that one; otherwise the recipe.
        plan: a key of PLANS.
        centres: how often the centre is made.
        seed: what the order and the codes are drawn with.

    Raises:
        TrialError: if a point makes no recipe.
    """
    chance = random.Random(seed)
    points = points_of(plan, centres)
    chance.shuffle(points)
    taken = {made.trial.code for made in book.made}
    free = [code for code in map(str, range(100, 1000)) if code not in taken]
    codes = chance.sample(free, len(points))
    base = book.named.planned if book.named else book.fields
    try:
        runs = [
            Run(number=number, code=code, levels=levels, recipe=batch_with(base, change_at(bounds, levels)).recipe)
            for number, code, levels in zip(
                range(book.next_number, book.next_number + len(points)), codes, points, strict=True
            )
        ]
    except InputError as error:
        problem = f"--vary: within these bounds there is no batch: {error.problem}"
        raise TrialError(f"{problem}.\n    Fix: {error.remedy}.") from None
    number = 1 + max([made.trial.plan or 0 for made in book.made], default=0)
    folder = trial_folder(book.path)
    written = [_write(book, number, run, bounds, who, today) for run in runs]
    for name, text in (
        (f"plan-{number}.sheets.txt", _sheets(book, number, runs)),
        (f"plan-{number}.key.txt", _key(book, number, plan, seed, bounds, runs)),
    ):
        (folder / name).write_text(text, encoding="utf-8")
        written.append(Path(os.path.relpath(folder / name)))
    return written


def _write(book: TrialBook, plan: int, run: Run, bounds: Sequence[Bounds], who: str | None, today: date) -> Path:
    head = trial_head(book, run.number, book.named, who, today)
    lines = [f"plan: {plan}", f"code: {run.code}", *changed_lines(change_at(bounds, run.levels), run.recipe, book)]
    return put_down(book, run.number, [*head, *lines], run.recipe)


def _sheets(book: TrialBook, plan: int, runs: Sequence[Run]) -> str:
    """A sheet for each batch, in the order in which they are made; a form feed begins a page."""
    return "\f".join([_sheet(book, plan, place, len(runs), run) for place, run in enumerate(runs, 1)])


def _sheet(book: TrialBook, plan: int, place: int, count: int, run: Run) -> str:
    weighed = [
        (f"{one.name}, {part.key}" if part else one.name, part.mass_g if part else one.mass_g)
        for one in run.recipe.ingredients
        for part in one.portions or (None,)
    ]
    width = max(len(name) for name, _ in weighed)
    rows = [
        f"    [ ]  {name.ljust(width)}  {number_text(mass_g, 1).rjust(8)} g    weighed: ________ g"
        for name, mass_g in weighed
    ]
    return "\n".join(
        [
            f"{book.recipe.title}, plan {plan}: batch {place} of {count}",
            f"Code {run.code}",
            "",
            *rows,
            "",
            f"    What was read and seen goes into the trial file {run.number}{book.path.suffix}.",
            f"    Label the bowl with {run.code} and nothing else.",
            "",
        ]
    )


def _key(book: TrialBook, plan: int, kind: str, seed: int, bounds: Sequence[Bounds], runs: Sequence[Run]) -> str:
    ranges = ", ".join(f"{one.ingredient} {mass_text(one.low_g)} to {mass_text(one.high_g)}" for one in bounds)
    names = [one.ingredient for one in bounds]
    head = ["order", "trial", "code", *names]
    rows = [
        [str(place), str(run.number), run.code]
        + [f"{number_text(one.amount_g(level), 1)} g" for one, level in zip(bounds, run.levels, strict=True)]
        for place, run in enumerate(runs, 1)
    ]
    widths = [max(len(cell) for cell in column) for column in zip(head, *rows, strict=True)]
    table = ["  ".join(cell.rjust(width) for cell, width in zip(row, widths, strict=True)) for row in [head, *rows]]
    return "\n".join(
        [
            f"{book.recipe.title}, plan {plan} ({kind}): {ranges}.",
            f"The order and the codes were drawn with the seed {seed}. Keep this from those who taste.",
            "",
            *table,
            "",
        ]
    )
