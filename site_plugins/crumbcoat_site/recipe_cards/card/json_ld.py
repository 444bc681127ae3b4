"""Card -> schema.org Recipe as JSON-LD."""

from crumbcoat_calc.values.display import iso_duration
from crumbcoat_calc.values.marks import plain_text

from crumbcoat_site.recipe_cards.card.card import Card
from crumbcoat_site.recipe_cards.card.label import json_ld_of


def json_ld(card: Card) -> dict[str, object]:
    """The recipe in the terms of schema.org (release 30.0), for one batch as published."""
    recipe, texts = card.recipe, card.texts
    data: dict[str, object] = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": recipe.title,
        "description": plain_text(recipe.summary),
        "author": {"@type": "Organization", "name": recipe.author},
        "recipeCategory": recipe.family,
        "recipeYield": [str(recipe.yields.portions), texts["portions_of"]],
        "recipeIngredient": _ingredients(card),
        "recipeInstructions": [_section(card, number) for number in range(len(recipe.stages))],
        "tool": [{"@type": "HowToTool", "name": tool} for tool in _tools(card)],
    }
    data |= json_ld_of(card.label.label)
    if recipe.published:
        data["datePublished"] = recipe.published
    if recipe.keywords:
        data["keywords"] = ", ".join(recipe.keywords)
    if card.times.attended.longest_s:
        data["prepTime"] = iso_duration(card.times.attended.longest_s)
    if card.times.total.longest_s:
        data["totalTime"] = iso_duration(card.times.total.longest_s)
    if "cover" in card.photos:
        data["image"] = f"../{card.photos['cover']}"
    return data


def _ingredients(card: Card) -> list[str]:
    """Everything to have at hand: each ingredient, and what is kept back of it."""
    lines = []
    for ingredient in card.recipe.ingredients:
        if not ingredient.is_all_kept_back:
            lines.append(f"{card.texts[f'amount.{ingredient.key}']} {ingredient.name}")
        for part in ingredient.kept_back:
            lines.append(f"{card.texts[f'kept.{ingredient.key}.{part.key}']} {ingredient.name}, kept back")
    return lines


def _section(card: Card, number: int) -> dict[str, object]:
    stage = card.recipe.stages[number]
    steps = []
    for position, step in enumerate(stage.steps):
        entry: dict[str, object] = {
            "@type": "HowToStep",
            "text": plain_text(step.do),
            "url": f"#step-{number + 1}-{position + 1}",
        }
        photo = card.photo(number + 1, position + 1)
        if photo:
            entry["image"] = photo
        steps.append(entry)
    return {"@type": "HowToSection", "name": stage.title, "itemListElement": steps}


def _tools(card: Card) -> list[str]:
    tools = [step.tool for stage in card.recipe.stages for step in stage.steps if step.tool]
    return list(dict.fromkeys(tools))
