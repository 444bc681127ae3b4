"""Who makes what in a class: its tables and the shopping, added up here group by group from the recipe files."""

from collections import Counter
from fractions import Fraction

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from

from .test_handout import CLASS, EVERYDAY, ICING, MERINGUE, SILK, data, grams, half_a_digit, texts


def needed(shown):
    """What the shopping list says is needed, in g, of what is not bought by the piece."""
    return {row[0]: row[1] for row in shown["shopping"] if row[1].split()[-1] in ("g", "kg")}


@pytest.mark.parametrize(("makes", "groups"), [("all recipes", 6), ("one recipe", 6), ("one recipe", 5)])
def test_shopping_is_for_what_each_group_makes(makes, groups):
    """An earlier list bought both recipes for all groups also where each group makes one."""
    shown = texts(MERINGUE, EVERYDAY, **{**CLASS, "makes": makes, "groups": str(groups)}, margin="0")
    wanted = Counter()
    for number, name in enumerate((MERINGUE, EVERYDAY)):
        times = sum(makes == "all recipes" or group % 2 == number for group in range(groups))
        for one in batch_of(recipe_from(data(name))).weighed:
            wanted[one.name] += times * Fraction(one.needed_g)
    found = needed(shown)
    assert {"unsalted butter", "vanilla extract"} <= found.keys()
    for name, mass in found.items():
        known = next(key for key in wanted if key == name or name.startswith(f"{key} (") or f"({key})" in name)
        assert abs(grams(mass) - wanted[known]) <= half_a_digit(mass) + Fraction(1, 10**6)


def test_each_group_is_in_the_table_with_its_students_and_recipes():
    shown = texts(MERINGUE, EVERYDAY, students="17", groups="6", makes="one recipe")
    assert [row[:2] for row in shown["who"]] == [[f"group {n}", "3" if n < 6 else "2"] for n in range(1, 7)]
    assert [row[2][:2] for row in shown["who"]] == ["A ", "B "] * 3
    assert {row[2] for row in texts(ICING)["who"]} == {"Plain icing-sugar buttercream"}
    both = texts(MERINGUE, EVERYDAY)["who"][0][2]
    assert both == "A Swiss meringue buttercream and B Everyday milk frosting"


def test_each_group_has_the_sheets_of_what_it_makes():
    shown = texts(MERINGUE, EVERYDAY, **{**CLASS, "makes": "one recipe", "groups": "5"})
    fronts = [(sheet["group"], sheet["title"][0]) for sheet in shown["group_sheets"] if sheet["steps"]]
    assert fronts == [(f"Group {number}", "AB"[(number - 1) % 2]) for number in range(1, 6)]
    made = {row[0]: row[1:] for row in shown["plan"]}
    assert ["–" if time == "–" else "made" for time in made["A 2 Whisk the meringue"]] == [
        "made",
        "–",
        "made",
        "–",
        "made",
    ]


def test_recipes_are_compared_by_their_figures_with_room_for_marks():
    """Fat by hand from the batch: its grams in 100 g of the finished mixture."""
    rows = texts(MERINGUE, SILK)["compare"]
    for row, name in zip(rows, (MERINGUE, SILK), strict=True):
        total = batch_of(recipe_from(data(name))).total
        fat, sugars, water = (float(cell.removesuffix(" %")) for cell in row[2:5])
        assert abs(fat - 100 * total.at_least("fat_g") / total.mass_g) < 0.06
        assert abs(sugars - 100 * total.at_least("sugars_g") / total.mass_g) < 0.06
        assert abs(water - 100 * total.at_least("water_g") / total.mass_g) < 0.06
        assert "kcal" in row[5]
        assert row[6:] == [""] * 4
    assert texts(ICING)["compare"] == []


def test_each_recipe_has_a_group():
    with pytest.raises(InputError, match="2 recipes need 2 groups") as caught:
        texts(ICING, SILK, groups="1", makes="one recipe")
    assert caught.value.path == ("makes",)
    help_text = texts(ICING, SILK, groups="1", available="30 min")["plan.help"]
    assert "each group making one" not in help_text


def test_marks_are_not_on_the_back_of_a_sheet():
    """Its remedy is written as `Sieve *at once*, then go on.`; the stars were printed."""
    backs = [sheet["rescues"] for sheet in texts("creams-and-ganache/lemon-curd-filling")["group_sheets"]]
    assert [row for rows in backs for row in rows if row[1] == "Flecks of egg."] == [
        ["1.2", "Flecks of egg.", "Sieve at once, then go on."]
    ] * 4
