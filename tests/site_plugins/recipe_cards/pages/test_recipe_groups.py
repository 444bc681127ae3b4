"""Groups of recipes, and recipes that are near another one."""

import html
import math
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import markdown
import pytest
import yaml
from crumbcoat_site.recipe_cards.build.cache import PageCache
from crumbcoat_site.recipe_cards.pages.directives import with_directives
from crumbcoat_site.recipe_cards.pages.recipe_groups import INDEX, Group, group_pages, groups_of, recipe_groups
from crumbcoat_site.recipe_cards.pages.recipe_pages import RecipePage
from crumbcoat_site.recipe_cards.pages.related_recipes import MOST, RelatedRecipes, difference
from crumbcoat_site.recipe_cards.source.source_errors import SourceError
from hypothesis import given
from hypothesis import strategies as st

from tests.site_plugins.recipe_cards.conftest import read_html


def page(name: str, fat: float | None = 20.0, sugars: float = 30.0, water: float = 40.0, **more: Any) -> RecipePage:
    facts: dict[str, Any] = {
        "name": name, "key": "", "handout": False, "title": name.rpartition("/")[2].capitalize(), "summary": "",
        "family": "other", "made_for": "bowl", "fat_percent": fat, "fat_text": f"{fat} %", "cover": None,
        "pictures": (), "files": (), "slots": (), "folder": Path(), "composition": (fat, sugars, water),
    }  # fmt: skip
    return RecipePage(**facts | more)


NAMES = ("egg", "milk", "gluten", "nuts")
contents = st.one_of(st.none(), st.sampled_from([0.0, 10.0, 10.1, 25.0]), st.floats(0, 100))
some = st.sets(st.sampled_from(NAMES))
sites = st.lists(st.tuples(contents, contents, contents, some, some), max_size=60)


def by_comparison_with_all(here: RecipePage, pages: Sequence[RecipePage]) -> list[str]:
    """The names of the related recipes, as the definition has them."""
    if None in here.composition:
        return []
    others = sorted([
        (math.dist(here.composition, other.composition), other.name, other)
        for other in pages
        if None not in other.composition and other.name != here.name
    ], key=lambda found: found[:2])  # fmt: skip
    shown = [other for *_, other in others[:MOST]]
    for allergen in here.allergens_listed:
        without = [other for *_, other in others if allergen in other.allergens_absent]
        if without and not any(allergen in other.allergens_absent for other in shown):
            return [other.name for other in [*shown[:-1], without[0]]]
    return [other.name for other in shown]


@given(sites)
def test_the_related_recipes_are_those_of_a_comparison_with_all(site: list[Any]) -> None:
    pages = [
        page(
            f"a/{number}", fat, composition=(fat, sugars, water),
            allergens_listed=sorted(listed - absent), allergens_absent=sorted(absent),
        )
        for number, (fat, sugars, water, listed, absent) in enumerate(site)
    ]  # fmt: skip
    recipes = RelatedRecipes(pages)
    for one in pages:
        assert [other.name for other, _ in recipes.of(one)] == by_comparison_with_all(one, pages)


VEIL = page("low/veil", 9.0, family="ganache", keywords=["Thin"], allergens_listed=["milk"], allergens_absent=["egg"])
SILK = page("low/silk", 12.0, family="ganache", keywords=["thin", "cold", "Cold"], allergens_listed=["milk", "egg"])
SNOW = page("high/snow", 31.0, keeps=[("in the freezer", 86400.0)], allergens_absent=["egg", "milk"], tools=["whisk"])
ALL = (VEIL, SILK, SNOW)


def names(groups: list[Group]) -> dict[str, list[str]]:
    return {group.name: [page.name for page in group.recipes] for group in groups}


def test_recipes_are_grouped_by_what_they_have_in_common() -> None:
    found = names(recipe_groups(ALL))
    assert found["folder low"] == ["low/silk", "low/veil"]
    assert found["family ganache"] == ["low/silk", "low/veil"]
    assert found["keyword thin"] == ["low/silk", "low/veil"]
    assert found["fat 0-to-10"] == ["low/veil"]
    assert found["fat 30-to-40"] == ["high/snow"]
    assert found["without egg"] == ["high/snow", "low/veil"]
    assert found["keeping freezer"] == ["high/snow"]
    assert found["tool whisk"] == ["high/snow"]


def test_a_group_of_one_is_not_made_unless_asked_for() -> None:
    assert set(names(recipe_groups(ALL, smallest=2))) == {
        "folder low", "family ganache", "keyword thin", "without egg",
    }  # fmt: skip
    assert set(names(recipe_groups(ALL, ["fat"], smallest=2))) == set()


def test_what_holds_for_all_recipes_is_not_a_group() -> None:
    assert "without egg" not in names(recipe_groups([VEIL, SNOW]))


def test_nothing_is_said_of_a_recipe_whose_fat_or_allergens_are_not_known() -> None:
    unknown = page("low/fog", None)
    assert [name for name in names(recipe_groups([unknown, VEIL, SNOW])) if name.startswith(("fat", "without"))] == [
        "fat 0-to-10", "fat 30-to-40", "without egg", "without milk",
    ]  # fmt: skip
    assert unknown.name not in names(recipe_groups([unknown, VEIL, SNOW]))["without egg"]
    assert RelatedRecipes([unknown, VEIL]).of(unknown) == []
    assert RelatedRecipes([unknown, VEIL]).of(VEIL) == []


@pytest.mark.parametrize("title", ['A "fine" one', "Back\\slash", "Yes: no # 1", "- list"])
def test_the_front_matter_of_a_group_has_its_title_whatever_is_in_it(title: str) -> None:
    (group,) = recipe_groups([page("a/b", keywords=[title])], ["keyword"])
    head = group_pages([group], ())[group.place].split("---\n")[1]
    assert {name: html.unescape(text) for name, text in yaml.safe_load(head).items()} == {"title": title}


def test_pages_of_groups_are_made_where_the_site_has_none() -> None:
    groups = recipe_groups(ALL, ["folder", "without"], 2)
    pages = group_pages(groups, ())
    assert set(pages) == {"low/index.md", "groups/without/egg.md", "groups/index.md"}
    assert "# No egg among the ingredients\n" in pages["groups/without/egg.md"]
    assert "no ingredient listed contains egg" in pages["groups/without/egg.md"]
    assert "low/index.md" not in group_pages(groups, {"low/index.md"})


def test_a_site_without_groups_has_no_list_of_them() -> None:
    assert group_pages([], ()) == {}


def test_a_recipe_names_its_groups() -> None:
    found = groups_of(VEIL, recipe_groups(ALL, ["family", "without"], 2))
    assert found == [
        ("ganache", "../../groups/family/ganache/"),
        ("no egg listed", "../../groups/without/egg/"),
        ("all groups", "../../groups/"),
    ]


def test_a_directive_lists_a_group(tmp_path: Path) -> None:
    shown = with_directives(
        "<!-- crumbcoat: recipe list of keyword cold -->", "page.md", "", "low/", ALL, PageCache(tmp_path)
    )
    assert 'href="silk/"' in shown
    assert 'href="veil/"' not in shown


def test_a_directive_with_a_group_that_is_not_there_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(SourceError) as caught:
        with_directives("<!-- crumbcoat: recipe list of keyword cld -->", "page.md", "", "", ALL, PageCache(tmp_path))
    assert caught.value.problem == "there is no group 'keyword cld' of recipes"
    assert "'keyword cold'" in caught.value.remedy


@pytest.mark.parametrize(
    ("here", "there", "words"),
    [
        (VEIL, page("a/a", 10.0), "as rich"),
        (VEIL, page("a/b", 30.0), "richer"),
        (VEIL, page("a/f", 15.0), "a little richer"),
        (SNOW, page("a/g", 28.0), "a little less rich"),
        (VEIL, page("a/h", 9.0, allergens_listed=["milk", "egg"]), "as rich, contains egg"),
        (SNOW, page("a/c", 9.0, sugars=40.0), "less rich, more sugar"),
        (SILK, page("a/d", 12.0, sugars=20.0, allergens_absent=["egg"]), "as rich, less sugar, no egg listed"),
        (VEIL, page("a/e", 9.0, allergens_absent=["egg"]), "as rich"),
    ],
)
def test_the_difference_in_words(here: RecipePage, there: RecipePage, words: str) -> None:
    """No egg is said only where this one has egg, egg only where this one has none; nothing of what is not known."""
    assert difference(here, there) == words


def test_the_nearest_come_first_and_one_without_the_allergen_is_among_them() -> None:
    others = [page(f"x/{number}", 12.0 + number) for number in (1, 2, 3, 4, 5)]
    far = page("x/far", 60.0, allergens_absent=["egg"])
    shown = [other.name for other, _ in RelatedRecipes([SILK, far, *others]).of(SILK)]
    assert shown == ["x/1", "x/2", "x/3", "x/far"]


@pytest.mark.parametrize(
    "keyword", ["<script>x()</script>", "*a* {: onclick=x }", "</title><img src=x>", "a &lt;b&gt;"]
)
def test_the_page_of_a_group_shows_its_name_letter_for_letter(keyword: str) -> None:
    """CommonMark 0.31.2 takes HTML in a heading as it is, and the theme prints a title as it is."""
    written = group_pages(recipe_groups([page("veil", keywords=(keyword,))], ["keyword"]), (INDEX,)).popitem()[1]
    _, head, body = written.split("---\n", 2)
    shown = read_html(markdown.markdown(body, extensions=["attr_list"]))
    [heading] = shown.all("h1")
    assert heading.text == keyword[:1].upper() + keyword[1:]
    assert heading.attributes == {}
    assert list(heading.walk()) == [heading]
    assert html.unescape(yaml.safe_load(head)["title"]) == heading.text
    assert "<" not in head
