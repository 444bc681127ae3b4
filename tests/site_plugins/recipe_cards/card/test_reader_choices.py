"""The usual sizes that a card offers, for recipes of the demo."""

from pathlib import Path

import pytest
from crumbcoat_calc.forms.context import Context, context_from
from crumbcoat_site.recipe_cards.card.reader_choices import preset_sizes
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

FOLDER = Path(__file__).parents[4] / "recipes"


def context(name: str, of: str | None = None) -> Context:
    (path,) = FOLDER.rglob(f"{name}.yaml")
    data = load_recipe(path, path.name)[1]
    return context_from({"recipe": data if of is None else data | {"yield": data["yield"] | {"of": of}}})


@pytest.mark.parametrize(
    ("of", "offered"),
    [
        ("slices of a 20 cm cake, filled and coated", False),
        ("slices of a 20-cm cake", False),
        ("slices of a 22 cm cake, filled and coated", True),
        ("slices of a 120 cm cake", True),
        ("cupcakes, piped", True),
    ],
)
def test_a_cake_that_the_recipe_itself_names_is_not_offered(of: str, offered: bool) -> None:
    """The recipe says that 835 g are enough for this cake; a model of one gives another mass."""
    words = [preset[0] for preset in preset_sizes(context("swiss-meringue-buttercream", of))]
    assert ("A 20 cm cake" in words) == offered
    assert "Three tiers, 25, 20 and 15 cm" in words


def test_the_demo_recipe_for_a_20_cm_cake_has_no_button_for_it() -> None:
    assert [preset[0] for preset in preset_sizes(context("swiss-meringue-buttercream"))] == [
        "Half", "Double", "24 cupcakes", "Three tiers, 25, 20 and 15 cm",
    ]  # fmt: skip
