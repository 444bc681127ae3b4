"""Checks that the steps of a recipe use everything it lists exactly once, and nothing else."""

from collections.abc import Iterator

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.model import Recipe, Use
from crumbcoat_calc.values.fields import did_you_mean


def check_uses(recipe: Recipe) -> None:
    """Check that the steps use every ingredient, portion and intermediate exactly once, in a possible order.

    Raises:
        InputError: at the first use or ingredient that does not fit.
    """
    for problem in use_problems(recipe):
        raise problem


def use_problems(recipe: Recipe) -> Iterator[InputError]:
    """Every use and ingredient that does not fit; what no step uses only where no step names something unknown."""
    open_uses = _from_ingredients(recipe)
    known = {use.what for use in open_uses}
    places: dict[Use, str] = {}
    is_any_unknown = False
    for stage_number, stage in enumerate(recipe.stages):
        for step_number, step in enumerate(stage.steps):
            for use_number, use in enumerate(step.uses):
                path = ("stages", stage_number, "steps", step_number, "add", use_number)
                here = f"stage {stage_number + 1}, step {step_number + 1}"
                if use not in open_uses:
                    is_any_unknown = is_any_unknown or use not in places
                    yield _wrong_use(use, open_uses, known, places, recipe).within(*path)
                open_uses.discard(use)
                places[use] = here
        if stage.makes is not None:
            if stage.makes in known:
                yield InputError(
                    f"the name {stage.makes!r} is already taken", "choose another name",
                    ("stages", stage_number, "makes"),
                )  # fmt: skip
            known.add(stage.makes)
            open_uses |= {Use(what=stage.makes, portion=key) for key, _ in stage.shares} or {Use(what=stage.makes)}
    if recipe.stages[-1].makes is not None:
        yield InputError(
            f"the last stage sets {recipe.stages[-1].makes!r} aside, so nothing is finished",
            "remove `makes` from the last stage", ("stages", len(recipe.stages) - 1, "makes"),
        )  # fmt: skip
    elif not is_any_unknown:
        for use in sorted(open_uses, key=_written):
            yield _not_used(use, recipe)


def _from_ingredients(recipe: Recipe) -> set[Use]:
    uses = set()
    for ingredient in recipe.ingredients:
        if ingredient.portions:
            uses |= {Use(what=ingredient.key, portion=portion.key) for portion in ingredient.portions}
        else:
            uses.add(Use(what=ingredient.key))
    return uses


def _written(use: Use) -> str:
    return f"{use.what}/{use.portion}" if use.portion else use.what


def _wrong_use(use: Use, open_uses: set[Use], known: set[str], places: dict[Use, str], recipe: Recipe) -> InputError:
    if use in places:
        return InputError(
            f"{_written(use)!r} was already added in {places[use]}",
            "divide it into `portions` if it goes in at two places, or remove it here",
        )
    later = [stage.makes for stage in recipe.stages if stage.makes == use.what]
    if use.what not in known:
        if later:
            return InputError(f"{use.what!r} is not made yet", "move its stage before this step")
        remedy = did_you_mean(use.what, known, "list it under `ingredients`")
        return InputError(f"{use.what!r} is not in the list of ingredients", remedy)
    parts = sorted(_written(part) for part in {*open_uses, *places} if part.what == use.what and part.portion)
    if not parts:
        return InputError(f"{use.what!r} is not divided into portions", f"write `{use.what}`")
    if use.portion is None:
        return InputError(f"{use.what!r} is divided into portions", f"name the portion: {', '.join(parts)}")
    return InputError(
        f"{use.what!r} has no portion {use.portion!r}",
        did_you_mean(_written(use), parts, f"use one of: {', '.join(parts)}"),
    )


def _not_used(use: Use, recipe: Recipe) -> InputError:
    for number, stage in enumerate(recipe.stages):
        if stage.makes == use.what:
            return InputError(
                f"no later step uses {_written(use)!r}",
                f"add `- {_written(use)}` to a step",
                ("stages", number, *(("shares", use.portion) if use.portion else ("makes",))),
            )
    path = ("ingredients", use.what, *(("portions", use.portion) if use.portion else ()))
    return InputError(f"no step uses {_written(use)!r}", f"add `- {_written(use)}` under `add` of a step", path)
