"""Who makes what: each different batch of a class, and the groups that make it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from crumbcoat_calc.lesson.allergies import InRoom, in_room
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
    found: list[Made] = []
    for number, recipe in enumerate(recipes):
        without = in_room(recipe, lesson.allergies) if lesson.groups_without else None
        kinds: list[tuple[BatchOptions, str, list[int]]] = []
        for group in range(1, lesson.groups + 1):
            if number not in lesson.recipes_of(group - 1, len(recipes)):
                continue
            options, change = BatchOptions(factor=lesson.batches), ""
            if without and without.is_avoidable and group in lesson.groups_without:
                options = replace(options, replaced=without.replaced, left_out=without.left_out)
                change = _without_text(without)
            same = next((groups for known, _, groups in kinds if known == options), None)
            if same is None:
                kinds.append((options, change, [group]))
            else:
                same.append(group)
        found += [
            Made(recipe=number, batch=batch_of(recipe, options), groups=tuple(groups), change=change)
            for options, change, groups in kinds
        ]
    return tuple(found)


def _without_text(found: InRoom) -> str:
    """What is different in a batch without the allergens in the room."""
    changes = [f"{one.instead[1]} instead of {one.name}" for one in found.bringers if one.instead]
    changes += [f"without {one.name}" for one in found.bringers if not one.instead]
    return f"Changed because of an allergy: {list_text(changes)}."


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
