"""The plan of a class's lesson, for the terminal: what a handout shows, or the shortest plan that a solver finds."""

import os
from collections.abc import Mapping, Sequence
from pathlib import Path

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.lesson import lesson_from
from crumbcoat_calc.lesson.class_plan import class_plan
from crumbcoat_calc.lesson.plan import Job, Plan
from crumbcoat_calc.lesson.planning import plan_of
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.lesson_plan import plan_texts
from crumbcoat_calc.values.display import duration_text

from crumbcoat_site.command.check import own_kinds
from crumbcoat_site.command.site_files import site_of
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.shortest_plans.library import REMEDY, is_installed
from crumbcoat_site.shortest_plans.shortest import shortest_plan

MOST_RECIPES = 4


def lesson_text(files: Sequence[Path], fields: Mapping[str, str], search_s: float | None) -> str:
    """The plan of a class that makes these recipes, as lines of text.

    Args:
        fields: the fields of a handout, as written.
        search_s: how long a solver may search for the shortest plan, in s; None for the plan of the handout.

    Raises:
        SourceError: if a file holds no recipe.
        InputError: if a field cannot be used, or the solver is not installed.
    """
    if len(files) > MOST_RECIPES:
        raise InputError(f"{len(files)} recipes are too many for one lesson", f"name up to {MOST_RECIPES}")
    if search_s is not None and not is_installed():
        raise InputError("the solver for shortest plans is not installed", REMEDY)
    lesson = lesson_from(fields)
    batches = [batch_of(_recipe(file), BatchOptions(factor=lesson.batches)) for file in files]
    proofs: list[str] = []

    def planner(jobs: Sequence[Job], tools: Mapping[str, int]) -> Plan:
        if search_s is None:
            return plan_of(jobs, tools)
        found = shortest_plan(jobs, tools, search_s)
        long, least = duration_text(found.plan.length_s), duration_text(found.at_least_s)
        shortest = found.plan.length_s <= found.at_least_s
        proofs.append(
            f"{long} of work: no plan is shorter." if shortest else f"{long} of work; no plan is shorter than {least}."
        )
        return found.plan

    texts = plan_texts(batches, lesson, class_plan([batch.recipe for batch in batches], lesson, planner))
    titles = [f"{letter} {batch.recipe.title}" for letter, batch in zip("ABCD", batches, strict=False)]
    said = [str(texts[name]) for name in ("plan.summary", "plan.fit", "plan.help", "plan.alone", "plan.assumed")]
    heads = titles if len(batches) > 1 else [batches[0].recipe.title]
    tables = [*_table([*_rows(texts, "plan.head"), *_rows(texts, "plan")]), "", *_table(_rows(texts, "plan.tools"))]
    return "\n".join([*heads, "", *(line for line in said if line), *proofs, "", *tables]).rstrip()


def _rows(texts: Texts, name: str) -> list[list[str]]:
    """The rows of a table."""
    rows = texts[name]
    assert not isinstance(rows, str)
    return [row for row in rows if not isinstance(row, dict)]


def _table(rows: Sequence[Sequence[str]]) -> list[str]:
    """Rows with all columns to the left."""
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    return ["  ".join(map(str.ljust, row, widths)).rstrip() for row in rows]


def _recipe(file: Path) -> Recipe:
    site = site_of(file)
    kinds, region = (own_kinds(site.ingredients).kinds, site.region) if site else ({}, None)
    return load_recipe(file, os.path.relpath(file), kinds, region)[0]
