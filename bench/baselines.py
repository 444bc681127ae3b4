"""The input for the comparison with plain MkDocs and Material: the pages that our build made and cached."""

import json
import re
import subprocess
import sys

from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.build.page_parts import join
from crumbcoat_site.recipe_cards.card.card_options import CardOptions
from crumbcoat_site.recipe_cards.pages.kept_files import ISLANDS, MARKDOWN
from crumbcoat_site.recipe_cards.pages.recipe_pages import recipe_page
from crumbcoat_site.recipe_cards.source.recipe_files import RecipeFile

from bench.host import FOLDER, ROOT

BASELINES = ("plain", "lean")
"""`plain`: a card's Markdown with its HTML in place. `lean`: only its headings and words."""


def baseline_markdown(cache: PageCache, key: str) -> dict[str, str]:
    """The Markdown of a card for each baseline, without the parts that only our site's theme would read."""
    markdown, islands = (cache.path(key, ending).read_text(encoding="utf-8") for ending in (MARKDOWN, ISLANDS))
    lean = re.sub(r"^(template|json_ld): .*\n", "", markdown, flags=re.MULTILINE)
    return {"plain": join(lean, islands), "lean": lean}


def build_baselines() -> None:
    """The demo's pages at the same addresses, built by plain MkDocs with Material and the same features."""
    recipes = ROOT / "recipes"
    prices = (recipes / "prices.csv").read_text(encoding="utf-8")
    cache = PageCache(FOLDER / "cards")
    pages: dict[str, dict[str, str]] = {which: {} for which in BASELINES}
    for source in sorted(recipes.glob("*/*.yaml")):
        name = source.relative_to(recipes).with_suffix("").as_posix()
        page = recipe_page(RecipeFile(path=source, name=name, photos={}), prices, CardOptions(None, True), None, cache)
        for which, markdown in baseline_markdown(cache, page.key).items():
            pages[which][f"{name}.md"] = markdown
    for which in BASELINES:
        folder = FOLDER / which
        others = {file.relative_to(recipes).as_posix(): file.read_text("utf-8") for file in recipes.rglob("*.md")}
        for place, markdown in {**pages[which], **others}.items():
            target = folder / "docs" / place
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(markdown, encoding="utf-8")
        inherited = {"INHERIT": str(ROOT / "mkdocs.yml"), "docs_dir": str(folder / "docs"), "strict": False}
        plain = {
            "theme": {"favicon": "assets/images/favicon.png", "icon": {"logo": "material/library"}},
            "plugins": ["search"],
        }
        config = {**inherited, **plain, "site_dir": str(folder / "site")}
        (folder / "mkdocs.yml").write_text(json.dumps(config), encoding="utf-8")
        command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--config-file", str(folder / "mkdocs.yml")]
        subprocess.run(command, cwd=ROOT, check=True)
