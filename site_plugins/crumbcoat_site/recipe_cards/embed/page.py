"""A recipe's card for a page of another site: one HTML file, and the lines that put it there."""

import re
from collections.abc import Sequence
from dataclasses import replace

from crumbcoat_calc.values.marks import plain_text
from crumbcoat_calc.values.spacing import page_html
from markupsafe import Markup

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.card.card import Card
from crumbcoat_site.recipe_cards.card.embed_shell import HOST_SCRIPT, EmbedShell
from crumbcoat_site.recipe_cards.card.json_ld_lines import ingredient_lines

_ADDRESS = re.compile(r'(?<= )(href|src)="(?!#|/|[a-z][a-z+.-]*:)([^"]*)"', re.IGNORECASE)
_SOURCES = re.compile(r'(?<= )srcset="([^"]*)"')
_LINK = re.compile(r'<a (?=[^>]*href="[^#])(?![^>]*target=)')


def embed_html(card: Card, shell: EmbedShell) -> str:
    """The page `embed/` below a card, to be shown in a frame."""
    url = f"{card.name}/embed/"
    inner = component("embed", card=replace(card, embedded=True, lines_to_copy=()), site=shell.site_name)
    page = component(
        "embed/page",
        title=card.recipe.title,
        canonical=f"{shell.site_url}{card.name}/" if shell.site_url else "../",
        language=shell.language,
        styles=[relative_address(path, url) for path in shell.styles],
        scripts=[relative_address(path, url) for path in shell.scripts],
        body=shell.body,
        dark=shell.dark,
        inner=Markup(one_deeper(str(page_html(card.context.context.region, inner)))),
    )
    return str(page)


def one_deeper(html: str) -> str:
    """HTML of a card as a page below has it: relative addresses lead there too, and links leave the frame.

    >>> one_deeper('<a href="card.json">1</a> <a href="#step-1-1">2</a>')
    '<a target="_blank" rel="noopener" href="../card.json">1</a> <a href="#step-1-1">2</a>'
    >>> one_deeper('<img src="../veil.jpg" srcset="../a.webp 1x, ../b.webp 2x">')
    '<img src="../../veil.jpg" srcset="../../a.webp 1x, ../../b.webp 2x">'
    """
    html = _ADDRESS.sub(r'\1="../\2"', html)
    html = _SOURCES.sub(lambda found: f'srcset="{_sources_deeper(found[1])}"', html)
    return _LINK.sub('<a target="_blank" rel="noopener" ', html)


def _sources_deeper(sources: str) -> str:
    parts = [part.strip() for part in sources.split(",")]
    return ", ".join(part if re.match(r"/|[a-z][a-z+.-]*:", part) else f"../{part}" for part in parts)


def lines_to_copy(card: Card, shell: EmbedShell) -> Sequence[tuple[str, str]]:
    """Lines of HTML that put a card into a page of another site, each after what it gives; none without an address."""
    if not shell.site_url:
        return ()
    script = Markup('<script async src="{}"></script>').format(f"{shell.site_url}{HOST_SCRIPT}")
    page = f"{shell.site_url}{card.name}/"
    frame = Markup('<iframe src="{}" title="{}" width="100%" height="720" loading="lazy"></iframe>')
    element = Markup('<crumbcoat-card src="{}">{}</crumbcoat-card>')
    return (
        ("In a frame", f"{frame.format(f'{page}embed/', card.recipe.title)}\n{script}"),
        ("As a part of your page", f"{element.format(f'{page}embed/', _in_short(card, page))}\n{script}"),
    )


def _in_short(card: Card, page: str) -> Markup:
    """The recipe as plain HTML: what shows where scripts do not run, and what search engines read."""
    recipe = card.recipe
    ingredients = ingredient_lines(card, card.context.context.region)
    steps = [plain_text(step.do) for stage in recipe.stages for step in stage.steps]
    return component("embed/in_short", title=recipe.title, page=page, ingredients=ingredients, steps=steps)
