"""Who makes what: each different batch of a class, and the groups that make it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.lesson.allergies import InRoom, in_room
from crumbcoat_calc.lesson.experiment import Experiment, experiment_of
from crumbcoat_calc.lesson.lesson import WITHOUT, Lesson
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.values.display import list_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A batch of one group, and the groups that make it, counted from 1; recipes are counted from 0.

    `options` are those of the batch. `change` says what is different from the recipe as published, and `label` the same
    in a few words; they are empty if nothing is. `is_control`: it is that of a class experiment, with which the others
    are compared.
    """

    recipe: int
    batch: Batch
    options: BatchOptions
    groups: tuple[int, ...]
    change: str = ""
    label: str = ""
    is_control: bool = False


def made_by(recipes: Sequence[Recipe], lesson: Lesson) -> tuple[tuple[Made, ...], Experiment | None]:
    """What the groups make, recipe by recipe, and the experiment of the class; what no group makes is left out.

    Raises:
        InputError: as `experiment_of` does; at `levels`, if there is too little for a level.
    """
    without = [_without(recipe, lesson) for recipe in recipes]
    apart = lesson.groups_without if lesson.without != WITHOUT[1] and any(without) else frozenset()
    experiment = experiment_of(recipes, lesson, apart)
    if experiment and lesson.without == WITHOUT[1]:
        _check_not_replaced(experiment, without[experiment.recipe])
    found: list[Made] = []
    for number, recipe in enumerate(recipes):
        kinds: dict[tuple[str, float | None], list[int]] = {}
        for group in range(1, lesson.groups + 1):
            if number in lesson.recipes_of(group - 1, len(recipes)):
                room = without[number]
                label = _without_text(room) if room and group in lesson.groups_without else ""
                level = experiment.levels.get(group) if experiment and experiment.recipe == number else None
                kinds.setdefault((label, level), []).append(group)
        for (label, level), groups in kinds.items():
            options = BatchOptions(factor=lesson.batches)
            room = without[number]
            if room and label:
                options = replace(options, replaced=room.replaced, left_out=room.left_out)
            found.append(_made(number, recipe, options, experiment, level, tuple(groups), label))
    return tuple(found), experiment


def _made(
    number: int,
    recipe: Recipe,
    options: BatchOptions,
    experiment: Experiment | None,
    level: float | None,
    groups: tuple[int, ...],
    label: str,
) -> Made:
    change = f"Changed because of an allergy: {label}." if label else ""
    if experiment is None or level is None:
        batch = batch_of(recipe, options)
        return Made(recipe=number, batch=batch, options=options, groups=groups, change=change, label=label)
    is_control = level == experiment.control
    if not is_control:
        recipe, options = experiment.at(recipe, options, level)
        change = f"{change} {experiment.change_text(level, options.factor)}".lstrip()
        label = "; ".join(filter(None, [label, experiment.level_text(level)]))
    try:
        batch = batch_of(recipe, options)
    except InputError as error:
        raise InputError(error.problem, "use a level nearer to the recipe as published", ("levels",)) from None
    return Made(
        recipe=number,
        batch=batch,
        options=options,
        groups=groups,
        change=change,
        label=label,
        is_control=is_control,
    )


def _without(recipe: Recipe, lesson: Lesson) -> InRoom | None:
    """What is changed in a recipe that some groups make without an allergen; None if it stays as published."""
    found = in_room(recipe, lesson.allergies) if lesson.groups_without else None
    return found if found and found.is_avoidable else None


def _check_not_replaced(experiment: Experiment, found: InRoom | None) -> None:
    if found and experiment.ingredient.key in {*found.replaced, *found.left_out}:
        name = experiment.ingredient.name
        raise InputError(f"nobody uses {name}, because of an allergy", "vary something else", ("vary",))


def _without_text(found: InRoom) -> str:
    """What is different in a batch without the allergens in the room, in a few words."""
    changes = [f"{one.instead[1]} instead of {one.name}" for one in found.bringers if one.instead]
    changes += [f"without {one.name}" for one in found.bringers if not one.instead]
    return list_text(changes)


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
