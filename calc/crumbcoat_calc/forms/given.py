"""The recipe that a page gives to a calculator, read once."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.values.fields import json_fields, mapping, take

MOST = 30
"""So many ingredients a form of a calculator's page has room for."""


@dataclass(frozen=True, slots=True)
class Given:
    """A recipe as its fields, as the model, and the batch of it as published."""

    data: Mapping[str, object]
    recipe: Recipe
    batch: Batch

    @property
    def names(self) -> tuple[str, ...]:
        """What the ingredients are called, in order."""
        return tuple([ingredient.name for ingredient in self.recipe.ingredients])


@lru_cache(maxsize=16)
def given_recipes(given: str) -> Mapping[str, Given]:
    """The recipes in a JSON text by the name of their field; a field that holds null is left out.

    Raises:
        InputError: at the field that holds no recipe, or one of too many ingredients.
    """
    fields = json_fields(given)
    found = {}
    for name, data in fields.items():
        if data is None:
            continue
        recipe = take(fields, name, recipe_from)
        if len(recipe.ingredients) > MOST:
            raise InputError(f"the recipe has more than {MOST} ingredients", "choose another one", (name,))
        found[name] = Given(mapping(data), recipe, batch_of(recipe))
    return found


def given_recipe(given: str) -> Given:
    """The one recipe in `recipe`.

    Raises:
        InputError: if there is none.
    """
    found = given_recipes(given)
    if "recipe" not in found:
        raise InputError("the page gives no recipe", "choose one", ("given",))
    return found["recipe"]


def name_texts(given: Given) -> dict[str, str]:
    """`name.<n>` of every line of a form; empty where the recipe has no more ingredients."""
    names = given.names
    return {f"name.{n}": names[n] if n < len(names) else "" for n in range(MOST)}


def position(written: str, given: Given) -> int:
    """The position of an ingredient in the recipe, from 0.

    Raises:
        InputError: if there is none such.
    """
    if not written.isdecimal() or not written.isascii() or int(written[:4]) >= len(given.names):
        raise InputError("the recipe has no such ingredient", "choose one listed")
    return int(written)
