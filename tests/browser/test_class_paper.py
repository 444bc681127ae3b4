"""How much paper the handout of a class takes, and what is on each page; paper sizes as in test_handout."""

import re
from collections.abc import Mapping
from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.calculators import run
from crumbcoat_calc.values.spacing import page_html
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.build.page_context import page_context
from playwright.sync_api import Page

from tests.browser.test_handout import FEW, SILK, check_sizes, texts_of, words

RECIPES = Path(__file__).parents[2] / "recipes"
BOTH = ("buttercreams/swiss-meringue-buttercream", "milk-emulsions/everyday-milk-frosting")
CLASS = {"students": "18", "groups": "6", "mixers": "2", "bowls": "6", "available": "150 min"}
COOKING_ONLY = dict.fromkeys(("goals", "prediction", "tasting", "diagnosis", "rubric", "test"), "leave out")


def printed(site: tuple[Path, str], page: Page, file: Path, names: tuple[str, ...], state: Mapping[str, str]) -> Path:
    """A PDF of the handout of a class with these recipes and choices, in the style sheets of the site."""
    slots = ("recipe", "second", "third", "fourth")
    files = [(RECIPES / f"{name}.yaml").read_text(encoding="utf-8") for name in names]
    data = {slot: yaml.load(text, yaml.BaseLoader) for slot, text in zip(slots, files, strict=False)}
    context = page_context(data)
    texts = run("handout", context.context, {}, state)[1]
    source = (site[0] / SILK / "index.html").read_text(encoding="utf-8")
    styles = re.findall(r'<link rel="?stylesheet"? href="?([^" >]+)', source)
    assert styles
    shown = component(
        "handout/page", texts=texts, context=context, bought=(), address="", language="en", styles=styles, scripts=[],
        several=None, has_sheets=False, title=texts["title"],
    )  # fmt: skip
    address = f"{site[1]}{SILK}class.html"
    page.route(address, lambda route: route.fulfill(body=page_html(None, shown), content_type="text/html"))
    page.goto(address)
    page.pdf(path=file, prefer_css_page_size=True)
    return file


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_class_of_six_groups_with_two_recipes_takes_25_pages(
    site: tuple[Path, str], page: Page, tmp_path: Path, paper: str
) -> None:
    """The number was asked for: the sheets of a class are carried, laid on wet tables and thrown away."""
    file = printed(site, page, tmp_path / "class.pdf", BOTH, CLASS | COOKING_ONLY | {"paper": paper})
    check_sizes(file, paper)
    texts = texts_of(file)
    assert len(texts) <= 25
    for number, text in enumerate(texts, 1):
        assert words(f"{number} / {len(texts)}") in words(text)
        assert len(words(text)) > 300, f"page {number} has hardly anything"
    of_groups = [text for text in texts if re.search(r"sheet \d of 3", text)]
    assert len(of_groups) == 6 * 3
    for number, text in enumerate(of_groups):
        assert f"Group {number // 3 + 1}" in text
        titles = ("Swiss meringue buttercream", "Everyday milk frosting")
        assert all(title in text for title in (titles if number % 3 == 2 else titles[number % 3 : number % 3 + 1]))


@pytest.mark.parametrize("name", FEW)
def test_each_sheet_of_one_recipe_is_a_page(site: tuple[Path, str], page: Page, tmp_path: Path, name: str) -> None:
    texts = texts_of(printed(site, page, tmp_path / "one.pdf", (name,), {}))
    sheets = [found[0] for text in texts if (found := re.findall(r"sheet \d of \d", text))]
    count = int(sheets[0][-1])
    assert sheets == [f"sheet {number} of {count}" for number in range(1, count + 1)] * 4


@pytest.mark.parametrize(
    ("pages", "shown", "hidden"),
    [("groups' sheets", "Group 1", "run sheet"), ("teacher's pages", "run sheet", "sheet 1 of 3")],
)
def test_a_part_is_printed_by_one_choice(
    site: tuple[Path, str], page: Page, tmp_path: Path, pages: str, shown: str, hidden: str
) -> None:
    texts = texts_of(printed(site, page, tmp_path / "part.pdf", BOTH, CLASS | COOKING_ONLY | {"pages": pages}))
    together = words("".join(texts)).lower()
    assert words(shown).lower() in together
    assert words(hidden).lower() not in together
    assert all(len(words(text)) > 300 for text in texts), "an empty page"
