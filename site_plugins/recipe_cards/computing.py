"""A recipe file -> its page, card.json and handout, computed; only a build with something new in it comes here."""

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from jinja2 import Template

from site_plugins.recipe_cards.card import Card, card_from
from site_plugins.recipe_cards.card_json import card_json
from site_plugins.recipe_cards.frame import Frame
from site_plugins.recipe_cards.handout import handout_html
from site_plugins.recipe_cards.islands import parted
from site_plugins.recipe_cards.json_ld import json_ld
from site_plugins.recipe_cards.page import CARD_JSON, HANDOUT, ISLANDS, MARKDOWN
from site_plugins.recipe_cards.recipe_files import load_recipe
from site_plugins.recipe_cards.rendering import environment


def computed(
    source: Path, file: str, name: str, photos: Mapping[str, str], prices: str | None, frame: Frame | None
) -> tuple[dict[str, object], dict[str, str]]:
    """The facts that PageFiles holds, and the content of each file by its ending; for the arguments see `page_files`.

    Raises:
        RecipeFileError: if the file holds no recipe.
    """
    recipe, data = load_recipe(source, file)
    card = card_from(recipe, data, name, photos, prices, frame is not None)
    headings, islands = parted(_template().render(card=card, recipe=card.recipe, texts=card.texts))
    facts = {
        "title": recipe.title,
        "summary": recipe.summary,
        "family": recipe.family,
        "fat_percent": card.batch.total.percent("fat_g"),
        "fat_text": str(card.texts["fat.percent"]),
        "cover": photos.get("cover"),
    }
    files = {MARKDOWN: _front_matter(card) + headings, ISLANDS: islands, CARD_JSON: card_json(card)}
    if frame:
        files[HANDOUT] = handout_html(recipe, data, name, frame)
    return facts, files


def _front_matter(card: Card) -> str:
    """What MkDocs and the theme are told of the page."""
    meta = {
        "title": card.recipe.title,
        "description": card.recipe.summary,
        "template": "recipe.html",
        "json_ld": json.dumps(json_ld(card), ensure_ascii=False).replace("<", "\\u003c"),
    }
    head = "\n".join(f"{key}: {json.dumps(value, ensure_ascii=False)}" for key, value in meta.items())
    return f"---\n{head}\n---\n"


@cache
def _template() -> Template:
    return environment().get_template("recipe.md.jinja")
