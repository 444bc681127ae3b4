"""A recipe's handout for a class: one HTML file, made for paper."""

from collections.abc import Iterable, Sequence

import segno
from crumbcoat_calc.calculators import run
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.forms.context import Context, PublishedRecipe
from crumbcoat_calc.purchasing.shopping import FREE_FROM_THE_TAP, pieces
from crumbcoat_calc.values.spacing import page_html
from markupsafe import Markup, escape

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.page_context import PageContext, prices_field, region_field
from crumbcoat_site.recipe_cards.handout.shell import HandoutShell


def handout_html(
    published: PublishedRecipe,
    name: str,
    shell: HandoutShell,
    has_sheets: bool = False,
    prices: str | None = None,
) -> str:
    """The handout of a recipe for a class of the usual size.

    Args:
        name: the path of the recipe file in docs_dir without the ending.
        has_sheets: whether the recipe's notebook, with its sheets to print, is in the site.
        prices: the text of the file of prices, if readers are to see what things cost.
    """
    fields = {"recipe": published.data} | prices_field(prices) | region_field(published.region)
    context = PageContext(fields, Context(recipes={"recipe": published}, prices_text=prices, region=published.region))
    _, texts = run("handout", context.context)
    recipe = published.recipe
    url = f"{name}/handout/"
    several = None if shell.several_url is None else relative_address(shell.several_url, url)
    page = component(
        "handout/page",
        texts=texts,
        context=context,
        title=recipe.title,
        bought=kinds_bought(ingredient.food.key for ingredient in recipe.ingredients),
        address=address(f"{shell.site_url}{name}/" if shell.site_url else ""),
        language=shell.language,
        styles=[relative_address(path, url) for path in shell.styles],
        scripts=[relative_address(path, url) for path in shell.scripts],
        several=several,
        has_sheets=has_sheets,
    )
    return page_html(published.region, page)


def kinds_bought(keys: Iterable[str]) -> Sequence[tuple[str, str]]:
    """The key and name of each kind that is bought in packs, sorted by name."""
    bought = set(keys) - set(pieces()) - FREE_FROM_THE_TAP - {""}
    return sorted(((key, food(key).name) for key in bought), key=lambda pair: pair[1])


def address(url: str) -> Markup:
    """The address of the live card, also as a QR code; nothing without an address.

    Source:
        ISO/IEC 18004 (by segno).
    """
    if not url:
        return Markup("")
    code = segno.make(url, error="m", micro=False).svg_inline(
        omitsize=True, border=2, svgclass="cc-code", lineclass=None
    )
    return Markup("<p class='cc-address'>{code}<span>The live card: <a href='{url}'>{url}</a></span></p>").format(
        code=Markup(code), url=escape(url)
    )
