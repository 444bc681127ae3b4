"""The ingredients of a recipe as lines of text, each with its amount as the author wrote it."""

from typing import Any

from crumbcoat_calc.recipe.model import Use
from crumbcoat_calc.values.marks import plain_text
from crumbcoat_calc.values.region import text_in

from crumbcoat_site.recipe_cards.card.card import Card


def ingredient_lines(card: Card, region: str | None) -> list[str]:
    """Everything to have at hand: each ingredient, and what is kept back of it for a rescue."""
    lines = []
    for ingredient in card.recipe.ingredients:
        if not ingredient.is_all_kept_back:
            rest = [ingredient.preparation, "optional" if ingredient.optional else None]
            lines.append(named_amount(ingredient.amount.written, ingredient.name, *rest))
        for part in ingredient.kept_back:
            written = written_at(card, "ingredients", ingredient.key, "kept_back", part.key)
            lines.append(named_amount(written, ingredient.name, "kept back for a rescue"))
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


def named_amount(written: str, name: str, *rest: str | None) -> str:
    """An amount with the name of what it is of before the way in which it is measured.

    >>> named_amount("1/2 US cup, unsifted", "icing sugar"), named_amount("250 g", "butter", "soft", None)
    ('1/2 US cup icing sugar, unsifted', '250 g butter, soft')
    """
    amount, _, manner = written.partition(", ")
    return ", ".join([f"{amount} {name}".strip(), *[plain_text(text) for text in (manner, *rest) if text]])
