"""Where what is kept back may go in."""

from collections.abc import Mapping

from crumbcoat_calc.recipe.model import Recipe


def rescue_places(recipe: Recipe) -> Mapping[tuple[str, str], str]:
    """The step whose checkpoint each part is kept back for, such as `2.1`, by ingredient and part."""
    return {
        (use.what, use.portion or ""): f"{stage_number}.{step_number}"
        for stage_number, stage in enumerate(recipe.stages, 1)
        for step_number, step in enumerate(stage.steps, 1)
        if step.checkpoint
        for use in step.checkpoint.adds
    }
