"""How many portions and batches: in words, and in the singular where it is one."""

import pytest
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.texts.portions import batches_text, one_portion_text, portions_text


def _batch(portions: int, of: str, factor: float = 1.0):
    recipe = {
        "title": "Test", "summary": "A test.", "author": "the tests", "family": "other",
        "yield": {"portions": str(portions), "of": of},
        "ingredients": {"milk": {"kind": "milk_whole", "amount": "300 g"}},
        "stages": [{"title": "Mix", "steps": [{"do": "Mix.", "add": ["milk"]}]}],
    }  # fmt: skip
    return batch_of(recipe_from(recipe), BatchOptions(factor=factor))


@pytest.mark.parametrize(
    ("of", "one"),
    [
        ("layers of a 20 cm cake, filled", "1 layer of a 20 cm cake, filled"),
        ("cupcakes, piped", "1 cupcake, piped"),
        ("small pastries (filled)", "1 small pastry (filled)"),
        ("glasses with fruits", "1 glass with fruits"),
        ("dishes", "1 dish"),
        ("cookies", "1 cookie"),
        ("20 cm cake of 10 cm height, coated", "1 × 20 cm cake of 10 cm height, coated"),
        ("portion", "1 portion"),
    ],
)
def test_one_is_written_in_the_singular(of: str, one: str) -> None:
    halved = _batch(2, of, 0.5)
    assert portions_text(halved) == one
    assert one_portion_text(halved) == one


def test_several_are_written_as_the_recipe_does() -> None:
    batch = _batch(2, "layers of a 20 cm cake")
    assert portions_text(batch) == "2 layers of a 20 cm cake"
    assert one_portion_text(batch) == "1 of 2 layers of a 20 cm cake"
    assert portions_text(_batch(2, "20 cm cake")) == "2 × 20 cm cake"


@pytest.mark.parametrize(
    ("factor", "shown"), [(1, "1 batch"), (0.9999, "1 batch"), (0.5, "0.5 batches"), (2, "2 batches")]
)
def test_batches(factor: float, shown: str) -> None:
    assert batches_text(factor) == shown
