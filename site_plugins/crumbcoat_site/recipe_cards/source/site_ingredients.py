"""The list of a site's own ingredients: checked one by one, and handed to recipes as kinds."""

import json
from pathlib import Path

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.source.own_ingredients import SiteIngredients


def load_site_ingredients(source: Path, file: str, cache: PageCache) -> SiteIngredients:
    """The ingredients in a file; none if it does not exist, or has only comments.

    Args:
        file: the name that errors show.
        cache: where the result of the check is kept.
    """
    if not source.is_file():
        return SiteIngredients({}, ())
    content = source.read_bytes()
    key = cache.key(content, "ingredients")
    kept = cache.get(key)
    if kept is not None:
        return SiteIngredients(json.loads(kept["kinds"]), ())
    # Imported here because a build with an unchanged list need not load calc and the food tables.
    from crumbcoat_site.recipe_cards.source.read_ingredients import read_ingredients

    found = read_ingredients(source, file)
    if not found.problems:
        cache.put(key, {"kinds": json.dumps(found.kinds)}, {})
    return found
