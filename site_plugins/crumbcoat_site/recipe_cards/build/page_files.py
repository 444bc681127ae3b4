"""A recipe file -> everything that its page consists of, from the cache if it was computed before."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.handout.shell import Frame


@dataclass(frozen=True, slots=True, kw_only=True)
class PageFiles:
    """What a recipe file becomes: under `key` in the cache lie its files; the rest is for lists of recipes."""

    key: str
    title: str
    summary: str
    family: str
    fat_percent: float | None
    fat_text: str
    cover: str | None


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
    facts = cache.get(key)
    if facts is None:
        # Only here, since a build that finds every page need not load calc, its tables and pint.
        from crumbcoat_site.recipe_cards.build.render_recipe import computed

        facts, files = computed(source, file, name, photos, prices, frame)
        cache.put(key, facts, files)
    return PageFiles(key=key, **facts)
