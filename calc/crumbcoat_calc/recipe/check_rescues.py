"""Checks that everything kept back is for one checkpoint, and that checkpoints add nothing else."""

from collections.abc import Iterator

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.model import Recipe, Use
from crumbcoat_calc.values.fields import did_you_mean


def kept_back_of(recipe: Recipe) -> set[Use]:
    """The parts that are kept back."""
    return {
        Use(what=ingredient.key, portion=part.key) for ingredient in recipe.ingredients for part in ingredient.kept_back
    }


def rescue_problems(recipe: Recipe) -> Iterator[InputError]:
    """Every part that a checkpoint cannot add, and every part kept back that no checkpoint adds."""
    kept_back = kept_back_of(recipe)
    places: dict[Use, tuple[int, int]] = {}
    is_any_unknown = False
    for place, path, use in _rescues(recipe):
        if use not in kept_back:
            is_any_unknown = True
            yield _not_kept_back(use, kept_back).within(*path)
        elif places.setdefault(use, place) != place:
            before = places[use]
            yield InputError(
                f"{use.written!r} is already kept for the checkpoint in stage {before[0] + 1}, step {before[1] + 1}",
                "keep back a part of its own for each checkpoint",
                path,
            )
    for use in sorted(kept_back - places.keys(), key=lambda use: use.written) if not is_any_unknown else ():
        yield InputError(
            f"no checkpoint uses {use.written!r}",
            f"write `add: {use.written}` at the trouble that it is for, or delete it here",
            ("ingredients", use.what, "kept_back", str(use.portion)),
        )


def _rescues(recipe: Recipe) -> Iterator[tuple[tuple[int, int], tuple[str | int, ...], Use]]:
    """Everything that a checkpoint adds: its stage and step, its path in the recipe file, and what it is."""
    for stage_number, stage in enumerate(recipe.stages):
        for step_number, step in enumerate(stage.steps):
            at = ("stages", stage_number, "steps", step_number, "checkpoint", "troubles")
            for number, trouble in enumerate(step.checkpoint.troubles if step.checkpoint else ()):
                for use_number, use in enumerate(trouble.adds):
                    yield (stage_number, step_number), (*at, number, "add", use_number), use


def _not_kept_back(use: Use, kept_back: set[Use]) -> InputError:
    problem = f"{use.written!r} is not kept back, and a rescue adds only what is not in the batch"
    parts = sorted(part.written for part in kept_back)
    example = f"list it under the ingredient, such as `kept_back: {{{use.portion or 'rescue'}: 60 g}}`"
    return InputError(problem, did_you_mean(use.written, parts, example))
