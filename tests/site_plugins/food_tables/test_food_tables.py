"""The three food tables: found by number and by name, and converted by their own conventions.

The outside checks are the kinds of the ingredient table, converted by other code from the same tables, and sums by hand
from what the tables print.
"""

import lzma
import subprocess
import sys
from pathlib import Path

import crumbcoat_site.food_tables as folder
import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import PROXIMATES
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.recipe.own_food import food_from
from crumbcoat_calc.tables import load_rows
from crumbcoat_site.food_tables.conventions import contents_of
from crumbcoat_site.food_tables.find import find_foods
from crumbcoat_site.food_tables.kinds import kind_of
from crumbcoat_site.food_tables.measures import measures_of
from crumbcoat_site.food_tables.rows import TABLES, row, rows_of, weights_of

FOLDER = Path(folder.__file__).parent
WORDS = {"NDB": "usda", "Ciqual": "ciqual", "CoFID": "cofid"}
CELLS = {cells["key"]: cells for cells in load_rows("foods", dict, ("key",))}
SHARED = {
    key: f"{WORDS[word]} {number}"
    for key, cells in CELLS.items()
    for word, _, number in [cells["where"].partition(" ")]
    if word in WORDS
}
"""The kinds of the ingredient table that are rows of the three tables."""

CONVERTED_OTHERWISE = {"cream_double", "cream_single", "mixed_dried_fruit", "pineapple_dried"}
"""Rows that contradict themselves; the README of the ingredient table says what was made of each."""

NAMED_AFTER_A_BRAND = {"kefir_plain", "sucralose_sweetener"}
"""Rows that the tables here leave out; as kinds they have names of their own."""


def test_the_tables_are_there_with_their_licences() -> None:
    """The numbers of rows are those of NOTICE.txt."""
    notice = (FOLDER / "NOTICE.txt").read_text(encoding="utf-8")
    for table in TABLES:
        assert f"{len(rows_of(table)):,} foods" in notice
    assert f"{sum(len(weights) for weights in weights_of().values()):,} household weights" in notice
    for words in ("Public domain", "Licence Ouverte", "Open Government Licence v3.0"):
        assert words in notice
    assert sum(path.stat().st_size for path in FOLDER.glob("*.xz")) < 1_000_000


def test_the_files_are_the_same_bytes_whenever_they_are_made() -> None:
    """The format xz has no field for a time."""
    paths = sorted(FOLDER.glob("*.xz"))
    assert len(paths) == 4
    for path in paths:
        text = lzma.decompress(path.read_bytes())
        assert lzma.compress(text, preset=9 | lzma.PRESET_EXTREME) == path.read_bytes(), path.name
        assert text.count(b"\r") == 0


@pytest.mark.parametrize("key", sorted(SHARED))
def test_a_row_that_is_a_kind_is_that_kind(key: str) -> None:
    assert CELLS[str(kind_of(SHARED[key]))]["where"] == CELLS[key]["where"]


@pytest.mark.parametrize("key", sorted(set(SHARED) - NAMED_AFTER_A_BRAND))
def test_the_conversion_agrees_with_that_of_the_ingredient_table(key: str) -> None:
    """foods.csv was converted from the same rows by hand and by other code; tests/reference says how."""
    contents = contents_of(row(SHARED[key]))
    kind = foods()[key]
    for component in (*PROXIMATES, "fibre_g", "sugars_g", "sodium_mg"):
        expected = kind.content(component)
        if expected is None or component not in contents or key in CONVERTED_OTHERWISE:
            continue
        low, high = contents[component]
        of_cofid = SHARED[key].startswith("cofid")
        slack = {"carbohydrate_g": 1.0 if of_cofid else 0.2, "sugars_g": 0.15}.get(component, 0.06)
        assert low - slack <= expected <= high + slack, component


def test_numbers_are_found_as_people_write_them() -> None:
    assert row("USDA 1123").number == row("usda 01123").number == "01123"
    assert row("cofid 12-490").name == "Cheese, Mascarpone"
    assert "mascarpone" in row("Ciqual 19584").name.lower()


@pytest.mark.parametrize(("written", "near"), [("usda 01213", "`usda 01123`"), ("ciqual 19548", "`ciqual 19584`")])
def test_a_wrong_number_is_answered_with_near_ones(written: str, near: str) -> None:
    """Two neighbouring digits exchanged, or one digit off."""
    with pytest.raises(InputError) as caught:
        row(written)
    assert "has no food with the number" in caught.value.problem
    assert "look it up with `crumbcoat foods NAME`" in caught.value.remedy
    assert near.split()[0] in caught.value.remedy


def test_ciqual_carbohydrate_is_without_fibre_and_becomes_the_rest_of_100() -> None:
    """Ciqual 19584, mascarpone: 100 - 51.5 water - 6 protein - 37 fat - 0.5 ash; 3.3 g is printed, fibre `< 0.5`."""
    contents = contents_of(row("ciqual 19584"))
    assert contents["carbohydrate_g"] == (5.0, 5.0)
    assert contents["fibre_g"] == (0.0, 0.5)


def test_cofid_carbohydrates_are_monosaccharides() -> None:
    """CoFID white sugar prints 105.0 g: 100 g of sucrose, which splits into 105.26 g of glucose and fructose."""
    sugar = next(food for food in rows_of("cofid").values() if food.name == "Sugar, white")
    assert sugar.cells["carbohydrate_mse_g"] == "105.0"
    contents = contents_of(sugar)
    assert contents["sucrose_g"] == pytest.approx((100, 100))
    assert contents["sugars_g"] == pytest.approx((100, 100))
    low, high = contents["carbohydrate_g"]
    assert low <= 100 <= high + 0.1


def test_figures_for_100_ml_are_refused() -> None:
    drink = next(food for food in rows_of("cofid").values() if food.cells["basis"] == "100 ml")
    with pytest.raises(InputError, match="are for 100 ml, not for 100 g"):
        contents_of(drink)


def test_what_is_not_printed_stays_unknown() -> None:
    """An N of CoFID is "present without a reliable figure", never zero; `usda 01139` prints no starch."""
    unsure = next(food for food in rows_of("cofid").values() if food.cells["sodium_mg"] == "N")
    assert "sodium_mg" not in contents_of(unsure)
    assert "starch_g" not in contents_of(row("usda 01139"))


def test_milk_components_are_known_where_the_group_says_so() -> None:
    """Whole milk (01078, no added vitamin) is all milk; hazelnuts have none."""
    milk, nuts = contents_of(row("usda 01078")), contents_of(row("usda 12120"))
    assert milk["milk_fat_g"] == milk["fat_g"]
    assert nuts["milk_fat_g"] == nuts["lactose_g"] == (0.0, 0.0)


def test_household_weights_come_along() -> None:
    """usda-sr28 01139, goose egg: 1 egg weighs 144 g; 18371: half a teaspoon of baking powder 2.3 g."""
    assert measures_of(row("usda 01139")) == {"egg": "144 g"}
    assert measures_of(row("usda 18371"))["US tsp"] == "5 g"


def test_every_row_can_be_a_kind() -> None:
    """A row without a contradiction is a food; all its contents are zero or more, its proximates about 100."""
    for table in TABLES:
        for food in list(rows_of(table).values())[::23]:
            if food.cells.get("basis", "100 g") != "100 g":
                continue
            kind = kind_of(food.written)
            found = food_from({"kind": kind}, None)
            assert all(content is None or content >= 0 for content in found.per_100g), food.written


def test_foods_are_found_by_words_in_english_and_french() -> None:
    assert {food.written for food in find_foods("mascarpone")} == {"ciqual 19584", "cofid 12-490"}
    assert "usda 01053" in {food.written for food in find_foods("cream heavy whipping")}
    assert find_foods("crème fraîche") == find_foods("creme fraiche") != []
    assert "ciqual 17210" in {food.written for food in find_foods("huile noisette")}
    assert find_foods("") == []


@pytest.mark.parametrize(("word", "code", "shown"), [("mascarpone", 0, "kind: ciqual 19584"), ("qqq", 1, "Fix: try")])
def test_the_command_lists_them(word: str, code: int, shown: str) -> None:
    command = [sys.executable, "-m", "crumbcoat_site.food_tables", word]
    path = f"{FOLDER.parents[1]}:{FOLDER.parents[2] / 'calc'}"
    done = subprocess.run(command, capture_output=True, text=True, check=False, env={"PYTHONPATH": path})
    assert done.returncode == code
    assert shown in done.stdout + done.stderr
