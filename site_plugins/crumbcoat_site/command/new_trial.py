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

from crumbcoat_site.command.check import own_kinds
from crumbcoat_site.command.site_files import site_of
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.recipe_cards.source.recipe_mark import recipe_mark
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from crumbcoat_site.recipe_cards.source.trial_files import read_trials
from crumbcoat_site.recipe_cards.source.trial_folders import is_in_a_trial_folder, recipe_of, trial_folder

_WIDTH = 110

_TO_FILL_IN = """\
# Take away the # before the lines that you fill in; the others may go.
#
# Only what differs from {origin}, which has {ingredients}.
#changed:
#  ingredients:
#    {key}: 100 g
#  steps:
#    1.1: {{time: 4 min}}
#
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


class TrialError(Exception):
    """The file was not written; the text has place, problem and remedy."""


def write_trial(recipe: Path, came_from: int | None, who: str | None, today: date) -> Path:
    """Write the file of the next trial of a recipe, and give its path.

    Args:
        recipe: a recipe file, or one of its trials, which the new one then comes from.
        came_from: the number of the trial that it changes; None for the recipe.
        who: who makes it.
        today: the date that it gets.

    Raises:
        TrialError: if the recipe or that trial cannot be used.
    """
    site = site_of(recipe)
    own, region = (own_kinds(site.ingredients).kinds, site.region) if site else ({}, None)
    trial = os.path.relpath(recipe) if is_in_a_trial_folder(recipe.as_posix()) else None
    recipe = recipe_of(recipe) if trial else recipe
    shown = os.path.relpath(recipe)
    if not recipe.is_file():
        raise TrialError(f"{shown}: there is no such recipe.\n    Fix: name a recipe file, or one of its trials.")
    try:
        model, fields = load_recipe(recipe, shown, own, region)
    except SourceError as error:
        raise TrialError(str(error)) from None
    made = read_trials(recipe, fields, own, region).notebook.made
    before = _before(came_from, trial, made, shown)
    number = 1 + max([one.trial.number for one in made] + _numbers(recipe), default=0)
    path = trial_folder(recipe) / f"{number}{recipe.suffix}"
    path.parent.mkdir(exist_ok=True)
    origin = f"from: {before.trial.number}" if before else f"recipe: {recipe_mark(fields)} # the recipe as it is today"
    schema = site.config.parent / "trial.schema.json" if site else None
    line = (
        f"# yaml-language-server: $schema={os.path.relpath(schema, path.parent)}" if schema and schema.is_file() else ""
    )
    head = [
        *([line] if line else []),
        f"number: {number}",
        f"date: {today.isoformat()}",
        *([f"who: {who}"] if who else []),
        origin,
    ]
    to_fill_in = _to_fill_in(before.recipe if before else model, before)
    path.write_text("\n".join([*head, "aim: What do you want to know?", to_fill_in]), encoding="utf-8")
    return Path(os.path.relpath(path))


def _before(came_from: int | None, trial: str | None, made: Sequence[MadeTrial], shown: str) -> MadeTrial | None:
    """The trial that the new one comes from: the one with that number, or else the one whose file was named."""
    for one in made:
        if one.trial.number == came_from or (came_from is None and one.name == trial):
            return one
    if came_from is not None:
        numbers = ", ".join(str(one.trial.number) for one in made)
        remedy = f"use one of {numbers}" if numbers else "leave it out for the first trial"
        raise TrialError(f"--from {came_from}: {shown} has no such trial that can be used.\n    Fix: {remedy}.")
    if trial:
        raise TrialError(f"{trial}: this trial cannot be used.\n    Fix: see `crumbcoat check {trial}`.")
    return None


def _numbers(recipe: Path) -> list[int]:
    """The numbers that names of trial files have, those that cannot be read among them."""
    stems = [path.stem for path in trial_folder(recipe).glob(f"*{recipe.suffix}")]
    return [int(stem) for stem in stems if stem.isdecimal() and stem.isascii()]


def _to_fill_in(recipe: Recipe, before: MadeTrial | None) -> str:
    filled = _TO_FILL_IN.format(
        origin=f"trial {before.trial.number}" if before else "the recipe",
        ingredients=", ".join(f"{ingredient.key} {mass_text(ingredient.mass_g)}" for ingredient in recipe.ingredients),
        key=recipe.ingredients[0].key,
        checkpoints=_checkpoints(recipe),
        tests=", ".join(TESTS),
        outcomes=", ".join(OUTCOMES),
        verdicts=", ".join(VERDICTS),
    )
    return "\n".join(part for line in filled.splitlines() for part in _wrapped(line)) + "\n"


def _wrapped(line: str) -> list[str]:
    if len(line) <= _WIDTH:
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
