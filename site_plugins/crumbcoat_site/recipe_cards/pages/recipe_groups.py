"""Groups of recipes that have something in common, each with a page that lists them."""

import posixpath
import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import floor

from markupsafe import escape

from crumbcoat_site.recipe_cards.build.addresses import relative_address
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.front_matter import front_matter
from crumbcoat_site.recipe_cards.build.page_parts import markdown_safe
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage

SORTS: Mapping[str, str] = {
    "folder": "Folders",
    "family": "Families",
    "keyword": "Keywords",
    "fat": "Fat",
    "without": "Not among the ingredients",
    "keeping": "Keeping",
    "tool": "Made with",
}
"""The sorts of groups, each with the heading over its groups."""

USUAL = ("folder", "family", "keyword", "fat", "without")
INDEX = "groups/index.md"
_INDEX_URL = "groups/"

_BAND = 10
"""How wide a band of fat is, in g per 100 g (our choice)."""

_PLACES = {"in the refrigerator": ("refrigerator", 3), "in the freezer": ("freezer", 0)}
"""The places of a group by keeping: its name, and the fewest days that count (our choice)."""

_DAY_S = 86400.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Recipes that have something in common; `place` is that of its page in docs_dir, `words` are for a sentence."""

    sort: str
    slug: str
    title: str
    words: str
    about: str
    place: str
    recipes: tuple[RecipePage, ...]

    @property
    def name(self) -> str:
        """What a directive calls it."""
        return f"{self.sort} {self.slug}"

    @property
    def url(self) -> str:
        """The address of its page from the root of the site."""
        return self.place.removesuffix("index.md").removesuffix(".md") + (
            "" if self.place.endswith("index.md") else "/"
        )


def recipe_groups(pages: Sequence[RecipePage], sorts: Collection[str] = tuple(SORTS), smallest: int = 1) -> list[Group]:
    """The groups in the order of `SORTS` and then of their names.

    Of fat, allergens and keeping there is none with all recipes of the site: it would say nothing.

    Args:
        sorts: the sorts that are wanted.
        smallest: how many recipes a group has at least.
    """
    found: dict[tuple[str, str], list[tuple[RecipePage, tuple[str, str, str]]]] = {}
    for page in sorted(pages, key=lambda page: (page.title, page.name)):
        for sort, slug, title, words, about in _in_groups(page):
            if sort in sorts:
                found.setdefault((sort, slug), []).append((page, (title, words, about)))
    order = list(SORTS)
    groups = []
    for (sort, slug), members in sorted(found.items(), key=lambda item: (order.index(item[0][0]), item[0][1])):
        says_nothing = sort in ("fat", "without", "keeping") and len(members) == len(pages) > 1
        if len(members) < smallest or says_nothing:
            continue
        title, words, about = members[0][1]
        place = f"{members[0][0].name.rpartition('/')[0]}/index.md" if sort == "folder" else f"groups/{sort}/{slug}.md"
        recipes = tuple(page for page, _ in members)
        groups.append(Group(sort=sort, slug=slug, title=title, words=words, about=about, place=place, recipes=recipes))
    return groups


def group_pages(groups: Sequence[Group], taken: Collection[str]) -> dict[str, str]:
    """The Markdown of the page of each group, and of the list of all groups, by place; pages of the site stay.

    Args:
        taken: the places of the site's own pages, which are not made.
    """
    pages = {group.place: _page(group) for group in groups}
    if groups:
        title = "Groups of recipes"
        pages[INDEX] = front_matter({"title": title}) + f"\n# {title}\n\n<!-- crumbcoat: groups -->\n"
    return {place: markdown for place, markdown in pages.items() if place not in taken}


def group_list(groups: Sequence[Group], url: str) -> str:
    """All groups by their sorts; `url` is that of the page with the list."""
    sorts = [
        (
            heading,
            [
                (group.title, len(group.recipes), relative_address(group.url, url))
                for group in groups
                if group.sort == sort
            ],
        )
        for sort, heading in SORTS.items()
    ]
    return component("group_list", sorts=[(heading, shown) for heading, shown in sorts if shown])


def groups_of(page: RecipePage, groups: Sequence[Group]) -> list[tuple[str, str]]:
    """The groups of a recipe: words and address of each, from its page."""
    names = {(sort, slug) for sort, slug, *_ in _in_groups(page)}
    mine = [group for group in groups if (group.sort, group.slug) in names]
    found = [(group.words, relative_address(group.url, page.url)) for group in mine]
    return [*found, ("all groups", relative_address(_INDEX_URL, page.url))] if found else []


def slug_of(words: str) -> str:
    """Words as an address has them.

    >>> slug_of("Sugar-and-butter frosting"), slug_of("25 % fat")
    ('sugar-and-butter-frosting', '25-fat')
    """
    return re.sub(r"[^\w]+", "-", words.lower()).strip("-")


def _in_groups(page: RecipePage) -> Iterator[tuple[str, str, str, str, str]]:
    """The groups of a recipe: sort, slug, title, name in a sentence, and what the page says above its list."""
    folder = posixpath.dirname(page.name)
    if folder:
        words = posixpath.basename(folder).replace("-", " ").replace("_", " ")
        yield "folder", slug_of(folder), words.capitalize(), words, ""
    yield "family", slug_of(page.family), page.family.capitalize(), page.family, ""
    for slug, keyword in {slug_of(keyword): keyword for keyword in reversed(page.keywords)}.items():
        if slug:
            yield "keyword", slug, keyword[:1].upper() + keyword[1:], keyword, ""
    if page.fat_percent is not None:
        low = floor(page.fat_percent / _BAND) * _BAND
        words = f"{low} to {low + _BAND} % fat"
        yield (
            "fat",
            f"{low}-to-{low + _BAND}",
            words,
            words,
            "In 100 g of the finished batch, worked out from the recipe as published.",
        )
    for allergen in page.allergens_absent:
        about = (
            f"In each of these recipes as published, no ingredient listed contains {allergen}. What can replace an "
            "ingredient may contain it, and so may what is bought: read the packs. The list does not show that a food "
            "is free of it."
        )
        yield "without", allergen, f"No {allergen} among the ingredients", f"no {allergen} listed", about
    for where, longest_s in page.keeps:
        name, days = _PLACES.get(where, ("", 0))
        if name and longest_s >= days * _DAY_S:
            title = f"Keeps {where}" + (f" for {days} days or longer" if days else "")
            about = "As the author of each recipe says. The times are for quality; the food code where you are decides."
            yield "keeping", name, title, title[0].lower() + title[1:], about
    for tool in page.tools:
        if slug_of(tool):
            yield "tool", slug_of(tool), f"Made with: {tool}", tool, ""


def _page(group: Group) -> str:
    about = f"{group.about}\n\n" if group.about else ""
    head = front_matter({"title": str(escape(group.title))})  # The theme prints it as it is.
    return f"{head}\n# {markdown_safe(group.title)}\n\n{about}<!-- crumbcoat: recipe list of {group.name} -->\n"
