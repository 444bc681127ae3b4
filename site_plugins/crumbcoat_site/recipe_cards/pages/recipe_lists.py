"""What a directive lists: the recipes of the site with a chart of their fat, the models, the kinds of ingredient."""

from collections.abc import Sequence

from crumbcoat_calc.values.spacing import unbroken_html
from markupsafe import Markup

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage


def fat_chart(pages: Sequence[RecipePage], url: str) -> str:
    """A bar for the fat percentage of each recipe, the richest first; `url` is that of the page with the chart."""
    richest_first = sorted(pages, key=lambda page: (-(page.fat_percent or -1.0), page.title))
    shown = [(page, relative_address(page.url, url)) for page in richest_first]
    return Markup(unbroken_html(component("fat_chart", pages=shown)))


def recipe_list(pages: Sequence[RecipePage], url: str) -> str:
    """A card of each recipe, by family; `url` is that of the page with the list."""
    by_family = sorted(pages, key=lambda page: (page.family, page.title))
    shown = [(page, relative_address(page.url, url), page.cover_on(url)) for page in by_family]
    return Markup(unbroken_html(component("recipe_list", pages=shown)))


def short_card(page: RecipePage, url: str) -> str:
    """A recipe with its key figures and amounts; `url` is that of the page that shows it."""
    shown = component("short_card", page=page, url=relative_address(page.url, url), cover=page.cover_on(url))
    return Markup(unbroken_html(shown))


def whole_card(page: RecipePage, url: str) -> str:
    """A recipe whole and live, in a frame that takes the place of its short form."""
    return component(
        "whole_card", title=page.title, frame=relative_address(f"{page.url}embed/", url), short=short_card(page, url)
    )


def model_list() -> str:
    """Every figure of the science with its model, range and source."""
    # Imported here because few pages list the models, which come from all of calc.
    from crumbcoat_calc.texts.explained import EXPLAINED, GROUPS

    lists = [(group, [figure for figure in EXPLAINED if figure.group == group]) for group in GROUPS]
    return "\n\n".join([f"### {group}\n\n{component('models', figures=figures)}" for group, figures in lists])


def kind_tables() -> str:
    """Every kind of ingredient with its names and measures, by group."""
    # Imported here, as above: calc and its tables.
    from crumbcoat_site.recipe_cards.pages.kind_tables import sections

    return "\n\n".join(sections())
