"""What a cook elsewhere asks for in a shop.

Names: common practice, no source; fat of creams: 21 CFR 131.150 and 131.157 (US), Food Labelling Regulations 1996 (UK:
whipping cream at least 35 %, double cream 48 %).
"""

import pytest
from crumbcoat_calc.foods.shop_names import REGIONS, names_elsewhere
from crumbcoat_calc.foods.table import food
from crumbcoat_calc.tables import load_rows

ROWS = load_rows("shop_names", dict, ("food", "word"))


@pytest.mark.parametrize(
    ("key", "name", "elsewhere"),
    [
        ("cornstarch", "cornflour", [("US", "cornstarch")]),
        ("cornstarch", "Cornstarch", [("UK", "cornflour")]),
        ("cornstarch", "starch", []),
        ("cream_heavy_whipping", "whipping cream, 36 % fat", [("US", "heavy cream")]),
        ("cream_heavy_whipping", "heavy cream", [("UK", "whipping cream, not double")]),
        ("cream_double", "double cream", [("US", "heavy cream, which has less fat (36 %)")]),
        ("sugar_granulated", "caster sugar", [("US", "superfine sugar")]),
        ("sugar_granulated", "granulated sugar", []),
        ("milk_powder_skim", "skimmed-milk powder", [("US", "nonfat dry milk")]),
        ("molasses", "molasses", [("UK", "black treacle")]),
        ("sugar_powdered", "sugar, powdered (icing sugar)", []),
        ("", "own mixture", []),
    ],
)
def test_what_it_is_called_elsewhere(key: str, name: str, elsewhere: list[tuple[str, str]]) -> None:
    assert list(names_elsewhere(key, name)) == elsewhere


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['food']} {row['word']}")
def test_a_row_is_found_and_names_another_thing(row: dict[str, str]) -> None:
    assert row["region"] in REGIONS
    assert row["word"] == row["word"].lower().replace("-", " ")
    assert (row["region"], row["name"]) in names_elsewhere(row["food"], row["word"])
    assert food(row["food"])
    assert row["name"] != row["word"]
