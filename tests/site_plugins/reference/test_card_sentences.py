"""The page of a card's sentences has all that cards say, and nothing that they never could."""

import re
from collections.abc import Iterator
from pathlib import Path

import crumbcoat_calc
import pytest
from crumbcoat_calc.calculators import solve
from crumbcoat_calc.forms.context import Context, context_from, published_from
from crumbcoat_calc.label.caution_table import all_cautions
from crumbcoat_calc.recipe.model import FAMILIES
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from crumbcoat_site.reference.card_sentences import caution_conditions
from crumbcoat_site.reference.other_sentences import other_sentences

from tests.recipes.random_recipes import random_recipe

RECIPES = Path(__file__).parents[3] / "recipes"
FILES = sorted(RECIPES.glob("*/*.yaml"))
GAP = re.compile(r"\[[^]]*\]")
OTHERS = other_sentences()
BY_KEY = {key: [one for one in OTHERS if one.key == key] for key in dict.fromkeys(one.key for one in OTHERS)}
STATES: tuple[dict[str, str], ...] = (
    {},
    {"bowl_temperature": "4", "target_temperature": "12"},
    {"bowl_temperature": "30", "ph": "4.2"},
    {"bowl_temperature": "26", "chilled_from": "24", "chilled_to": "22", "chilled_minutes": "20", "factor": "2"},
    {"cup_weighs": "150", "ph": "6.4"},
)
OTHER_TEXTS = re.compile(
    r"(science\.(fat|water|dissolved|undissolved|lactose$|lactose_crystals|other_solids|syrup|saturation|solid_fat|density"
    r"|milk_protein|egg_protein|phospholipid|yolk|finest).*|label\.(us|eu|words|draft|short|energy).*)"
)
"""Figures with their bands, or that they are not given, and rows of tables."""
TEMPERATURE = re.compile(r"[0-9.]+ °C( \([0-9.]+ to [0-9.]+\))?")


def pattern(words: str) -> str:
    return ".*?".join(map(re.escape, GAP.split(words)))


def is_said(key: str, text: str) -> bool:
    """Whether a text is made of sentences of the page, one after the other."""
    sentences = "|".join(pattern(one.sentence) for one in BY_KEY[key])
    return re.fullmatch(rf"(?:{sentences})(?: +(?:{sentences}))*", text.strip()) is not None


def texts_of(context: Context, state: dict[str, str]) -> Iterator[tuple[str, str]]:
    """The sentences of the science, the kitchen and the label, by their names."""
    for name, own in (("batch", state), ("label", {"label.energy": "table"})):
        for key, text in solve(name, context, own).texts.items():
            of_card = key in BY_KEY or key.startswith(("science.", "label.", "warming."))
            if (
                of_card
                and isinstance(text, str)
                and text
                and not (OTHER_TEXTS.fullmatch(key) or TEMPERATURE.fullmatch(text))
            ):
                yield key, text


def not_on_the_page(context: Context, state: dict[str, str]) -> list[tuple[str, str]]:
    return [(key, text) for key, text in texts_of(context, state) if key not in BY_KEY or not is_said(key, text)]


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_the_page_has_every_sentence_of_a_card(path: Path) -> None:
    recipe, data = load_recipe(path, path.name)
    context = Context(recipes={"recipe": published_from(data, recipe)})
    states = [*STATES, *([{"looked_at": "0"}] if len(recipe.stages) > 1 else [])]
    assert [found for state in states for found in not_on_the_page(context, state)] == []


@pytest.mark.parametrize("family", FAMILIES)
def test_the_page_has_every_sentence_of_recipes_made_at_random(family: str) -> None:
    for number in range(6):
        context = context_from({"recipe": random_recipe(family, number)})
        assert not_on_the_page(context, {}) == [], number


def test_the_code_says_every_sentence_of_the_page() -> None:
    """Its longest piece without a gap or a mark is in the code, whose strings are joined where they are divided."""
    code = " ".join(path.read_text(encoding="utf-8") for path in Path(crumbcoat_calc.__file__).parent.rglob("*.py"))
    joined = re.sub(r'"\s*\n\s*f?"', "", code)
    pieces = [max(re.split(r"\[[^]]*\]|[.,:;(] ?", one.sentence), key=len).strip() for one in OTHERS]
    assert [piece for piece in pieces if len(piece) < 4 or piece not in joined] == []


def test_every_caution_has_its_condition() -> None:
    assert caution_conditions().keys() == {row.key for row in all_cautions()}


def test_a_sentence_that_is_not_on_the_page_is_found() -> None:
    assert is_said("warming.marks", "Solid fat is not given: there is no fat.")
    assert not is_said("warming.marks", "It slumps at noon.")
    assert not is_said("science.keeping", "needs assessment: none. It is safe.")
