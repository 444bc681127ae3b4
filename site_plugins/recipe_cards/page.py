"""A recipe file -> everything that its page consists of."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from jinja2 import Template

from site_plugins.recipe_cards.cache import PageCache
from site_plugins.recipe_cards.card import Card, card_from
from site_plugins.recipe_cards.card_json import card_json
from site_plugins.recipe_cards.handout import Frame, handout_html
from site_plugins.recipe_cards.islands import parted
from site_plugins.recipe_cards.json_ld import json_ld
from site_plugins.recipe_cards.recipe_files import load_recipe
from site_plugins.recipe_cards.rendering import environment

ISLANDS, CARD_JSON, HANDOUT = "islands.html", "card.json", "handout.html"
"""Endings of what the cache keeps of a page as files."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageFiles:
    """What a recipe file becomes: its page's headings as Markdown, and under `key` in the cache its islands of HTML
    (ISLANDS), card.json (CARD_JSON) and the handout (HANDOUT); the rest is for lists of recipes."""

    key: str
    markdown: str
    title: str
    summary: str
    family: str
    fat_percent: float | None
    fat_text: str
    cover: str | None
    data: str


def page_files(
    source: Path,
    file: str,
    name: str,
    photos: Mapping[str, str],
    prices: str | None,
    frame: Frame | None,
    cache: PageCache,
) -> PageFiles:
    """What a recipe file becomes, from the cache if it was computed before.

    Args:
        source: the recipe file.
        file: its name as errors give it.
        name: its path in docs_dir, without ending.
        photos: the pictures beside it.
        prices: the text of the file of prices.
        frame: what stands around the handout; None makes none.

    Raises:
        RecipeFileError: if the file holds no recipe.
    """
    key = cache.key(
        source.read_bytes(), name, json.dumps(photos, sort_keys=True), prices or "", frame.key if frame else ""
    )
    kept = cache.get(key)
    if kept is not None:
        return PageFiles(key=key, **kept)
    recipe, data = load_recipe(source, file)
    card = card_from(recipe, data, name, photos, prices, frame is not None)
    headings, islands = parted(_template().render(card=card, recipe=card.recipe, texts=card.texts))
    facts = {
        "markdown": _front_matter(card) + headings,
        "title": recipe.title,
        "summary": recipe.summary,
        "family": recipe.family,
        "fat_percent": card.batch.total.percent("fat_g"),
        "fat_text": str(card.texts["fat.percent"]),
        "cover": photos.get("cover"),
        "data": json.dumps(data, ensure_ascii=False, separators=(",", ":")),
    }
    files = {ISLANDS: islands, CARD_JSON: card_json(card)}
    if frame:
        files[HANDOUT] = handout_html(recipe, data, name, frame)
    cache.put(key, facts, files)
    return PageFiles(key=key, **facts)


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
