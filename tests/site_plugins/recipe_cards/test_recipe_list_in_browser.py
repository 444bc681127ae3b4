"""The list of recipes at any width, for any number of recipes: no card is alone in its row."""

from itertools import groupby

import pytest
from crumbcoat_site.recipe_cards.build.assets import sheet
from crumbcoat_site.recipe_cards.build.environment import component
from playwright.sync_api import Page

WIDTHS = {280: 1, 390: 1, 599: 1, 601: 2, 730: 2, 829: 2, 831: 3, 1000: 3, 1119: 3, 1121: 4, 1200: 4, 1900: 4}
"""Of the card in px, at a root size of 20 px as Material has it, and the columns that it has."""


def shown(page: Page, count: int) -> None:
    recipe = {"title": "Butter cream", "family": "other", "summary": "A short one.", "cover": None, "fat_text": "39 %"}
    recipe["mark"] = ""
    summaries = ["A longer one. " * (1 + number % 4) for number in range(count)]
    recipes = [({**recipe, "summary": summary}, f"{number}/", None) for number, summary in enumerate(summaries)]
    page.set_content(
        f"<html dir=ltr style='font-size: 20px'><style>body {{ margin: 0 }} span, b {{ display: block }}</style>"
        f"<style>{sheet('shared', 'card', 'page')}</style>"
        f"<div class=cc-card>{component('recipe_list', pages=recipes)}</div>"
    )


ROWS = """widths => widths.map((width) => {
  document.querySelector(".cc-card").style.width = `${width}px`;
  return [...document.querySelectorAll(".cc-list li")].map((card) => card.getBoundingClientRect().toJSON());
})"""


def rows(page: Page) -> dict[int, list[list[dict[str, float]]]]:
    """The cards in each row at each width: the list asks for that of the card, not of the window."""
    page.set_viewport_size({"width": max(WIDTHS), "height": 800})
    found = zip(WIDTHS, page.evaluate(ROWS, list(WIDTHS)), strict=True)
    return {width: [list(row) for _, row in groupby(cards, lambda card: round(card["top"]))] for width, cards in found}


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6, 7, 10, 13])
def test_no_card_is_alone_in_its_row(page: Page, count: int) -> None:
    shown(page, count)
    for width, found in rows(page).items():
        columns = WIDTHS[width]
        assert sum(map(len, found)) == count
        assert max(map(len, found)) == min(columns, count) or found[0][0]["width"] > width / columns
        if columns > 1 and count > 1:
            alone = [at for at, row in enumerate(found) if len(row) == 1]
            assert alone == ([0] if columns == 2 and count % 2 else []), (width, "only a first one as wide as its row")
        assert all(card["right"] <= width + 0.5 for row in found for card in row)
        for row in found:
            assert max(card["height"] for card in row) == pytest.approx(min(card["height"] for card in row))


def test_the_picture_and_the_words_of_the_first_card_are_side_by_side(page: Page) -> None:
    shown(page, 13)
    for width in (730, 1000, 1200):
        page.set_viewport_size({"width": width, "height": 800})
        card = page.locator(".cc-list li").first
        plate, words = card.locator(".cc-plate").bounding_box(), card.locator("b").bounding_box()
        assert plate
        assert words
        assert plate["x"] + plate["width"] < words["x"]
        assert plate["height"] > 200
