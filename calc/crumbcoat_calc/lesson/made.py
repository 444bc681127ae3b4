"""Who makes what: each different batch of a class, and the groups that make it."""

from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_calc.lesson.lesson import Lesson
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.values.display import list_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A batch of one group, and the groups that make it, counted from 1; recipes are counted from 0.

    `change` says what is different from the recipe as published; it is empty if nothing is.
    """

    recipe: int
    batch: Batch
    groups: tuple[int, ...]
    change: str = ""


def made_by(recipes: Sequence[Recipe], lesson: Lesson) -> tuple[Made, ...]:
    """What the groups make, recipe by recipe; a recipe that no group makes is left out."""
    options = BatchOptions(factor=lesson.batches)
    found = []
    for number, recipe in enumerate(recipes):
        groups = tuple(
            [group for group in range(1, lesson.groups + 1) if number in lesson.recipes_of(group - 1, len(recipes))]
        )
        if groups:
            found.append(Made(recipe=number, batch=batch_of(recipe, options), groups=groups))
    return tuple(found)


def groups_text(groups: Sequence[int]) -> str:
    """Groups by their numbers, three or more in a row as a range.

    >>> groups_text([6]), groups_text([1, 4]), groups_text([1, 2, 3, 6])
    ('group 6', 'groups 1 and 4', 'groups 1 to 3 and 6')
    """
    runs: list[list[int]] = []
    for group in groups:
        if runs and runs[-1][-1] == group - 1:
            runs[-1].append(group)
        else:
            runs.append([group])
    parts = [
        part for run in runs for part in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(group) for group in run])
    ]
    return f"{'group' if len(groups) == 1 else 'groups'} {list_text(parts)}"
