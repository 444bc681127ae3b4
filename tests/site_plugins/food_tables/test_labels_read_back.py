"""Labels that foods of two tables would print, read back: the true contents lie within what a label leaves open.

The outside checks are the tables' own analyses of water, fat, sugars and the rest, which a label does not print.
"""

from collections.abc import Iterator, Sequence
from decimal import ROUND_HALF_UP, Decimal

import pytest
from crumbcoat_calc.foods.bounds import range_of
from crumbcoat_calc.recipe.own_food import food_from
from crumbcoat_site.food_tables.kinds import kind_of
from crumbcoat_site.food_tables.rows import TableFood, rows_of

GROUPS = {
    "Dairy and Egg Products", "Sweets", "Baked Products", "Nut and Seed Products", "Fruits and Fruit Juices",
    "Cereal Grains and Pasta", "Fats and Oils",
}  # fmt: skip
NEEDED = (
    "water_g", "protein_g", "fat_g", "carbohydrate_g", "ash_g", "fibre_g", "sugars_g", "saturated_fat_g", "sodium_mg",
)  # fmt: skip

pytestmark = pytest.mark.no_cover  # Thousands of labels: measured, they cost two minutes, and cover nothing more.


def figures(food: TableFood) -> dict[str, float] | None:
    """The figures of a row that a label and its check need; None if one is not printed as a plain number."""
    try:
        found = {name: float(food.cells[name]) for name in NEEDED}
    except (KeyError, ValueError):
        return None
    return found | {"alcohol_g": float(food.cells["alcohol_g"] or 0)}


def adds_up(true: dict[str, float]) -> bool:
    """Whether a row can check a label.

    Rows that contradict themselves cannot: sums far from 100, sugars or fibre above carbohydrate, ash below what the
    sodium alone makes of it. Nor can those with more ash than is stated as an assumption, or with alcohol.
    """
    total = sum(true[name] for name in ("water_g", "protein_g", "fat_g", "carbohydrate_g", "ash_g"))
    sodium = true["sodium_mg"] / 1000
    solids = true["protein_g"] + max(0.0, true["carbohydrate_g"] - true["sugars_g"])
    most_ash = 2.6 * sodium + 0.12 * solids + 0.05 * true["sugars_g"] + 0.5
    return (
        abs(total - 100) <= 0.05
        and true["sugars_g"] + true["fibre_g"] <= true["carbohydrate_g"]
        and true["saturated_fat_g"] <= true["fat_g"]
        and 2.305 * sodium <= true["ash_g"] <= most_ash
        and true["alcohol_g"] == 0
    )


def rounded(value: float, digits: int) -> str:
    return str(Decimal(repr(value)).quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP))


def by_step(value: float, step: str) -> str:
    return str((Decimal(repr(value)) / Decimal(step)).quantize(Decimal(1), rounding=ROUND_HALF_UP) * Decimal(step))


def eu(value: float) -> str:
    """ec-tolerances-2012: nearest 1 g from 10 g, 0.1 g below, `<0.5 g` up to 0.5 g."""
    return f"{rounded(value, 0)} g" if value >= 10 else f"{rounded(value, 1)} g" if value > 0.5 else "<0.5 g"


def eu_label(true: dict[str, float]) -> dict[str, str]:
    """eu-1169-2011, Annexes I, XIV and XV: available carbohydrate, energy by general factors, salt = 2.5 sodium."""
    available = true["carbohydrate_g"] - true["fibre_g"]
    kcal = 4 * true["protein_g"] + 9 * true["fat_g"] + 4 * available + 2 * true["fibre_g"]
    salt = 2.5 * true["sodium_mg"] / 1000
    saturates = true["saturated_fat_g"]
    return {
        "per": "100 g", "rules": "EU", "energy": f"{rounded(kcal, 0)} kcal", "fat": eu(true["fat_g"]),
        "saturates": "<0.1 g" if saturates <= 0.1 else f"{rounded(saturates, 0 if saturates >= 10 else 1)} g",
        "carbohydrate": eu(available), "sugars": eu(true["sugars_g"]), "fibre": eu(true["fibre_g"]),
        "protein": eu(true["protein_g"]),
        "salt": "<0.01 g" if salt <= 0.0125 else f"{rounded(salt, 2 if salt < 1 else 1)} g",
    }  # fmt: skip


def us(value: float) -> str:
    """cfr-101-9 (c)(6), (c)(7): nearest 1 g, `less than 1 g`, and 0 below 0.5 g."""
    return "0 g" if value < 0.5 else "less than 1 g" if value < 1 else f"{by_step(value, '1')} g"


def us_fat(value: float) -> str:
    """cfr-101-9 (c)(2): nearest 0.5 g below 5 g, else 1 g, and 0 below 0.5 g."""
    return "0 g" if value < 0.5 else f"{by_step(value, '0.5' if value < 5 else '1')} g"


def us_label(true: dict[str, float]) -> dict[str, str]:
    """cfr-101-9: total carbohydrate, energy by general factors, for 100 g."""
    kcal = 4 * true["protein_g"] + 9 * true["fat_g"] + 4 * true["carbohydrate_g"]
    sodium = true["sodium_mg"]
    return {
        "per": "100 g", "rules": "US", "energy": f"{by_step(kcal, '5' if kcal <= 50 else '10')} kcal",
        "fat": us_fat(true["fat_g"]), "saturates": us_fat(true["saturated_fat_g"]),
        "carbohydrate": us(true["carbohydrate_g"]), "sugars": us(true["sugars_g"]), "fibre": us(true["fibre_g"]),
        "protein": us(true["protein_g"]),
        "sodium": "0 mg" if sodium < 5 else f"{by_step(sodium, '5' if sodium <= 140 else '10')} mg",
    }  # fmt: skip


def usda_foods() -> Iterator[tuple[TableFood, dict[str, float]]]:
    for food in rows_of("usda").values():
        true = figures(food) if food.group in GROUPS else None
        if true is not None and adds_up(true):
            yield food, true


def outside(
    true: dict[str, float], pack: dict[str, str], contents: Sequence[str] = NEEDED, **more: object
) -> list[str]:
    """The contents that the food of a pack rules out although the table prints them."""
    found = food_from({"pack": pack, **more}, "the pack")
    wrong = []
    for component in contents:
        low, high = range_of(found, component)
        slack = 0.05 if component == "water_g" else 1e-6  # Sums of the table miss 100 by this much.
        if not low - slack <= true[component] <= high + slack:
            wrong.append(f"{component}: {true[component]} is not in {low:.3f} to {high:.3f}")
    return wrong


@pytest.mark.parametrize("label", [eu_label, us_label])
def test_what_a_label_leaves_out_is_within_what_it_leaves_open(label) -> None:  # type: ignore[no-untyped-def]
    foods = list(usda_foods())
    assert len(foods) > 900
    wrong = {food.name: found for food, true in foods if (found := outside(true, label(true)))}
    assert wrong == {}


PRINTED = ("fat_g", "saturated_fat_g", "carbohydrate_g", "sugars_g", "fibre_g", "protein_g")


@pytest.mark.parametrize("label", [eu_label, us_label])
def test_with_its_own_row_as_the_kind_a_label_leaves_the_same_open(label) -> None:  # type: ignore[no-untyped-def]
    """What a label prints has one range, whatever fills the rest; what follows the row holds the row's own contents."""
    foods = list(usda_foods())[::2]
    assert len(foods) > 450
    wrong = {}
    for row, true in foods:
        pack, kind = label(true), kind_of(row.written)
        by_kind, alone = food_from({"pack": pack, "kind": kind}, "x"), food_from({"pack": pack}, "x")
        found = outside(true, pack, kind=kind)
        for component in PRINTED:
            ends = (range_of(by_kind, component), range_of(alone, component))
            if ends[0] != pytest.approx(ends[1], abs=1e-6):
                found.append(f"{component}: {ends[0]} with the kind, {ends[1]} without")
        if found:
            wrong[row.name] = found
    assert wrong == {}


def test_the_water_is_known_well_enough_to_be_of_use() -> None:
    """By hand: three figures rounded to 1 g leave 3 g open, and the bound of the minerals some more."""
    widths = sorted(
        high - low
        for _, true in usda_foods()
        for low, high in [range_of(food_from({"pack": eu_label(true)}, "the pack"), "water_g")]
    )
    assert widths[len(widths) // 2] < 5
    assert widths[9 * len(widths) // 10] < 12


def test_a_label_without_fibre_and_salt_still_holds_the_truth() -> None:
    """In the EU fibre is voluntary; small packs may leave salt out."""
    foods = list(usda_foods())[::7]
    assert len(foods) > 100
    for food, true in foods:
        pack = {field: text for field, text in eu_label(true).items() if field not in ("fibre", "salt")}
        assert outside(true, pack) == [], food.name


def test_french_labels_read_back_hold_the_french_analyses() -> None:
    """Ciqual analyses water, fat and sugars by themselves, not by difference; organic acids are in no other figure."""
    checked = 0
    for food in rows_of("ciqual").values():
        cells = dict(food.cells, protein_g=food.cells["protein_jones_g"])
        names = (*NEEDED, "organic_acids_g", "alcohol_g")
        if not all(cells[name].replace(".", "", 1).isdigit() for name in names):
            continue
        printed = {name: float(cells[name]) for name in names}
        total = sum(printed[name] for name in (*NEEDED[:6], "organic_acids_g"))
        true = printed | {"carbohydrate_g": printed["carbohydrate_g"] + printed["fibre_g"]}
        if abs(total - 100) > 0.2 or not adds_up(true | {"water_g": 100 - total + true["water_g"]}):
            continue
        checked += 1
        kcal = 3 * printed["organic_acids_g"]
        pack = eu_label(true)
        kcal += 4 * true["protein_g"] + 9 * true["fat_g"] + 4 * printed["carbohydrate_g"] + 2 * true["fibre_g"]
        found = food_from({"pack": {**pack, "energy": f"{rounded(kcal, 0)} kcal"}}, "the pack")
        for component in ("water_g", "fat_g", "sugars_g", "protein_g"):
            low, high = range_of(found, component)
            assert low - 0.2 <= true[component] <= high + 0.2, (food.name, component)
    assert checked > 50
