"""Directives: a line of a Markdown page, such as `<!-- crumbcoat: recipe list -->`, is replaced by what it asks for."""

import re
from collections.abc import Iterator, Mapping, Sequence

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import did_you_mean

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.calculator_forms import CALCULATORS, calculator_form
from crumbcoat_site.recipe_cards.pages.recipe_lists import fat_chart, model_list, recipe_list
from crumbcoat_site.recipe_cards.pages.recipe_options import RecipeOption
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage, recipe_fields
from crumbcoat_site.recipe_cards.source.source_errors import SourceError

LISTS = ("fat chart", "recipe list", "models")
_DIRECTIVE = re.compile(r" {0,3}<!-- crumbcoat:(.*?)-->\s*")
_FENCE = re.compile(r" {0,3}(`{3,}|~{3,})")


def directives_in(markdown: str) -> tuple[str, ...]:
    """The words of every directive in a Markdown text; a directive in a fenced block of code is only shown.

    >>> directives_in("# Home\\n<!-- crumbcoat: fat chart -->\\n```\\n<!-- crumbcoat: models -->\\n```\\n")
    ('fat chart',)
    """
    return tuple(words for _, words in _lines(markdown) if words is not None)


def page_with(directive: str, pages: Mapping[str, str]) -> str | None:
    """The address of the first page with a directive that begins in this way; None if there is none.

    Args:
        pages: the Markdown of each page by its address.
    """
    for url, markdown in pages.items():
        if "<!-- crumbcoat:" in markdown and any(words.startswith(directive) for words in directives_in(markdown)):
            return url
    return None


def with_directives(
    markdown: str, file: str, content: str, url: str, pages: Sequence[RecipePage], cache: PageCache
) -> str:
    """The Markdown with every directive replaced.

    The directives are `fat chart`, `recipe list`, `models`, and `<calculator> from <recipe> …` for each of
    `calculator_forms.CALCULATORS`.

    Args:
        file: the name of the page's file, as errors show it.
        content: all of the file, of which the Markdown is the end.
        url: the page's own address from the root of the site.
        pages: the recipes of the site.
        cache: where forms are kept.

    Raises:
        SourceError: at a directive that does not exist or cannot be used.
    """
    before = content.removesuffix(markdown)
    first_line = 1 if before == content else 1 + before.count("\n")
    lines = []
    for number, (line, words) in enumerate(_lines(markdown), first_line):
        try:
            lines.append(line if words is None else _replacement(words, url, pages, cache))
        except InputError as error:
            raise SourceError(file, number, error.problem, error.remedy) from None
    return "\n".join(lines)


def _lines(markdown: str) -> Iterator[tuple[str, str | None]]:
    """Each line, with the words of the directive if it is one."""
    fence = ""
    for line in markdown.split("\n"):
        mark = _FENCE.match(line)
        directive = None if fence else _DIRECTIVE.fullmatch(line)
        if mark and not fence:
            fence = mark[1]
        elif mark and mark[1].startswith(fence) and line.strip() == mark[1]:
            fence = ""
        yield line, " ".join(directive[1].split()) if directive else None


def _replacement(words: str, url: str, pages: Sequence[RecipePage], cache: PageCache) -> str:
    if words == "fat chart":
        return fat_chart(pages, url)
    if words == "recipe list":
        return recipe_list(pages, url)
    if words == "models":
        return model_list()
    calculator, _, names = words.partition(" from ")
    if calculator in CALCULATORS and names:
        return _form(calculator, names.split(), url, pages, cache)
    if words.split(" ")[0] in CALCULATORS:
        raise InputError(f"{words!r} names no recipe", f"write `{words.split(' ')[0]} from` and the path of a recipe")
    known = (*LISTS, *(f"{name} from" for name in CALCULATORS))
    raise InputError(f"there is no directive {words!r}", did_you_mean(words, known, f"write one of {', '.join(known)}"))


def _form(calculator: str, names: Sequence[str], url: str, pages: Sequence[RecipePage], cache: PageCache) -> str:
    by_name = {page.name: page for page in sorted(pages, key=lambda page: page.name)}
    options = [
        RecipeOption(name=name, title=page.title, card=relative_address(f"{page.url}card.json", url))
        for name, page in by_name.items()
    ]
    return calculator_form(calculator, names, options, lambda name: recipe_fields(by_name[name], cache), cache)
