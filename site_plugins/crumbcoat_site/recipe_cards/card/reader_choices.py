"""What the reader of a card can choose from in its form."""

import re
from collections.abc import Mapping

from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.changes import UNCHANGED
from crumbcoat_calc.forms.context import Context
from crumbcoat_calc.kitchen.bowls import bowls, tools
from crumbcoat_calc.kitchen.eggs import EGG_GROUP, egg_sizes
from crumbcoat_calc.kitchen.rounding import scales
from crumbcoat_calc.recipe.model import Ingredient, Recipe
from crumbcoat_calc.recipe.replacing import KIND, other_kinds
from crumbcoat_calc.values.region import lengths_in

Choice = tuple[str, str]
"""The value that the form sends, and the words that the reader sees."""

Preset = tuple[str, str, str]
"""A usual size in words, the field of the batch that it is put into, and the value."""


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


def unit_choices() -> list[Choice]:
    """What amounts can be shown in."""
    return [
        ("grams", "grams"),
        ("ounces", "ounces and pounds"),
        ("us", "US cups and spoons"),
        ("metric", "metric cups and spoons"),
        ("australian", "Australian cups and spoons"),
    ]


def _round_tiers(*diameters: str) -> dict[str, str]:
    plan = {f"tier.{place}.diameter": diameter for place, diameter in enumerate(diameters, start=1)}
    return plan | {f"tier.{place}.shape": "round" for place in range(2, len(diameters) + 1)}


_CAKES = {
    "cm": {
        "24 cupcakes": {"cupcakes": "24", "tier.1.shape": "none"},
        "A 20 cm cake": {"tier.1.diameter": "20 cm"},
        "Three tiers, 25, 20 and 15 cm": _round_tiers("25 cm", "20 cm", "15 cm"),
    },
    "in": {
        "24 cupcakes": {"cupcakes": "24", "tier.1.shape": "none"},
        "An 8 in cake": {"tier.1.diameter": "8 in"},
        "Three tiers, 10, 8 and 6 in": _round_tiers("10 in", "8 in", "6 in"),
    },
}


def preset_sizes(context: Context) -> list[Preset]:
    """Half, double, and enough for some usual cakes; without these if the density of the frosting is not known.

    A recipe that says how many cupcakes it is enough for is taken at its word, and not at that of a model of a swirl.
    One that says what cake it is enough for has no button for that cake: the model would give another mass for it.
    """
    of = context.published.recipe.yields.of
    sizes: list[Preset] = [("Half", "factor", "0.5"), ("Double", "factor", "2")]
    for words, plan in _CAKES[lengths_in(context.region)].items():
        if _is_cake_of(plan, of):
            continue
        if "cupcakes" in plan and of.startswith("cupcakes"):
            sizes.append((words, "portions", plan["cupcakes"]))
            continue
        needed = str(run("cake", context, {}, plan)[1]["cake.mass_needed"])
        sizes += [(words, "finished_mass", needed)] if needed else []
    return sizes


def _is_cake_of(plan: Mapping[str, str], of: str) -> bool:
    """Whether this is the one cake that a recipe says it is enough for: `slices of a 20 cm cake`, `an 8-inch cake`."""
    diameters = [value for name, value in plan.items() if name.endswith("diameter")]
    sizes = [f"{size} {unit[:2]}" for size, unit in re.findall(r"\b([0-9]+)[\s-]*(cm|inch|in)\b", of)]
    return len(diameters) == 1 and diameters[0] in sizes
