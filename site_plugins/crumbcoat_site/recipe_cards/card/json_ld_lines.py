"""The ingredients of a recipe as lines of text, each with its amount as the author wrote it."""

from typing import Any

from crumbcoat_calc.recipe.model import Ingredient, Use
from crumbcoat_calc.values.marks import plain_text
from crumbcoat_calc.values.region import text_in

from crumbcoat_site.recipe_cards.card.card import Card


def ingredient_lines(card: Card, region: str | None) -> list[str]:
    """Everything to have at hand: each ingredient, and what is kept back of it for a rescue."""
    lines = []
    for ingredient in card.recipe.ingredients:
        if not ingredient.is_all_kept_back:
            rest = [ingredient.preparation, "optional" if ingredient.optional else None]
            lines.append(_line(ingredient.amount.written, ingredient, rest))
        for part in ingredient.kept_back:
            written = written_at(card, "ingredients", ingredient.key, "kept_back", part.key)
            lines.append(_line(written, ingredient, ["kept back for a rescue"]))
    return [text_in(region, line) for line in lines]


def use_amount(card: Card, use: Use) -> str | None:
    """How much of it goes in at a step, as the author wrote it; None for the whole of an earlier stage's mixture."""
    ingredient = card.ingredient(use)
    if ingredient is None:
        makes = next(place for place, stage in enumerate(card.recipe.stages) if stage.makes == use.what)
        return written_at(card, "stages", makes, "shares", use.portion) if use.portion else None
    if use.portion is None:
        return ingredient.amount.written
    return written_at(card, "ingredients", ingredient.key, "portions", use.portion)


def written_at(card: Card, *place: str | int) -> str:
    """A text of the recipe file."""
    value: Any = card.data
    for key in place:
        value = value[key]
    return str(value)


def _line(written: str, ingredient: Ingredient, rest: list[str | None]) -> str:
    """`1/2 US cup, unsifted` of icing sugar is `1/2 US cup icing sugar, unsifted`."""
    amount, _, manner = written.partition(", ")
    return ", ".join([f"{amount} {ingredient.name}", *[plain_text(text) for text in (manner, *rest) if text]])
