"""What one group lays out before it begins: ingredients weighed and prepared, and the equipment of the steps."""

from dataclasses import dataclass

from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.model import Recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """An ingredient as it is laid out, in g and °C; `portions_g` names the parts that are weighed apart."""

    name: str
    mass_g: float
    preparation: str | None
    temperature_c: float | None
    portions_g: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Equipment:
    """A tool as the recipe calls it, and the steps that need it, such as `2.1`."""

    tool: str
    steps: tuple[str, ...]


def mise_en_place(batch: Batch) -> tuple[LaidOut, ...]:
    """What is laid out for one batch, in the recipe's order; what is left out of the batch is not laid out."""
    prepared = {one.key: one.preparation for one in batch.recipe.ingredients}
    return tuple(
        LaidOut(
            name=one.name,
            mass_g=one.mass_g,
            preparation=prepared[one.key],
            temperature_c=one.temperature_c,
            portions_g=tuple(one.portions_g.items()),
        )
        for one in batch.weighed
        if one.mass_g > 0
    )


def equipment(recipe: Recipe) -> tuple[Equipment, ...]:
    """Every tool of the steps once, in the order in which it is first needed."""
    steps: dict[str, list[str]] = {}
    names: dict[str, str] = {}
    for stage_number, stage in enumerate(recipe.stages, 1):
        for step_number, step in enumerate(stage.steps, 1):
            if step.tool:
                key = step.tool.casefold()
                names.setdefault(key, step.tool)
                steps.setdefault(key, []).append(f"{stage_number}.{step_number}")
    return tuple(Equipment(tool=names[key], steps=tuple(where)) for key, where in steps.items())
