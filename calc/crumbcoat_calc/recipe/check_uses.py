"""Checks that the steps of a recipe use everything it lists exactly once, and nothing else.

What is kept back is for checkpoints: each part belongs to one of them, and no step adds it.
"""

from collections.abc import Iterator

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.check_rescues import kept_back_of, rescue_problems
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
    open_uses, kept_back = _from_ingredients(recipe), kept_back_of(recipe)
    known = {use.what for use in open_uses}
    places: dict[Use, str] = {}
    is_any_unknown = False
    for stage_number, stage in enumerate(recipe.stages):
        for step_number, step in enumerate(stage.steps):
            for use_number, use in enumerate(step.uses):
                path = ("stages", stage_number, "steps", step_number, "add", use_number)
                here = f"stage {stage_number + 1}, step {step_number + 1}"
                if use in kept_back:
                    yield _kept_back(use).within(*path)
                    continue
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
        for use in sorted(open_uses, key=lambda use: use.written):
            yield _not_used(use, recipe)
    yield from rescue_problems(recipe)


def _from_ingredients(recipe: Recipe) -> set[Use]:
    uses = set()
    for ingredient in recipe.ingredients:
        if ingredient.is_all_kept_back:
            continue
        if ingredient.portions:
            uses |= {Use(what=ingredient.key, portion=portion.key) for portion in ingredient.portions}
        else:
            uses.add(Use(what=ingredient.key))
    return uses


def _kept_back(use: Use) -> InputError:
    return InputError(
        f"{use.written!r} is kept back for a rescue, so a step cannot add it",
        "add it under `add` of a checkpoint's trouble, or make it one of the `portions`",
    )


def _wrong_use(use: Use, open_uses: set[Use], known: set[str], places: dict[Use, str], recipe: Recipe) -> InputError:
    if use in places:
        return InputError(
            f"{use.written!r} was already added in {places[use]}",
            "divide it into `portions` if it goes in at two places, or remove it here",
        )
    later = [stage.makes for stage in recipe.stages if stage.makes == use.what]
    if use.what not in known:
        if later:
            return InputError(f"{use.what!r} is not made yet", "move its stage before this step")
        remedy = did_you_mean(use.what, known, "list it under `ingredients`")
        return InputError(f"{use.what!r} is not in the list of ingredients", remedy)
    parts = sorted(part.written for part in {*open_uses, *places} if part.what == use.what and part.portion)
    if not parts:
        return InputError(f"{use.what!r} is not divided into portions", f"write `{use.what}`")
    if use.portion is None:
        return InputError(f"{use.what!r} is divided into portions", f"name the portion: {', '.join(parts)}")
    return InputError(
        f"{use.what!r} has no portion {use.portion!r}",
        did_you_mean(use.written, parts, f"use one of: {', '.join(parts)}"),
    )


def _not_used(use: Use, recipe: Recipe) -> InputError:
    for number, stage in enumerate(recipe.stages):
        if stage.makes == use.what:
            return InputError(
                f"no later step uses {use.written!r}",
                f"add `- {use.written}` to a step",
                ("stages", number, *(("shares", use.portion) if use.portion else ("makes",))),
            )
    path = ("ingredients", use.what, *(("portions", use.portion) if use.portion else ()))
    return InputError(f"no step uses {use.written!r}", f"add `- {use.written}` under `add` of a step", path)
