"""Baker's percentages as a card shows them: by hand, for every recipe of the demo, and after an edit."""

from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.texts.bakers_percent import bakers_percent_texts

RECIPES = sorted((Path(__file__).parents[3] / "recipes").glob("*/*.yaml"))


def recipe_of(**grams: float) -> Recipe:
    kinds = {"butter": "butter_unsalted", "sugar": "sugar_granulated", "milk": "milk_whole", "salt": "salt_table"}
    return recipe_from(
        {
            "title": "Test cream", "summary": "A test.", "author": "A test kitchen", "family": "other",
            "yield": {"portions": "12", "of": "cupcakes"},
            "ingredients": {key: {"kind": kinds[key], "amount": f"{mass_g} g"} for key, mass_g in grams.items()},
            "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": list(grams)}]}],
        }
    )  # fmt: skip


def shown(recipe: Recipe, options: BatchOptions | None = None) -> tuple[str, list[list[str]]]:
    texts = bakers_percent_texts(batch_of(recipe, options))
    rows = texts["rows.bakers"]
    assert isinstance(rows, list)
    return str(texts["bakers.base"]), [[str(cell) for cell in row] for row in rows]


def test_by_hand() -> None:
    """Sugar 500 is 100: butter 300 / 500 = 60, milk 30, salt 0.4; of 952 g sugar is 52.5 %."""
    base, rows = shown(recipe_of(butter=300, sugar=500, milk=150, salt=2))
    assert base == "per 100 of sugar, granulated"
    assert [row[1] for row in rows] == ["60", "100", "30", "0.4", "190.4"]
    assert [row[2] for row in rows] == ["31.5 %", "52.5 %", "15.8 %", "0.21 %", "100 %"]
    assert rows[-1][0] == "All that is weighed in"


def test_the_base_stays_after_an_edit() -> None:
    """Butter raised to 600 g is 120 of the same base."""
    base, rows = shown(recipe_of(butter=300, sugar=500), BatchOptions(amounts_g={"butter": 600.0}))
    assert base == "per 100 of sugar, granulated"
    assert [row[1] for row in rows] == ["120", "100", "220"]


def test_what_is_not_weighed_in_has_no_row() -> None:
    base, rows = shown(recipe_of(butter=300, sugar=500, milk=150), BatchOptions(amounts_g={"sugar": 0.0}))
    assert base.startswith("per 100 of butter")
    assert [row[1] for row in rows] == ["100", "50", "150"]


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_every_recipe_has_its_heaviest_ingredient_as_100(path: Path) -> None:
    recipe = recipe_from(yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader))
    base, rows = shown(recipe)
    heaviest = max(recipe.ingredients, key=lambda ingredient: ingredient.mass_g)
    assert base == f"per 100 of {heaviest.name}"
    assert len(rows) == len(recipe.ingredients) + 1
    for row, ingredient in zip(rows, recipe.ingredients, strict=False):
        assert row[0] == ingredient.name
        assert float(row[1]) == pytest.approx(100 * ingredient.mass_g / heaviest.mass_g, abs=0.051)
    assert rows == shown(recipe, BatchOptions(factor=3.7))[1]
