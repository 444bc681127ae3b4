"""The search of the site finds the words of recipes, and none of the labels of controls, figures or models."""

import json
from functools import cache
from pathlib import Path

import pytest

pytestmark = pytest.mark.no_cover  # A built site is read here.

CARD = "buttercreams/custard-buttercream/"


@cache
def entries(demo: Path) -> list[dict[str, str]]:
    found: list[dict[str, str]] = json.loads((demo / "search" / "search_index.json").read_text(encoding="utf-8"))[
        "docs"
    ]
    return found


def words_of_card(demo: Path) -> str:
    parts = [entry for entry in entries(demo) if entry["location"].startswith(CARD)]
    assert len(parts) > 5
    return " ".join(f"{entry['title']} {entry['text']}" for entry in parts).lower()


@pytest.mark.parametrize(
    "word",
    [
        pytest.param("custard buttercream", id="family"),
        pytest.param("layered sponge", id="keyword"),
        pytest.param("egg yolks", id="ingredient"),
        pytest.param("semi-skimmed milk", id="replacement"),
        pytest.param("lecithin", id="why an ingredient is there"),
        pytest.param("bring the rest of the milk to a simmer", id="what to do"),
        pytest.param("smooth and pale yellow", id="what to look for"),
        pytest.param("curdled, like cottage cheese", id="sign of trouble"),
        pytest.param("saucepan", id="tool"),
        pytest.param("in the refrigerator", id="where it keeps"),
        pytest.param("grated chocolate", id="note"),
    ],
)
def test_the_search_finds(word: str, demo: Path) -> None:
    assert word in words_of_card(demo)


@pytest.mark.parametrize(
    "word",
    ["start timer", "undo", "redo", "copy a link", "work through it", "as published", "larger", "smaller",
     "my scale", "picture to come", "why this holds", "figures", "cautions", "label", "kj", "water activity",
     "how the figures are made", "leave it out", "print"],
)  # fmt: skip
def test_the_search_does_not_find(word: str, demo: Path) -> None:
    assert word not in words_of_card(demo)


def test_no_heading_of_what_is_worked_out_is_found_on_any_card(demo: Path) -> None:
    worked_out = {"Why this holds", "As it warms", "Figures", "Cautions", "Label", "Cost"}
    cards = {path.parent.relative_to(demo).as_posix() for path in demo.rglob("card.json")}
    assert len(cards) > 10
    found = [entry["location"] for entry in entries(demo) if entry["title"] in worked_out]
    assert [place for place in found if place.partition("/#")[0] in cards] == []


def test_a_section_of_a_card_is_found_with_its_words_once(demo: Path) -> None:
    by_place = {entry["location"]: entry["text"] for entry in entries(demo)}
    assert by_place[f"{CARD}#notes"].count("Vanilla seeds") == 1


def test_forms_of_calculators_are_not_searched(demo: Path) -> None:
    texts = {entry["location"]: entry["text"] for entry in entries(demo)}
    assert "Fat by volume" not in " ".join(text for place, text in texts.items() if place.startswith("calculators/"))
    assert "".join(text for place, text in texts.items() if place.startswith("calculators/compare/"))


def test_the_words_of_a_card_take_few_kilobytes(demo: Path) -> None:
    """Before, a card had 30 to 50 kB in the index; the goal is our own."""
    sizes: dict[str, int] = {}
    for entry in entries(demo):
        place = entry["location"].partition("#")[0]
        sizes[place] = sizes.get(place, 0) + len(entry["text"].encode())
    cards = [f"{path.parent.relative_to(demo).as_posix()}/" for path in demo.rglob("card.json")]
    found = [sizes[card] for card in cards if card in sizes]  # An old address has a card.json, and no page.
    assert len(found) > 10
    assert max(found) < 8_000
