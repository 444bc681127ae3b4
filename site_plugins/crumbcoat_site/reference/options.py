"""The reference of the plug-ins' options, from their typed attributes and the docstring under each."""

import ast
import inspect
from collections.abc import Iterator
from typing import Any

from crumbcoat_site.calculators.config import CalculatorsConfig
from crumbcoat_site.findable_pages.config import FindablePagesConfig
from crumbcoat_site.journal_skin.config import JournalSkinConfig
from crumbcoat_site.offline_pages.config import OfflinePagesConfig
from crumbcoat_site.publishing.config import PublishingConfig
from crumbcoat_site.recipe_cards.config import RecipeCardsConfig
from crumbcoat_site.reference.markdown import page, table

PLUGINS: tuple[tuple[str, str, type[Any]], ...] = (
    ("recipe_cards", "Makes a page of every recipe file, with its handout and card.json.", RecipeCardsConfig),
    ("calculators", "Makes the figures live: Python and the calculations in the reader's browser.", CalculatorsConfig),
    (
        "findable_pages",
        "Optional. Feeds, the sitemap, robots.txt, and the way to each page for search engines. It needs `site_url`.",
        FindablePagesConfig,
    ),
    ("offline_pages", "Optional. Makes visited pages work offline, and the site installable.", OfflinePagesConfig),
    (
        "publishing",
        "Optional. Makes a host send the finished site safely and quickly: [publishing](publishing.md).",
        PublishingConfig,
    ),
    ("journal_skin", "Optional. The look of the demo, for the whole site.", JournalSkinConfig),
)
"""Name in mkdocs.yml, what the plug-in is for, and its options."""

INTRO = """
The plug-ins are independent: a site takes those it wants under `plugins:` in `mkdocs.yml`. `recipe_cards` and
`calculators` belong together on a site with live figures. All options have a default. A name that does not exist, or a
value that an option cannot have, stops a build with its line; `crumbcoat check` finds such a name too.
"""


def options_page() -> str:
    """The page as Markdown."""
    return page("Options", "Every option of the plug-ins", INTRO, *_sections())


def option_rows(config: type[Any]) -> list[tuple[str, str, str]]:
    """Name, default and description of each option of a plug-in."""
    described = _docstrings(config)
    return [(f"`{name}`", _default(option.default), described[name]) for name, option in config()._schema]


def _sections() -> Iterator[str]:
    for name, purpose, config in PLUGINS:
        yield f"## {name}"
        yield purpose
        yield table(("option", "default", "what it does"), option_rows(config))


def _docstrings(config: type[Any]) -> dict[str, str]:
    (definition,) = ast.parse(inspect.getsource(config)).body
    assert isinstance(definition, ast.ClassDef)
    found = {}
    for statement, after in zip(definition.body, definition.body[1:], strict=False):
        if isinstance(statement, ast.Assign) and isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant):
            (target,) = statement.targets
            assert isinstance(target, ast.Name)
            found[target.id] = " ".join(str(after.value.value).split())
    return found


def _default(value: object) -> str:
    if isinstance(value, bool):
        return "`true`" if value else "`false`"
    return f"`{value}`" if value else "none"
