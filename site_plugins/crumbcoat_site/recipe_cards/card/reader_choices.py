"""What the reader of a card can choose from in its form."""

from crumbcoat_calc.forms.changes import UNCHANGED
from crumbcoat_calc.kitchen.bowls import bowls, tools
from crumbcoat_calc.kitchen.eggs import EGG_GROUP, egg_sizes
from crumbcoat_calc.kitchen.rounding import scales
from crumbcoat_calc.recipe.model import Ingredient, Recipe
from crumbcoat_calc.recipe.replacing import KIND, other_kinds

Choice = tuple[str, str]
"""The value that the form sends, and the words that the reader sees."""


def scale_choices() -> list[Choice]:
    """Each kind of scale, the finest first."""
    return [(scale.key, scale.name) for scale in sorted(scales().values(), key=lambda scale: scale.step_g)]


def egg_choices(recipe: Recipe) -> list[Choice]:
    """Each size of egg, if eggs are an ingredient or a replacement; otherwise none."""
    foods = [ingredient.food for ingredient in recipe.ingredients]
    foods += [other.food for ingredient in recipe.ingredients for other in ingredient.replacements]
    if not any(food.group == EGG_GROUP for food in foods):
        return []
    return [(egg.size, f"{egg.name} ({egg.market}, {egg.in_shell})") for egg in egg_sizes().values()]


def bowl_choices() -> list[Choice]:
    """The volume and name of each common bowl, the smallest first."""
    found = sorted(bowls().values(), key=lambda bowl: bowl.volume_ml)
    return [(f"{bowl.volume_ml / 1000:g} L", bowl.name) for bowl in found]


def tool_choices() -> list[Choice]:
    """Each tool to mix with, the usual one first."""
    return [(tool.key, tool.name) for tool in sorted(tools().values(), key=lambda tool: tool.key != UNCHANGED.tool)]


def kind_choices(ingredient: Ingredient) -> list[Choice]:
    """Every other kind in the ingredient's group."""
    kinds = other_kinds(ingredient.food.group, ingredient.food.key)
    return [(KIND + kind.key, kind.name) for kind in kinds]
