"""The drawing of a recipe goes by its own data."""

import re

import pytest
from crumbcoat_site.recipe_cards.build.assets import COMPONENTS
from crumbcoat_site.recipe_cards.build.environment import component
from crumbcoat_site.recipe_cards.card.plate_drawing import made_for


@pytest.mark.parametrize(
    ("yields_of", "drawing"),
    [
        ("cupcakes, piped", "cupcake, piped"),
        ("Cupcakes with a swirl", "cupcake, piped"),
        ("cupcakes, spread", "cupcake"),
        ("muffins", "cupcake"),
        ("slices of a layered sponge, filled and coated", "slice"),
        ("layers of a 20 cm cake, filled 6 mm deep", "layers"),
        ("20 cm cake of 10 cm height, coated", "cake"),
        ("tiers", "cake"),
        ("bowls", "bowl"),
    ],
)
def test_what_a_batch_is_for(yields_of: str, drawing: str) -> None:
    assert made_for(yields_of) == drawing
    assert component("drawing", name="bottle", beside=drawing) != component("drawing", name="bottle")


def test_both_milk_frostings_of_the_demo_look_different() -> None:
    recipes = (COMPONENTS.parents[3] / "recipes" / "milk-emulsions").glob("*.yaml")
    found = [re.search(r"^  of: (.*)$", file.read_text(encoding="utf-8"), re.MULTILINE) for file in recipes]
    assert len({made_for(match[1]) for match in found if match}) == len(found) == 2
