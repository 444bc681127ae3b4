"""A recipe file -> its page, card.json and handout, computed; only a build with something new in it comes here."""

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from jinja2 import Template

from crumbcoat_site.recipe_cards.build.environment import environment
from crumbcoat_site.recipe_cards.build.page_parts import PageParts
from crumbcoat_site.recipe_cards.build.parts import CARD_JSON, HANDOUT, ISLANDS, MARKDOWN
from crumbcoat_site.recipe_cards.card.card import Card, card_from
from crumbcoat_site.recipe_cards.card.card_json import card_json
from crumbcoat_site.recipe_cards.card.json_ld import json_ld
from crumbcoat_site.recipe_cards.handout.handout import handout_html
from crumbcoat_site.recipe_cards.handout.shell import Frame
from crumbcoat_site.recipe_cards.source.recipe_files import load_recipe


def computed(
    source: Path, file: str, name: str, photos: Mapping[str, str], prices: str | None, frame: Frame | None
) -> tuple[dict[str, object], dict[str, str]]:
    """The facts that PageFiles holds, and the content of each file by its ending; for the arguments see `page_files`.

    Raises:
        RecipeFileError: if the file holds no recipe.
    """
    recipe, data = load_recipe(source, file)
    card = card_from(recipe, data, name, photos, prices, frame is not None)
    page = PageParts()
    _template().render(page=page, card=card, recipe=card.recipe, texts=card.texts)
    facts: dict[str, object] = {
        "title": recipe.title,
        "summary": recipe.summary,
        "family": recipe.family,
        "fat_percent": card.batch.total.percent("fat_g"),
        "fat_text": str(card.texts["fat.percent"]),
        "cover": photos.get("cover"),
    }
    files = {MARKDOWN: _front_matter(card) + page.markdown, ISLANDS: page.islands, CARD_JSON: card_json(card)}
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
    return environment().get_template("recipe.jinja")
