"""Card -> what other pages show of it: lists of recipes, and a short card by directive; pictures are not among it."""

from crumbcoat_site.recipe_cards.card.card import Card


def listed(card: Card) -> dict[str, object]:
    """The facts by the names that `RecipePage` has for them, as JSON can keep them."""
    recipe, texts = card.recipe, card.texts
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
            [ingredient.name, str(texts[f"amount.{ingredient.key}"]), str(texts[f"household.{ingredient.key}"])]
            for ingredient in recipe.ingredients
            if not ingredient.is_all_kept_back
        ],
    }
