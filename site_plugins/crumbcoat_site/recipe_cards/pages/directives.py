"""Directives: a line of a Markdown page, such as `<!-- crumbcoat: recipe list -->`, is replaced by what it asks for.

A comment that begins with a word like `crumbcoat` without being a directive, or one inside a line of text, is an error,
except in code: a page must not come out without what its writer asked for.
"""

import difflib
import re
from collections.abc import Collection, Iterator, Mapping, Sequence

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import nearest_of
from crumbcoat_calc.values.region import html_in

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.calculator_forms import CALCULATORS, calculator_form, check_names
from crumbcoat_site.recipe_cards.pages.recipe_lists import fat_chart, kind_tables, model_list, recipe_list
from crumbcoat_site.recipe_cards.pages.recipe_options import RecipeOption
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage, recipe_fields
from crumbcoat_site.recipe_cards.source.source_errors import SourceError

_MOST, _LEAST = {"compare": 4, "handout": 2}, {"compare": 2}
"""How many recipes a calculator begins with where its directive names none; for the others, one."""

LISTS = ("fat chart", "recipe list", "models", "kinds")
BY_HAND = "by hand"
_DIRECTIVE = re.compile(r" {0,3}<!--\s*crumbcoat:(.*?)-->\s*")
_WITH_RECIPES = (BY_HAND, *CALCULATORS)
_KNOWN = (*LISTS, *(f"{name} from …" for name in _WITH_RECIPES))
_LIKE_OURS = 0.75
"""How much of a word must be as in `crumbcoat`, from 0 to 1, for it to be taken for a slip (by trying)."""
_COMMENT = re.compile(r"<!--\s*(\w+(?:[ _-]coat)?)\b(?:\s*:)?(.*?)(-->|$)")
_CODE = re.compile(r"(?<!`)(`+)(?!`).*?(?<!`)\1(?!`)")
_FENCE = re.compile(r" {0,3}(`{3,}|~{3,})")


def directives_in(markdown: str) -> tuple[str, ...]:
    """The words of every directive in a Markdown text; a directive in a fenced block of code is only shown.

    >>> directives_in("# Home\\n<!-- crumbcoat: fat chart -->\\n```\\n<!-- crumbcoat: models -->\\n```\\n")
    ('fat chart',)
    """
    return tuple(words for _, words, _ in _lines(markdown) if words is not None)


def page_with(directive: str, pages: Mapping[str, str]) -> str | None:
    """The address of the first page with a directive that begins in this way; None if there is none.

    Args:
        pages: the Markdown of each page by its address.
    """
    for url, markdown in pages.items():
        if "crumbcoat:" in markdown and any(words.startswith(directive) for words in directives_in(markdown)):
            return url
    return None


def with_directives(
    markdown: str,
    file: str,
    content: str,
    url: str,
    pages: Sequence[RecipePage],
    cache: PageCache,
    drafts: Collection[str] = (),
    region: str = "EU",
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
        drafts: the names of recipes that are not in the site yet.
        region: that of the site.

    Raises:
        SourceError: at a directive that does not exist or cannot be used, or a comment that was meant for one.
    """
    before = content.removesuffix(markdown)
    first_line = 1 if before == content else 1 + before.count("\n")
    lines = []
    for number, (line, words, is_code) in enumerate(_lines(markdown), first_line):
        try:
            if words is None and not is_code:
                _refuse_what_was_meant_for_one(line)
            if words is not None:
                _refuse_drafts(words, drafts)
            lines.append(line if words is None else _replacement(words, url, pages, cache, region))
        except InputError as error:
            raise SourceError(file, number, error.problem, error.remedy) from None
    return "\n".join(lines)


def directive_problems(content: str, file: str, names: Sequence[str], drafts: Collection[str]) -> list[SourceError]:
    """Every directive in a page that cannot be used, without using them.

    Args:
        content: all of the page's file.
        file: its name, as errors show it.
        names: the recipes of the site.
        drafts: those that are not in the site yet.
    """
    problems = []
    for number, (line, words, is_code) in enumerate(_lines(content), 1):
        try:
            if words is None and not is_code:
                _refuse_what_was_meant_for_one(line)
            if words is not None:
                _refuse_drafts(words, drafts)
                check_names(_parsed(words)[1], names)
        except InputError as error:
            problems.append(SourceError(file, number, error.problem, error.remedy))
    return problems


def _lines(markdown: str) -> Iterator[tuple[str, str | None, bool]]:
    """Each line, with the words of the directive if it is one, and whether it is code."""
    fence = ""
    for line in markdown.split("\n"):
        mark = _FENCE.match(line)
        directive = None if fence else _DIRECTIVE.fullmatch(line)
        if mark and not fence:
            fence = mark[1]
        elif mark and mark[1].startswith(fence) and line.strip() == mark[1]:
            fence = ""
        is_code = bool(fence) or line.startswith(("    ", "\t"))
        yield line, " ".join(directive[1].split()) if directive else None, is_code


def _refuse_what_was_meant_for_one(line: str) -> None:
    """Refuse a comment in a line that is not a directive, but begins with a word like `crumbcoat`."""
    for comment in _COMMENT.finditer(_CODE.sub("", line)) if "<!--" in line else ():
        word, words, end = comment[1], " ".join(comment[2].split()), comment[3]
        if difflib.SequenceMatcher(None, word.lower(), "crumbcoat").ratio() < _LIKE_OURS:
            continue
        written = " ".join(f"<!-- {comment[0].removeprefix('<!--').strip()}".split())[:80]
        if word == "crumbcoat" and re.match(r"<!--\s*crumbcoat:", comment[0]):
            if not end:
                raise InputError(f"{written!r} has no end in its line", "write all of it in one line, up to `-->`")
            raise InputError(f"{written!r} is in a line with other text", "give it a line of its own")
        known = _is_known(words.lower())
        example = f"<!-- crumbcoat: {words.lower() if known else LISTS[1]} -->"
        remedy = f"write it like `{example}`; the directives are: {', '.join(_KNOWN)}"
        raise InputError(f"{written!r} is not a directive", remedy)


def _refuse_drafts(words: str, drafts: Collection[str]) -> None:
    named = [name for name in words.partition(" from ")[2].split() if name in drafts]
    if named:
        raise InputError(
            f"the recipe {named[0]!r} is a draft, so it is not in this site", "publish it, or name another recipe"
        )


def _is_known(words: str) -> bool:
    return words in (*LISTS, *_WITH_RECIPES) or any(words.startswith(f"{name} from ") for name in _WITH_RECIPES)


def _parsed(words: str) -> tuple[str, list[str]]:
    """What a directive asks for, and the recipes that it names.

    Raises:
        InputError: if there is no such directive, or it should name recipes and does not.
    """
    what, _, names = words.partition(" from ")
    if (what in LISTS and what == words) or words in _WITH_RECIPES or (what in _WITH_RECIPES and names):
        return what, names.split()
    for known in _WITH_RECIPES:
        if words == f"{known} from" or words.startswith(f"{known} "):
            raise InputError(f"{words!r} names no recipe", f"write `{known} from` and the path of a recipe")
    raise InputError(f"there is no directive {words!r}", nearest_of(words, _KNOWN, "write"))


def _replacement(words: str, url: str, pages: Sequence[RecipePage], cache: PageCache, region: str) -> str:
    what, names = _parsed(words)
    if what == "fat chart":
        return fat_chart(pages, url)
    if what == "recipe list":
        return recipe_list(pages, url)
    if what == "models":
        return html_in(region, model_list())
    if what == "kinds":
        return kind_tables()
    if not names:
        names = sorted(page.name for page in pages)[: _MOST.get(what, 1)]
        if len(names) < _LEAST.get(what, 1):
            needed = "two recipes" if what in _LEAST else "a recipe"
            return f"*This page needs {needed} to begin with.*"
    if what == BY_HAND:
        return _by_hand(names, pages, cache)
    return _form(what, names, url, pages, cache, region)


def _by_hand(names: Sequence[str], pages: Sequence[RecipePage], cache: PageCache) -> str:
    # Imported here because a page without it need not load calc.
    from crumbcoat_site.recipe_cards.pages.fat_by_hand import fat_by_hand

    by_name = {page.name: page for page in pages}
    check_names(names, sorted(by_name))
    return "\n\n".join(fat_by_hand(recipe_fields(by_name[name], cache)) for name in names)


def _form(
    calculator: str, names: Sequence[str], url: str, pages: Sequence[RecipePage], cache: PageCache, region: str
) -> str:
    by_name = {page.name: page for page in sorted(pages, key=lambda page: page.name)}
    options = [
        RecipeOption(name=name, title=page.title, card=relative_address(f"{page.url}card.json", url))
        for name, page in by_name.items()
    ]
    return calculator_form(calculator, names, options, lambda name: recipe_fields(by_name[name], cache), cache, region)
