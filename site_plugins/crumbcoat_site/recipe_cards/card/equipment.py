"""What is needed for a recipe: the tools of its steps, and what its author adds."""

from typing import NamedTuple

from crumbcoat_calc.recipe.model import Recipe


class Equipment(NamedTuple):
    """The tools of the steps in the order of use, and what the author lists besides; each once."""

    tools: tuple[str, ...]
    added: tuple[str, ...]


def equipment_of(recipe: Recipe) -> Equipment:
    """What a recipe needs."""
    tools = tuple(dict.fromkeys([step.tool for stage in recipe.stages for step in stage.steps if step.tool]))
    return Equipment(tools, tuple(dict.fromkeys([name for name in recipe.equipment if name not in tools])))
