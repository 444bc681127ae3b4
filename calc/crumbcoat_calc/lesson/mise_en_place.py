"""What one group lays out before it starts: weighed and prepared ingredients."""

from dataclasses import dataclass

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.rescues import rescue_places


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """An ingredient as laid out, in g and °C; `portions_g` lists the parts that are weighed separately.

    `kept_back_g` lists what is extra to `mass_g`, each with the step whose checkpoint it is for, such as `2.1`.
    `key` is that of the ingredient in the recipe.
    """

    key: str
    name: str
    food: Food
    optional: bool
    mass_g: float
    preparation: str | None
    temperature_c: float | None
    portions_g: tuple[tuple[str, float], ...]
    kept_back_g: tuple[tuple[str, float], ...] = ()


def mise_en_place(batch: Batch) -> tuple[LaidOut, ...]:
    """The ingredients to lay out for one batch, in the recipe's order, without those left out of the batch."""
    places = rescue_places(batch.recipe)
    return tuple(
        LaidOut(
            key=weighed.key,
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
