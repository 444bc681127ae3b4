"""How hot each ingredient of a recipe gets, step by step."""

from collections.abc import Mapping

from crumbcoat_calc.recipe.model import Recipe

HeatedPart = tuple[str, str | None, tuple[str, ...]]
"""A part of an ingredient that stays together: the ingredient's key, the portion, and the shares it ended up in."""


def highest_temperatures(recipe: Recipe) -> Mapping[str, float | None]:
    """The stated temperature in °C that all of an ingredient reaches; None if some of it is not in any heating step.

    A step's `heat_to` heats everything in its vessel at that point. A hot mixture does not count as heating what it is
    poured onto, and optional steps do not count. If portions of an ingredient are heated differently, the lowest
    temperature counts; so it does of what is kept back for a checkpoint, which may go in there.
    """
    heat: dict[HeatedPart, float | None] = {}
    store: dict[tuple[str, str | None], list[HeatedPart]] = {}
    for ingredient in recipe.ingredients:
        keys: list[str | None] = [portion.key for portion in ingredient.portions]
        for portion in [*(keys or [None]), *(part.key for part in ingredient.kept_back)]:
            store[ingredient.key, portion] = [(ingredient.key, portion, ())]
            heat[ingredient.key, portion, ()] = None
    bowl: list[HeatedPart] = []
    for stage in recipe.stages:
        vessel = [] if stage.makes else bowl
        for step in stage.steps:
            vessel = [*vessel, *(unit for use in step.uses for unit in store[use.what, use.portion])]
            if step.heat_to_c is not None and not step.optional:
                for unit in vessel:
                    heat[unit] = max(step.heat_to_c, heat[unit] or step.heat_to_c)
            rescue = step.checkpoint.adds if step.checkpoint else ()
            vessel = [*vessel, *(unit for use in rescue for unit in store[use.what, use.portion])]
        if stage.makes is None:
            bowl = vessel
        elif not stage.shares:
            store[stage.makes, None] = vessel
        else:
            for share, _ in stage.shares:
                shared: list[HeatedPart] = [(key, portion, (*way, share)) for key, portion, way in vessel]
                for unit, before in zip(shared, vessel, strict=True):
                    heat[unit] = heat[before]
                store[stage.makes, share] = shared
            for unit in vessel:
                del heat[unit]
    return {ingredient.key: _least(heat, ingredient.key) for ingredient in recipe.ingredients}


def _least(heat: Mapping[HeatedPart, float | None], key: str) -> float | None:
    reached = [t_c for unit, t_c in heat.items() if unit[0] == key]
    known = [t_c for t_c in reached if t_c is not None]
    return min(known) if known and len(known) == len(reached) else None
