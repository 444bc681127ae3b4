"""Directives: a line of a Markdown page, such as `<!-- crumbcoat: recipe list -->`, is replaced by what it asks for."""

from collections.abc import Collection, Sequence

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import nearest_of
from crumbcoat_calc.values.spacing import page_html

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.calculator_forms import calculator_form
from crumbcoat_site.recipe_cards.pages.recipe_groups import Group, group_list, recipe_groups
from crumbcoat_site.recipe_cards.pages.recipe_lists import (
    fat_chart,
    kind_tables,
    model_list,
    recipe_list,
    short_card,
    whole_card,
)
from crumbcoat_site.recipe_cards.pages.recipe_options import RecipeOption
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage, recipe_fields
from crumbcoat_site.recipe_cards.pages.written_directives import (
    BY_HAND,
    CARD,
    OF_GROUP,
    WHOLE,
    check_names,
    lines_of,
    parsed,
    refuse_drafts,
    refuse_what_was_meant_for_one,
    refuse_whole_card,
)
from crumbcoat_site.recipe_cards.source.source_errors import SourceError

_MOST, _LEAST = {"compare": 4, "handout": 2}, {"compare": 2}
"""How many recipes a calculator begins with where its directive names none; for the others, one."""


def with_directives(
    markdown: str,
    file: str,
    content: str,
    url: str,
    pages: Sequence[RecipePage],
    cache: PageCache,
    drafts: Collection[str] = (),
    region: str | None = None,
    groups: Sequence[Group] = (),
) -> str:
    """The Markdown with every directive replaced.

    The directives are `LISTS` of `written_directives`, `recipe list of <group>`, `card <recipe>`,
    `whole card <recipe>`, and `<calculator> from <recipe> …` for each of its `CALCULATORS`.

    Args:
        file: the name of the page's file, as errors show it.
        content: all of the file, of which the Markdown is the end.
        url: the page's own address from the root of the site.
        pages: the recipes of the site.
        cache: where forms are kept.
        drafts: the names of recipes that are not in the site yet.
        region: that of the site, if it has one.
        groups: those that have a page.

    Raises:
        SourceError: at a directive that does not exist or cannot be used, or a comment that was meant for one.
    """
    before = content.removesuffix(markdown)
    first_line = 1 if before == content else 1 + before.count("\n")
    own = next((page.name for page in pages if page.url == url), None)
    lines = []
    for number, (line, words, is_code) in enumerate(lines_of(markdown), first_line):
        try:
            if words is None and not is_code:
                refuse_what_was_meant_for_one(line)
            if words is not None:
                refuse_drafts(words, drafts)
                refuse_whole_card(words, content, number, own)
            lines.append(line if words is None else _replacement(words, url, pages, cache, region, groups))
        except InputError as error:
            raise SourceError(file, number, error.problem, error.remedy) from None
    return "\n".join(lines)


def _replacement(
    words: str, url: str, pages: Sequence[RecipePage], cache: PageCache, region: str | None, groups: Sequence[Group]
) -> str:
    if words.startswith(OF_GROUP):
        return recipe_list(_group(words.removeprefix(OF_GROUP), pages, groups).recipes, url)
    what, names = parsed(words)
    if what == "groups":
        return group_list(groups, url)
    if what == "fat chart":
        return fat_chart(pages, url)
    if what == "recipe list":
        return recipe_list(pages, url)
    if what == "models":
        return page_html(region, model_list())
    if what == "kinds":
        return kind_tables()
    if not names:
        names = sorted(page.name for page in pages)[: _MOST.get(what, 1)]
        if len(names) < _LEAST.get(what, 1):
            needed = "two recipes" if what in _LEAST else "a recipe"
            return f"*This page needs {needed} to begin with.*"
    if what in (CARD, WHOLE):
        check_names(names, sorted(page.name for page in pages))
        show = short_card if what == CARD else whole_card
        return show(next(page for page in pages if page.name == names[0]), url)
    if what == BY_HAND:
        return _by_hand(names, pages, cache)
    return _form(what, names, url, pages, cache, region)


def _group(name: str, pages: Sequence[RecipePage], groups: Sequence[Group]) -> Group:
    """The group of that name, of whatever sort and size: one of `groups`, which have a page, or any other.

    Raises:
        InputError: if there is none.
    """
    for group in groups:
        if group.name == name:
            return group
    by_name = {group.name: group for group in recipe_groups(pages)}
    if name not in by_name:
        raise InputError(f"there is no group {name!r} of recipes", nearest_of(name, by_name, "name"))
    return by_name[name]


def _by_hand(names: Sequence[str], pages: Sequence[RecipePage], cache: PageCache) -> str:
    # Imported here because a page without it need not load calc.
    from crumbcoat_site.recipe_cards.pages.fat_by_hand import fat_by_hand

    by_name = {page.name: page for page in pages}
    check_names(names, sorted(by_name))
    return "\n\n".join(fat_by_hand(recipe_fields(by_name[name], cache)) for name in names)


def _form(
    calculator: str, names: Sequence[str], url: str, pages: Sequence[RecipePage], cache: PageCache, region: str | None
) -> str:
    by_name = {page.name: page for page in sorted(pages, key=lambda page: page.name)}
    options = [
        RecipeOption(name=name, title=page.title, card=relative_address(f"{page.url}card.json", url))
        for name, page in by_name.items()
    ]
    return calculator_form(calculator, names, options, lambda name: recipe_fields(by_name[name], cache), cache, region)
