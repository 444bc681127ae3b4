"""The plan of a class's lesson, for the terminal: what a handout shows, or the shortest plan that a solver finds."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.lesson import lesson_from
from crumbcoat_calc.lesson.class_plan import class_plan, letter_of
from crumbcoat_calc.lesson.plan import Job, Plan
from crumbcoat_calc.lesson.planning import plan_of
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.lesson_plan import plan_texts
from crumbcoat_calc.values.display import duration_text

from crumbcoat_site.command.columns import in_columns
from crumbcoat_site.command.site_recipes import recipe_of_file
from crumbcoat_site.shortest_plans.library import REMEDY, is_installed
from crumbcoat_site.shortest_plans.shortest import Shortest, shortest_plan

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
    batches = [batch_of(recipe_of_file(file), BatchOptions(factor=lesson.batches)) for file in files]
    found: list[Shortest] = []

    def planner(jobs: Sequence[Job], tools: Mapping[str, int]) -> Plan:
        if search_s is None:
            return plan_of(jobs, tools)
        found.append(shortest_plan(jobs, tools, search_s))
        return found[-1].plan

    plan = class_plan([batch.recipe for batch in batches], lesson, planner)
    # Where a group's hands are too few for a later lesson, the earlier ones are planned again with more.
    proofs = [_proof(one) for one in found if any(one.plan is its.plan for its in plan.lessons)]
    texts = plan_texts(batches, lesson, plan)
    heads = [f"{letter_of(number, len(batches))}{batch.recipe.title}" for number, batch in enumerate(batches)]
    said = [str(texts[name]) for name in ("plan.summary", "plan.fit", "plan.help", "plan.alone", "plan.assumed")]
    turns = in_columns([*_rows(texts, "plan.head"), *_rows(texts, "plan")], of_words=True)
    tools = in_columns(_rows(texts, "plan.tools"), of_words=True)
    return "\n".join([*heads, "", *filter(None, said), *proofs, "", *turns, "", *tools]).rstrip()


def _proof(found: Shortest) -> str:
    """How much shorter a plan could be."""
    long, least = duration_text(found.plan.length_s), duration_text(found.at_least_s)
    if found.plan.length_s <= found.at_least_s:
        return f"{long} of work: no plan is shorter."
    return f"{long} of work; no plan is shorter than {least}."


def _rows(texts: Texts, name: str) -> list[list[str]]:
    """The rows of a table."""
    rows = texts[name]
    assert not isinstance(rows, str)
    return [row for row in rows if not isinstance(row, dict)]
