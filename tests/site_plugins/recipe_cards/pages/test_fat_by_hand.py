"""The fat of a recipe by hand, from USDA's printed contents per 100 g. Source: usda-sr28, by NDB number."""

from crumbcoat_site.recipe_cards.pages.fat_by_hand import fat_by_hand

RECIPE = {
    "title": "Plain *cream*", "summary": "Cream.", "author": "Lantern Street teaching kitchen", "family": "other",
    "yield": {"portions": "4", "of": "cups"},
    "ingredients": {
        "milk": {"kind": "milk_whole", "amount": "200 g"},
        "butter": {"kind": "butter_unsalted", "amount": "100 g", "name": "butter | soft <b>"},
        "paste": {"amount": "10 g", "name": "my paste", "composition": {"water": "10 %"}},
    },
    "stages": [{"title": "Mix", "steps": [{"do": "Boil.", "add": ["milk", "butter", "paste"], "water_lost": "10 g"}]}],
}  # fmt: skip


def test_by_hand() -> None:
    # Milk 3.25 (01077), butter 81.11 (01145): 6.5 + 81.11 = 87.61 g in 300 g, 29.2 %.
    lines = fat_by_hand(RECIPE).splitlines()
    assert lines == [
        "**By hand: Plain \\*cream\\*.**",
        "",
        "| ingredient | amount | fat in 100 g | fat |",
        "| --- | ---: | ---: | ---: |",
        "| milk, whole, 3.25 % fat | 200 g | 3.25 g | 6.50 g |",
        "| butter \\| soft &lt;b&gt; | 100 g | 81.11 g | 81.11 g |",
        "| my paste | 10 g | not known |  |",
        "| together | 310 g |  | 87.61 g |",
        "| less the water that boils off | 10 g |  |  |",
        "| **finished** | **300 g** |  | **at least 87.61 g, or 29.2 %** |",
    ]
