"""What one group lays out before it starts: weighed and prepared ingredients, and the equipment for the steps."""

from dataclasses import dataclass

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.rescues import rescue_places


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """An ingredient as laid out, in g and °C; `portions_g` lists the parts that are weighed separately.

    `kept_back_g` lists what is extra to `mass_g`, each with the step whose checkpoint it is for, such as `2.1`.
    """

    name: str
    food: Food
    optional: bool
    mass_g: float
    preparation: str | None
    temperature_c: float | None
    portions_g: tuple[tuple[str, float], ...]
    kept_back_g: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Equipment:
    """A tool, named as in the recipe, and the steps that need it, such as `2.1`."""

    tool: str
    steps: tuple[str, ...]


def mise_en_place(batch: Batch) -> tuple[LaidOut, ...]:
    """The ingredients to lay out for one batch, in the recipe's order, without those left out of the batch."""
    places = rescue_places(batch.recipe)
    return tuple(
        LaidOut(
            name=weighed.name,
            food=weighed.food,
            optional=ingredient.optional,
            mass_g=weighed.mass_g,
            preparation=ingredient.preparation,
            temperature_c=weighed.temperature_c,
            portions_g=tuple(weighed.portions_g.items()),
            kept_back_g=tuple((places[weighed.key, part], mass_g) for part, mass_g in weighed.kept_back_g.items()),
        )
        for weighed, ingredient in zip(batch.weighed, batch.recipe.ingredients, strict=True)
        if weighed.needed_g > 0
    )


def equipment(recipe: Recipe) -> tuple[Equipment, ...]:
    """Every tool used in the steps, listed once, in the order of first use."""
    steps: dict[str, list[str]] = {}
    names: dict[str, str] = {}
    for stage_number, stage in enumerate(recipe.stages, 1):
        for step_number, step in enumerate(stage.steps, 1):
            if step.tool:
                key = step.tool.casefold()
                names.setdefault(key, step.tool)
                steps.setdefault(key, []).append(f"{stage_number}.{step_number}")
    return tuple(Equipment(tool=names[key], steps=tuple(where)) for key, where in steps.items())
