"""The input for the comparison with plain MkDocs and Material: the pages that our build made and cached."""

import re

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.build.page_parts import join
from crumbcoat_site.recipe_cards.pages.kept_files import ISLANDS, MARKDOWN

BASELINES = ("plain", "lean")
"""`plain`: a card's Markdown with its HTML in place. `lean`: only its headings and words."""


def baseline_markdown(cache: PageCache, key: str) -> dict[str, str]:
    """The Markdown of a card for each baseline, without the parts that only our site's theme would read."""
    markdown, islands = (cache.path(key, ending).read_text(encoding="utf-8") for ending in (MARKDOWN, ISLANDS))
    lean = re.sub(r"^(template|json_ld): .*\n", "", markdown, flags=re.MULTILINE)
    return {"plain": join(lean, islands), "lean": lean}
