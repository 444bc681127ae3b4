"""Labels of packs read back: what they mean by the Regulation, what their rounding leaves open, what is impossible."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.bounds import range_of
from crumbcoat_calc.foods.composition import mixture_of
from crumbcoat_calc.foods.pack import pack_from
from crumbcoat_calc.foods.table import Food, food
from crumbcoat_calc.label.eu import eu_label
from crumbcoat_calc.recipe.ingredients import amount_of
from crumbcoat_calc.recipe.own_food import food_from

MILK = {
    "per": "100 g", "rules": "EU", "energy": "268 kJ / 64 kcal", "fat": "3.6 g", "saturates": "2.4 g",
    "carbohydrate": "4.7 g", "sugars": "4.7 g", "protein": "3.3 g", "salt": "0.1 g",
}  # fmt: skip


def from_pack(pack: dict[str, str], **more: object) -> Food:
    return food_from({"pack": pack, **more}, "the pack")


def test_what_is_printed_is_there_with_half_a_unit_of_its_last_decimal_to_each_side() -> None:
    milk = from_pack(MILK)
    assert milk.content("fat_g") == pytest.approx(3.6)
    assert range_of(milk, "fat_g") == pytest.approx((3.55, 3.65))
    assert range_of(milk, "saturated_fat_g") == pytest.approx((2.35, 2.45))


def test_salt_on_a_label_is_two_and_a_half_times_the_sodium() -> None:
    """eu-1169-2011, Annex I: 0.1 g of salt are 40 mg of sodium."""
    assert from_pack(MILK).content("sodium_mg") == pytest.approx(40)
    us = {**MILK, "rules": "US", "sodium": "40 mg"}
    del us["salt"]
    assert range_of(from_pack(us), "sodium_mg") == pytest.approx((37.5, 42.5))  # cfr-101-9 (c)(4): nearest 5 mg


def test_water_is_the_rest_within_bounds() -> None:
    """usda-sr28 01077, whole milk: 88.13 g of water and 0.69 g of ash; the label leaves 88.4 g for both."""
    milk = from_pack(MILK)
    low, high = range_of(milk, "water_g")
    assert low < 88.13 - 0.4 < high
    assert high - low < 3
    assert range_of(milk, "alcohol_g") == (0.0, 0.0)
    assert pytest.approx(milk.content("ash_g"), abs=0.7) == 0.69


def test_carbohydrate_has_the_fibre_in_it_in_the_us_and_not_in_the_eu() -> None:
    """eu-1169-2011, Annex I (2): available carbohydrate. cfr-101-9 (c)(6): total carbohydrate, fibre included."""
    cocoa = {"per": "100 g", "fat": "11 g", "carbohydrate": "12 g", "fibre": "30 g", "protein": "20 g"}
    assert from_pack({**cocoa, "rules": "EU"}).content("carbohydrate_g") == pytest.approx(42)
    us = {**cocoa, "carbohydrate": "42 g", "rules": "US"}
    assert from_pack(us).content("carbohydrate_g") == pytest.approx(42)
    with pytest.raises(InputError, match="30 g of fibre are more than the 12 g of carbohydrate"):
        from_pack({**cocoa, "rules": "US"})


def test_fibre_that_a_label_leaves_out_is_bounded_by_the_energy() -> None:
    """4 x 4.7 + 9 x 3.6 + 4 x 3.3 = 64.4 kcal; at most 64.5 - 63.6 = 0.9 kcal are left, 2 kcal a gram."""
    assert range_of(from_pack(MILK), "fibre_g")[1] == pytest.approx((64.5 - 63.63) / 2, abs=0.05)


def test_zero_and_less_than_leave_what_the_rules_allow() -> None:
    """ec-tolerances-2012: up to 0.5 g of fat may be printed as 0; cfr-101-9 (c)(2): below 0.5 g in a serving."""
    sugar = {"per": "100 g", "rules": "EU", "energy": "400 kcal", "fat": "0 g", "carbohydrate": "100 g",
             "sugars": "100 g", "protein": "<0.5 g", "salt": "0 g"}  # fmt: skip
    found = from_pack(sugar)
    assert range_of(found, "fat_g") == pytest.approx((0.0, 0.5))
    assert range_of(found, "protein_g") == pytest.approx((0.0, 0.5))
    assert range_of(found, "sodium_mg") == pytest.approx((0.0, 5.0))
    assert range_of(found, "carbohydrate_g")[0] == pytest.approx(99.5)


@pytest.mark.parametrize(
    ("printed", "most"), [("<0.1 g", 0.1), ("less than 0.5 g", 0.5), ("≤0,5g", 0.5), ("traces", 0.5), ("0 g", 0.5)]
)
def test_what_a_label_says_of_next_to_nothing(printed: str, most: float) -> None:
    """ec-tolerances-2012: none and traces of fat are at most 0.5 g."""
    assert range_of(from_pack({**MILK, "energy": "31 kcal", "saturates": "0 g", "fat": printed}), "fat_g")[1] == most


def test_a_kind_whose_water_is_not_known_leaves_water_to_the_label() -> None:
    base = {"written": "x", "name": "paste", "contents": {"fat": "3", "saturated_fat": "2", "carbohydrate": "5"}}
    by_kind, alone = from_pack(MILK, kind=base), from_pack(MILK)
    assert range_of(by_kind, "water_g") == range_of(alone, "water_g")


def test_a_serving_is_scaled_with_what_its_rounding_leaves_open() -> None:
    """3.5 to 4.5 g in 30 g are 11.7 to 15 g in 100 g."""
    per_serving = {"per": "30 g", "rules": "US", "fat": "4 g", "carbohydrate": "17 g", "protein": "2 g"}
    assert range_of(from_pack(per_serving), "fat_g") == pytest.approx((350 / 30, 450 / 30))


def test_figures_for_a_volume_need_the_density() -> None:
    per_volume = {**MILK, "per": "100 mL"}
    assert from_pack(per_volume, density="1.03 g/mL").content("fat_g") == pytest.approx(3.6 / 1.03)
    with pytest.raises(InputError, match="the density is not known") as caught:
        from_pack(per_volume)
    assert caught.value.path == ("pack", "per")


@pytest.mark.parametrize(
    ("per", "measures", "mass_g"),
    [
        ("1 tsp", {"tsp": "6 g"}, 6),
        ("2 tsp", {"US tsp": "6 g"}, 12),
        ("1 US tbsp", {"US tsp": "6 g"}, 18),
        ("1 serving", {"serving": "30 g"}, 30),
        ("2 Servings", {"serving": "30 g"}, 60),
    ],
)
def test_figures_for_a_measure_with_a_weight_beside_it(per: str, measures: dict[str, str], mass_g: float) -> None:
    """A US tablespoon is three teaspoons (nist-hb44), and a plain teaspoon is a US one."""
    pack = {"per": per, "rules": "EU", "fat": "0.6 g"}
    assert from_pack(pack, measures=measures).content("fat_g") == pytest.approx(60 / mass_g)


@pytest.mark.parametrize("measures", [None, {"jar": "90 g"}, {"US cup, whipped": "120 g"}])
def test_figures_for_a_measure_without_a_weight_are_refused(measures: dict[str, str] | None) -> None:
    more = {} if measures is None else {"measures": measures}
    for per, problem in (("1 tsp", "density is not known"), ("1 serving", "'1 serving' is not what figures on a pack")):
        with pytest.raises(InputError, match=problem) as caught:
            from_pack({**MILK, "per": per}, **more)
        assert caught.value.path == ("pack", "per")


def test_a_kind_fills_what_the_label_does_not_say() -> None:
    """The ratio of water to ash, and of the fatty acids to each other, are those of usda-sr28's cream."""
    cream = {
        "per": "100 g",
        "rules": "EU",
        "energy": "290 kcal",
        "fat": "30 g",
        "carbohydrate": "3 g",
        "protein": "2 g",
    }
    found, kind = from_pack(cream, kind="cream_heavy_whipping"), food("cream_heavy_whipping")
    for content, other in (("water_g", "ash_g"), ("monounsaturated_fat_g", "polyunsaturated_fat_g")):
        ratio = (kind.content(content) or 0) / (kind.content(other) or 1)
        assert (found.content(content) or 0) / (found.content(other) or 1) == pytest.approx(ratio)
    assert found.content("milk_fat_g") == pytest.approx(30)
    assert found.key == "cream_heavy_whipping"
    assert "what it does not say is as in" in found.note


MASCARPONE = {"per": "100 g", "rules": "EU", "fat": "42 g", "carbohydrate": "4 g", "protein": "5 g"}


@pytest.mark.parametrize(
    ("pack", "low", "high"),
    [
        (MASCARPONE, 41.5, 42.5),
        ({"per": "100 g", "rules": "EU", "fat": "42 g"}, 41.5, 42.5),
        ({"per": "28 g", "rules": "US", "fat": "13 g"}, 1250 / 28, 1350 / 28),
    ],
)
def test_rounding_goes_both_ways_with_a_kind_too(pack: dict[str, str], low: float, high: float) -> None:
    """All fat of mascarpone is milk fat (ciqual-2025 19584), so both have the range of what is printed."""
    found = from_pack(pack, kind="mascarpone")
    assert range_of(found, "fat_g") == pytest.approx((low, high)) == range_of(from_pack(pack), "fat_g")
    assert range_of(found, "milk_fat_g") == pytest.approx((low, high))


def test_what_a_kind_fills_in_has_its_ratio_at_both_ends_of_what_is_left() -> None:
    """By hand: 47.5 to 50.5 g are left, of which 51.5 parts in 52 are water and half a part is ash (ciqual-2025)."""
    found = from_pack(MASCARPONE, kind="mascarpone")
    assert range_of(found, "water_g") == pytest.approx((47.5 * 51.5 / 52, 50.5 * 51.5 / 52))
    assert range_of(found, "ash_g") == pytest.approx((47.5 * 0.5 / 52, 50.5 * 0.5 / 52))
    assert range_of(found, "lactose_g") == pytest.approx((3.5 * 2.99 / 5, 4.5 * 2.99 / 5))


def test_salt_of_a_pack_brings_the_ash_that_a_kind_without_salt_has_not() -> None:
    """By hand: 1.5 g of salt are 0.6 g of sodium, which makes 2.305 times as much ash at least."""
    butter = {
        "per": "100 g",
        "rules": "EU",
        "fat": "80 g",
        "carbohydrate": "0.6 g",
        "protein": "0.6 g",
        "salt": "1.5 g",
    }
    found = from_pack(butter, kind="butter_unsalted")
    assert found.content("ash_g") == pytest.approx(0.6 * 2.305)
    assert range_of(found, "sodium_mg") == pytest.approx((580, 620))


def test_what_is_stated_beside_the_pack_comes_first() -> None:
    """A vanilla extract: 12.6 g of sugars and 34 g of alcohol give 50 + 238 kcal (eu-1169-2011, Annex XIV)."""
    extract = {"per": "100 g", "rules": "EU", "energy": "288 kcal", "fat": "0.1 g", "carbohydrate": "12.6 g",
               "protein": "0.1 g", "salt": "0 g"}  # fmt: skip
    with pytest.raises(InputError, match="the energy is 288 kcal") as caught:
        from_pack(extract)
    assert caught.value.path == ("pack", "energy")
    found = from_pack(extract, composition={"alcohol": "34 %"})
    assert found.content("alcohol_g") == 34
    assert 50 < (found.content("water_g") or 0) < 54


def test_fibre_that_is_stated_beside_the_pack_adds_to_the_carbohydrate_of_the_eu() -> None:
    oats = {"per": "100 g", "rules": "EU", "fat": "7 g", "carbohydrate": "59 g", "protein": "13 g"}
    found = from_pack(oats, composition={"fibre": "10 %"})
    assert (found.content("carbohydrate_g"), found.content("fibre_g")) == (69.0, 10.0)


def test_the_label_of_the_food_is_the_label_of_the_pack() -> None:
    """What comes out as an EU declaration is what went in, where the decimals of both are the same."""
    lines = {line.nutrient.key: line.text for line in eu_label(mixture_of(from_pack(MILK), 100)).per_100g}
    shown = [lines[key] for key in lines if key in ("fat", "saturates", "carbohydrate", "sugars", "protein", "salt")]
    numbers = {float(part) for text in shown for part in text.removesuffix(" g").split(" to ")}
    assert {3.6, 2.4, 4.7, 3.3, 0.1} <= {round(number, 1) for number in numbers}


def test_amounts_in_measures_of_its_own() -> None:
    """By hand: 1.3 g/mL times 14.787 mL, a US tablespoon (nist-hb44); a cup that is stated wins over the density."""
    paste = from_pack(MILK, density="1.3 g/mL", measures={"piece": "12 g"})
    assert amount_of(paste, "1 US tbsp").mass_g == pytest.approx(1.3 * 14.787, rel=1e-4)
    assert amount_of(paste, "3 pieces").mass_g == 36
    cups = from_pack(MILK, density="1.3 g/mL", measures={"US cup": "227 g", "US cup, sifted": "200 g"})
    assert amount_of(cups, "2 US cups").mass_g == 454
    assert amount_of(cups, "1 US cup, sifted").mass_g == 200


def test_a_label_that_fits_no_kind_like_that_is_refused() -> None:
    syrup = {"per": "100 g", "rules": "EU", "fat": "0 g", "carbohydrate": "30 g", "protein": "0 g"}
    with pytest.raises(InputError, match=r"leaves 70\.5 g of 100 g for water and minerals"):
        from_pack(syrup, kind="sugar_granulated")


@pytest.mark.parametrize("energy", ["268 kJ", "64 kcal", "268 kJ / 64 kcal", "64 kcal (268 kJ)", "64 Cal"])
def test_energy_as_packs_print_it(energy: str) -> None:
    found = pack_from({**MILK, "energy": energy}, None).energy_kcal
    assert found is not None
    assert found.value == pytest.approx(64, abs=0.1)
