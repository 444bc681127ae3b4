"""What plain MkDocs with Material is given to be compared with: the pages that our build made, as it kept them."""

import re

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.build.page_parts import join
from crumbcoat_site.recipe_cards.pages.kept_files import ISLANDS, MARKDOWN

BASELINES = ("plain", "lean")
"""`plain`: a card's Markdown with its HTML in place. `lean`: no more of it than its headings and words."""


def baseline_markdown(cache: PageCache, key: str) -> dict[str, str]:
    """The Markdown of a card for each baseline, without what the theme of our site alone would read."""
    markdown, islands = (cache.path(key, ending).read_text(encoding="utf-8") for ending in (MARKDOWN, ISLANDS))
    lean = re.sub(r"^(template|json_ld): .*\n", "", markdown, flags=re.MULTILINE)
    return {"plain": join(lean, islands), "lean": lean}
