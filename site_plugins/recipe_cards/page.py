"""A recipe file -> everything that its page consists of."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup, escape

from calc.display import celsius_text, duration_text
from site_plugins.recipe_cards.cache import PageCache
from site_plugins.recipe_cards.card import Card, card_from
from site_plugins.recipe_cards.card_json import card_json
from site_plugins.recipe_cards.json_ld import json_ld
from site_plugins.recipe_cards.recipe_files import load_recipe

_TEMPLATES = Path(__file__).parent / "templates"


@dataclass(frozen=True, slots=True, kw_only=True)
class PageFiles:
    """What a recipe file becomes: the page as Markdown, and card.json; the rest is for lists of recipes."""

    markdown: str
    card_json: str
    title: str
    summary: str
    family: str
    fat_percent: float | None
    fat_text: str
    cover: str | None
    data: str


def page_files(source: Path, file: str, name: str, photos: Mapping[str, str], cache: PageCache) -> PageFiles:
    """What a recipe file becomes, from the cache if it was computed before.

    Args:
        source: the recipe file.
        file: its name as errors give it.
        name: its path in docs_dir, without ending.
        photos: the pictures beside it.

    Raises:
        RecipeFileError: if the file holds no recipe.
    """
    key = cache.key(source.read_bytes(), name, json.dumps(photos, sort_keys=True))
    kept = cache.get(key)
    if kept is not None:
        return PageFiles(**kept)
    recipe, data = load_recipe(source, file)
    card = card_from(recipe, data, name, photos)
    made = PageFiles(
        markdown=markdown_from(card),
        card_json=card_json(card),
        title=recipe.title,
        summary=recipe.summary,
        family=recipe.family,
        fat_percent=card.batch.total.percent("fat_g"),
        fat_text=str(card.texts["fat.percent"]),
        cover=photos.get("cover"),
        data=json.dumps(data, ensure_ascii=False, separators=(",", ":")),
    )
    cache.put(key, asdict(made))
    return made


def markdown_from(card: Card) -> str:
    """The page: front matter for MkDocs, then Markdown with HTML islands."""
    meta = {
        "title": card.recipe.title,
        "description": card.recipe.summary,
        "template": "recipe.html",
        "json_ld": json.dumps(json_ld(card), ensure_ascii=False).replace("<", "\\u003c"),
    }
    head = "\n".join(f"{key}: {json.dumps(value, ensure_ascii=False)}" for key, value in meta.items())
    return f"---\n{head}\n---\n{_template().render(card=card, recipe=card.recipe, texts=card.texts)}"


@cache
def _template() -> Template:
    return environment().get_template("recipe.md.jinja")


@cache
def environment() -> Environment:
    """The templates of this plugin: they show, they do not compute."""
    made = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    made.filters |= {
        "markdown_safe": _markdown_safe,
        "celsius": celsius_text,
        "duration": duration_text,
        "words": lambda key: key.replace("_", " ").replace("-", " "),
        "svg": Markup,  # only for pictures that calc drew: it escapes every text in them
    }
    return made


def _markdown_safe(text: str) -> str:
    """Text that Markdown shows as it stands."""
    return Markup("".join(f"\\{letter}" if letter in "\\`*_{}[]<>#+-.!|" else letter for letter in str(escape(text))))
