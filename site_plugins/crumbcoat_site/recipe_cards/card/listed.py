"""Card -> what other pages show of it: lists and groups of recipes, short cards; pictures are not among it."""

from collections.abc import Collection

from crumbcoat_calc.foods.allergens import allergen_words
from crumbcoat_calc.label.batch_label import BatchLabel

from crumbcoat_site.recipe_cards.card.card import Card

_GROUPS = {
    "egg": frozenset(("eggs",)),
    "milk": frozenset(("milk (including lactose)",)),
    "gluten": frozenset(("cereals containing gluten",)),
    "nuts": frozenset(("nuts", "peanuts")),
}
"""The allergens by which readers look for recipes, in the terms of EU law; peanuts are taken for nuts."""


def listed(card: Card) -> dict[str, object]:
    """The facts by the names that `RecipePage` has for them, as JSON can keep them."""
    recipe, texts = card.recipe, card.texts
    inside, absent = _allergens(card.label.label)
    return {
        "title": recipe.title,
        "summary": recipe.summary,
        "family": recipe.family,
        "made_for": card.made_for,
        "fat_percent": card.batch.total.percent("fat_g"),
        "fat_text": str(texts["fat.percent"]),
        "makes": f"{texts['finished_cups']}{texts['finished_mass']}",
        "portions": str(texts["portions_of"]),
        "time": str(texts["time"]),
        "amounts": [
            [
                f"{ingredient.name}, optional" if ingredient.optional else ingredient.name,
                str(texts[f"amount.{ingredient.key}"]),
                str(texts[f"household.{ingredient.key}"]),
            ]
            for ingredient in recipe.ingredients
            if not ingredient.is_all_kept_back
        ],
        "keywords": list(recipe.keywords),
        "tools": list(card.equipment.tools),
        "composition": [card.batch.total.percent(name) for name in ("fat_g", "sugars_g", "water_g")],
        "allergens_listed": inside,
        "allergens_absent": absent,
        "keeps": [[storage.where, storage.up_to_s] for storage in recipe.storage],
    }


def _allergens(label: BatchLabel) -> tuple[list[str], list[str]]:
    """Which of `_GROUPS` a listed ingredient contains, and which none does for certain, by accident neither."""
    eu = label.lists[0]
    gluten = next(origin for origin in label.origins if origin.fact == "gluten")
    inside = [name for name, terms in _GROUPS.items() if terms & _terms(eu.contains)]
    possible = [name for name, terms in _GROUPS.items() if terms & _terms(eu.may_contain)]
    if not gluten.none_listed:
        possible.append("gluten")
    absent = [] if eu.doubts else [name for name in _GROUPS if name not in {*inside, *possible}]
    return inside, absent


def _terms(words: Collection[str]) -> set[str | None]:
    return {allergen_words()[word].by_regime["EU"] for word in words}
