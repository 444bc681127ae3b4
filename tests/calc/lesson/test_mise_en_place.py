"""What a group lays out, for a recipe that can be checked by eye."""

import pytest
from crumbcoat_calc.lesson.mise_en_place import mise_en_place
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from

RECIPE = recipe_from(
    {
        "title": "Test", "summary": "For a test.", "author": "the tests", "family": "other",
        "yield": {"portions": "1", "of": "bowl"},
        "ingredients": {
            "butter": {"kind": "butter_unsalted", "name": "butter", "amount": "100 g", "preparation": "cubed",
                       "temperature": "18 °C", "portions": {"first": "60 g", "second": "40 g"}},
            "salt": {"kind": "salt_table", "name": "salt", "amount": "1 g", "optional": "yes"},
        },
        "stages": [
            {"title": "Beat", "steps": [
                {"do": "Beat.", "add": ["butter/first"], "tool": "stand mixer, whisk"},
                {"do": "Beat on.", "add": ["butter/second", "salt"], "tool": "Stand mixer, whisk"},
                {"do": "Look."}, {"do": "Scrape.", "tool": "spatula"}]},
        ],
    }
)  # fmt: skip


def test_ingredients_with_their_portions_at_the_size_of_the_batch():
    butter, salt = mise_en_place(batch_of(RECIPE, BatchOptions(factor=1.5)))
    assert (butter.name, butter.preparation, butter.temperature_c) == ("butter", "cubed", 18.0)
    assert butter.mass_g == pytest.approx(150)
    assert dict(butter.portions_g) == pytest.approx({"first": 90.0, "second": 60.0})
    assert salt.mass_g == pytest.approx(1.5)


def test_an_ingredient_left_out_is_not_laid_out():
    laid = mise_en_place(batch_of(RECIPE, BatchOptions(left_out=frozenset({"salt"}))))
    assert [one.name for one in laid] == ["butter"]
