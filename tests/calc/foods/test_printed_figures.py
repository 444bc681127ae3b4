"""Every cell of foods.csv against the table it comes from, and against the rules by which it was converted.

tests/reference/README.md says what each open table prints; each row of foods.csv comes from one of them.
"""

import csv
from decimal import Decimal
from pathlib import Path

import pytest
from crumbcoat_calc.foods.components import COMPONENTS, PROXIMATES
from crumbcoat_calc.tables import UNKNOWN, load_rows, rows_from, sources

REFERENCE = Path(__file__).parents[2] / "reference"


def rows_of(name):
    with (REFERENCE / name).open(encoding="utf-8", newline="") as file:
        return {row["key"]: row for row in csv.DictReader(file)}


CELLS = {row["key"]: row for row in load_rows("foods", dict, ("key",))}
DERIVED = {
    (row["food"], row["component"]): row
    for row in rows_from(
        "food_derivations.csv",
        (REFERENCE / "food_derivations.csv").read_text(encoding="utf-8"),
        dict,
        ("food", "component"),
        sources(),
    )
}
SR28, FOUNDATION = rows_of("usda_sr28.csv"), rows_of("usda_foundation_foods.csv")
CIQUAL, COFID = rows_of("ciqual_2025.csv"), rows_of("cofid_2021.csv")
TABLES = {
    "NDB": (SR28, "ndb_no", "usda-sr28"),
    "FDC": (FOUNDATION, "fdc_id", "usda-fdc"),
    "Ciqual": (CIQUAL, "ciqual_code", "ciqual-2025"),
    "CoFID": (COFID, "cofid_code", "cofid-2021"),
}
"""For the word that `where` begins with: the table, its column of numbers, and its source."""

SINGLE = ("sucrose_g", "glucose_g", "fructose_g", "lactose_g", "maltose_g")

# The columns of the French and the British table that are not carried over as they are: ours of the same name is
# by difference (carbohydrate, ash), or in grams instead of monosaccharides.
CIQUAL_COLUMN = {component: component for component in COMPONENTS if component != "carbohydrate_g"}
CIQUAL_COLUMN["protein_g"] = "protein_jones_g"
COFID_COLUMN = {
    component: component for component in COMPONENTS if component not in ("carbohydrate_g", "sugars_g", "starch_g")
}
COFID_COLUMN["fibre_g"] = "fibre_aoac_g"
MONOSACCHARIDES = {"sucrose_g": "1.05", "maltose_g": "1.05", "lactose_g": "1.05", "starch_g": "1.10"}
"""Grams of monosaccharide in one gram, by which the British table's figures are divided."""

# Its printed fat and water are more than 100 g together, so its fat is the rest, and what goes with fat follows.
REPLACED = {
    ("cream_double", component)
    for component in ("fat_g", "saturated_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g", "trans_fat_g",
                      "cholesterol_mg")
}  # fmt: skip


def table_of(key):
    """The row of the open table that a food comes from, and the name of that table; no row for what is derived."""
    word, _, number = CELLS[key]["where"].partition(" ")
    if word not in TABLES:
        return {}, ""
    table, column, source = TABLES[word]
    assert table[key][column] == number, key
    assert CELLS[key]["source"] == source, key
    return table[key], word


def is_number(text):
    return text.replace(".", "", 1).isdigit()


def printed(key):
    """What the open table prints as a plain number for a component, in our unit and meaning."""
    row, word = table_of(key)
    columns = {"Ciqual": CIQUAL_COLUMN, "CoFID": COFID_COLUMN}.get(
        word, {component: component for component in COMPONENTS}
    )
    return {component: row[column] for component, column in columns.items() if is_number(row.get(column, ""))}


def test_every_cell_is_as_printed_or_has_a_derivation():
    wrong = []
    for key in CELLS:
        shown = printed(key)
        for component in COMPONENTS:
            cell, derived = CELLS[key][component], DERIVED.get((key, component))
            if derived:
                if cell != derived["value"]:
                    wrong.append(f"{key} {component}: {cell} is not the derived {derived['value']}")
                if component in shown and (key, component) not in REPLACED:
                    wrong.append(f"{key} {component}: {shown[component]} is printed, so it needs no derivation")
            elif cell != shown.get(component, UNKNOWN):
                wrong.append(f"{key} {component}: {cell}, but {shown.get(component, 'nothing')} is printed")
    assert wrong == []


def test_each_open_table_holds_the_rows_that_are_used():
    used = {word: {key for key in CELLS if CELLS[key]["where"].startswith(word + " ")} for word in TABLES}
    for word, (table, _, _) in TABLES.items():
        assert used[word] <= table.keys()
    assert (used["Ciqual"], used["CoFID"]) == (set(CIQUAL), set(COFID))
    assert [len(keys) > 40 for keys in used.values()] == [True, False, True, False]


def test_every_derivation_belongs_to_a_cell_and_states_its_uncertainty():
    for (key, component), row in DERIVED.items():
        assert key in CELLS
        assert component in COMPONENTS
        assert float(row["value"]) >= 0
        assert row["plus_minus"] == UNKNOWN or float(row["plus_minus"]) >= 0
        assert row["source"] != "derivation" or row["rule"]


def cell(key, component):
    text = CELLS[key][component]
    return None if text == UNKNOWN else Decimal(text)


def test_a_limit_and_a_trace_are_read_as_the_readme_says():
    """Ciqual `< 0.5` is half of it, or the sugar that is not needed for the sum; `traces` and CoFID `Tr` are 0."""
    limits = traces = 0
    for table, columns in ((CIQUAL, CIQUAL_COLUMN), (COFID, COFID_COLUMN)):
        for key, row in table.items():
            for component, column in columns.items():
                text = row.get(column, "")
                derived = DERIVED.get((key, component))
                if text.startswith("<") and derived:
                    limit = Decimal(text[1:])
                    value, spread = Decimal(derived["value"]), Decimal(derived["plus_minus"])
                    limits += 1
                    if derived["rule"] == "no milk is in it":
                        assert (component, value) == ("lactose_g", 0), key
                    elif component in SINGLE:
                        assert (value, spread) == (0, limit), (key, component)
                    elif derived["rule"] == "a food of animal origin holds no fibre":
                        assert (value, component) == (0, "fibre_g"), key
                    else:
                        assert (value, spread) == (limit / 2, limit / 2), (key, component)
                elif text in ("traces", "Tr") and derived["rule"] == "printed as traces":
                    traces += 1
                    assert (derived["value"], derived["plus_minus"]) == ("0", UNKNOWN), (key, component)
    assert (limits > 100, traces > 50) == (True, True)


# By how many g the carbohydrate by difference misses what the table prints for its parts, where that is 3 g or more.
FAR_FROM_ITS_PARTS = {
    # Ciqual: available carbohydrate, fibre and organic acids.
    "candied_orange_peel": "6.4",
    "chestnut_cream": "-3.0",
    "chocolate_milk_eu": "-3.0",
    "blackcurrant": "-3.0",
    "coffee_ground": "3.5",
    "confiture_de_lait": "-3.0",
    "red_fruit_coulis": "-3.0",
    "redcurrant": "-3.0",
    "sugared_almond": "-3.1",
}


def test_carbohydrate_is_what_the_other_proximates_leave():
    """In a French row it is 100 minus the others, and near available carbohydrate + fibre + organic acids."""
    far = {}
    for key, row in CIQUAL.items():
        carbohydrate, fibre = cell(key, "carbohydrate_g"), cell(key, "fibre_g")
        others = [cell(key, component) for component in PROXIMATES if component != "carbohydrate_g"]
        acids = Decimal(row["organic_acids_g"]) if is_number(row["organic_acids_g"]) else Decimal(0)
        rule = DERIVED.get((key, "carbohydrate_g"), {"rule": ""})["rule"]
        if rule == "100 - the other proximates":
            assert carbohydrate + sum(others) == 100, key
            if is_number(row["carbohydrate_g"]) and fibre is not None:
                gap = carbohydrate - Decimal(row["carbohydrate_g"]) - fibre - acids
                if abs(gap) >= 3:
                    far[key] = str(gap.quantize(Decimal("0.1")))
        elif carbohydrate is not None:
            available = Decimal(row["carbohydrate_g"]) if is_number(row["carbohydrate_g"]) else Decimal(0)
            assert rule.startswith("available carbohydrate + fibre"), key
            assert carbohydrate == available + fibre + (acids if "organic" in rule else 0), key
    assert far == FAR_FROM_ITS_PARTS


def test_water_that_the_french_table_does_not_print_is_the_rest():
    found = [key for key in CIQUAL if (key, "water_g") in DERIVED and not CIQUAL[key]["water_g"].startswith("<")]
    assert len(found) == 10
    for key in found:
        assert sum(cell(key, component) for component in PROXIMATES) == 100, key
        assert DERIVED[key, "water_g"]["plus_minus"] == "3"


def test_the_british_figures_are_in_grams_and_not_in_monosaccharides():
    for key, row in COFID.items():
        for component, factor in MONOSACCHARIDES.items():
            text = row[component.replace("_g", "_mse_g")]
            if is_number(text):
                assert cell(key, component) == pytest.approx(Decimal(text) / Decimal(factor), abs=Decimal("0.005")), key
            else:
                no_milk = component == "lactose_g" and not text
                assert cell(key, component) == (0 if text == "Tr" or no_milk else None), (key, component)
        single = [cell(key, component) for component in SINGLE]
        if None not in single:
            galactose = Decimal(row["galactose_g"]) if is_number(row["galactose_g"]) else Decimal(0)
            assert cell(key, "sugars_g") == sum(single) + galactose, key
        elif is_number(row["sugars_mse_g"]):
            sugars, most = cell(key, "sugars_g"), Decimal(row["sugars_mse_g"])
            assert most / Decimal("1.05") < sugars < most, key


# The minerals that the British table prints, and what each weighs in the ash for one gram: phosphorus is phosphate,
# PO4, from memory 94.97 / 30.97.
IN_ASH = {
    "sodium_mg": "1", "potassium_mg": "1", "calcium_mg": "1", "magnesium_mg": "1", "chloride_mg": "1",
    "phosphorus_mg": "3.066",
}  # fmt: skip


def test_the_ash_of_the_british_foods_is_the_sum_of_its_minerals():
    known = 0
    for key, row in COFID.items():
        if all(is_number(row[mineral]) for mineral in IN_ASH):
            known += 1
            ash = sum(Decimal(row[mineral]) * Decimal(factor) for mineral, factor in IN_ASH.items()) / 1000
            assert cell(key, "ash_g") == pytest.approx(ash, abs=Decimal("0.005")), key
        else:
            assert cell(key, "ash_g") is None, key
    assert known > 25


def test_the_sum_of_minerals_comes_near_an_ash_that_was_weighed():
    """Skimmed milk, independent of the British table: usda-sr28 (NDB 01085), and chloride 100 mg from memory."""
    row = SR28["milk_skim"]
    minerals = float(row["sodium_mg"]) + float(row["potassium_mg"]) + float(row["calcium_mg"]) + 11 + 100
    assert (minerals + 3.066 * 101) / 1000 == pytest.approx(float(row["ash_g"]), abs=0.1)


def test_the_carbohydrate_of_the_british_foods():
    """By difference, as in our other rows; for cream and fat, which leave little, it is the sugars and the starch."""
    for key in COFID:
        carbohydrate, rule = cell(key, "carbohydrate_g"), DERIVED[key, "carbohydrate_g"]["rule"]
        others = [cell(key, component) for component in PROXIMATES if component != "carbohydrate_g"]
        if rule.startswith("100 - the other proximates"):
            assert carbohydrate + sum(content or 0 for content in others) == 100, key
            assert (None in others) == ("its ash, which is not known" in rule), key
        else:
            assert rule == "sugars + starch"
            assert carbohydrate == cell(key, "sugars_g") + cell(key, "starch_g"), key


def test_double_cream_has_the_fat_that_its_water_leaves_and_that_the_law_asks_for():
    """From memory: 48 % or more in the United Kingdom. The table prints 53.7, and 46.9 of water."""
    assert sum(cell("cream_double", component) for component in PROXIMATES) == 100
    assert 48 <= cell("cream_double", "fat_g") < Decimal(COFID["cream_double"]["fat_g"])
    for component in ("saturated_fat_g", "monounsaturated_fat_g", "polyunsaturated_fat_g"):
        share = Decimal(COFID["cream_double"][component]) / Decimal(COFID["cream_double"]["fat_g"])
        assert cell("cream_double", component) == pytest.approx(
            share * cell("cream_double", "fat_g"), abs=Decimal("0.05")
        )


def test_pure_substances_follow_from_their_formulas():
    """Standard atomic weights from memory: H 1.008, C 12.011, O 15.999."""
    water = 2 * 1.008 + 15.999

    def mass(carbon, hydrogen, oxygen):
        return carbon * 12.011 + hydrogen * 1.008 + oxygen * 15.999

    for key, share in {
        "citric_acid": 0.0,
        "citric_acid_monohydrate": 100 * water / mass(6, 10, 8),
        "fructose_pure": 0.0,
        "malic_acid": 0.0,
        "tartaric_acid": 0.0,
        "trehalose_dihydrate": 100 * 2 * water / mass(12, 26, 13),
    }.items():
        assert float(cell(key, "water_g")) == pytest.approx(share, abs=0.005), key
        assert cell(key, "water_g") + cell(key, "carbohydrate_g") == 100, key
