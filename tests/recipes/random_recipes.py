"""Recipes made at random, but as someone could write them: of each family, as many as are wanted, always the same ones.

`random_recipe("ganache", 17)` gives the fields of a recipe, as a file has them. Its amounts are anywhere between the
leanest and the richest that the trade makes (common practice, no source), and often a little beyond; one recipe in
three has something unusual in it, such as rum, corn syrup, jam or cocoa. Nothing in its own words names an ingredient,
so what a card says of one must come from the figures.
"""

import random
from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass
from math import fsum
from typing import Any

from crumbcoat_calc.foods.table import food
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.reading import recipe_from

Fields = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Line:
    """An ingredient that a recipe of a family may have: one of the kinds, between two masses in g."""

    key: str
    kinds: str
    low_g: float
    high_g: float
    cooked: bool = False
    chance: float = 1.0


@dataclass(frozen=True, slots=True)
class Formula:
    """What a recipe of a family is made of, and how hot what is cooked gets, in °C."""

    lines: tuple[Line, ...]
    heat_to: tuple[int, int] = (80, 98)


_BUTTER = "butter_unsalted butter_salted butter_unsalted_82 butter_unsalted butter_demisel"
_MILK = "milk_whole milk_2pct milk_skim milk_evaporated half_and_half buttermilk_lowfat_cultured oat_milk_unsweetened"
_SUGAR = "sugar_granulated sugar_granulated sugar_powdered sugar_brown sugar_icing_uk"
_ICING_SUGAR = "sugar_powdered sugar_powdered sugar_icing_uk"
_STARCH = "cornstarch cornstarch custard_powder tapioca rice_starch arrowroot"
_FLOUR = "flour_all_purpose_unbleached flour_t55 flour_uk_plain flour_rice"
_CREAM = "cream_heavy_whipping cream_light_whipping cream_whipping_uk cream_double"
_CHOCOLATE = (
    "chocolate_dark_60_69 chocolate_dark_70_85 chocolate_dark_45_59 chocolate_semisweet_chips chocolate_milk "
    "chocolate_white chocolate_plain_uk"
)

FORMULAS: Mapping[str, Formula] = {
    "emulsified milk frosting": Formula((
        Line("milk", _MILK, 150, 450, cooked=True),
        Line("starch", _STARCH, 8, 40, cooked=True, chance=0.5),
        Line("gelatine", "gelatin_powder", 2, 9, cooked=True, chance=0.4),
        Line("milk_powder", "milk_powder_skim milk_powder_whole buttermilk_powder", 10, 60, cooked=True, chance=0.7),
        Line("sugar", _SUGAR, 60, 320, cooked=True),
        Line("butter", _BUTTER, 90, 380),
    )),
    "meringue buttercream": Formula((
        Line("white", "egg_white_raw egg_white_raw egg_white_frozen_pasteurized", 70, 210, cooked=True),
        Line("sugar", "sugar_granulated", 90, 380, cooked=True),
        Line("acid", "cream_of_tartar", 0.3, 2, cooked=True, chance=0.5),
        Line("butter", _BUTTER, 120, 520),
    ), (55, 80)),
    "egg-yolk buttercream": Formula((
        Line("yolk", "egg_yolk_raw egg_yolk_raw egg_yolk_frozen_pasteurized egg_whole_raw", 60, 170, cooked=True),
        Line("sugar", "sugar_granulated", 80, 260, cooked=True),
        Line("water", "water_tap", 20, 90, cooked=True),
        Line("butter", _BUTTER, 200, 520),
    ), (70, 90)),
    "custard buttercream": Formula((
        Line("milk", _MILK, 180, 420, cooked=True),
        Line("yolk", "egg_yolk_raw egg_whole_raw", 30, 120, cooked=True),
        Line("sugar", _SUGAR, 60, 240, cooked=True),
        Line("starch", _STARCH, 10, 45, cooked=True, chance=0.9),
        Line("butter", _BUTTER, 120, 450),
    )),
    "cooked-flour buttercream": Formula((
        Line("flour", _FLOUR, 18, 70, cooked=True),
        Line("milk", _MILK, 180, 420, cooked=True),
        Line("sugar", _SUGAR, 90, 320, cooked=True),
        Line("butter", _BUTTER, 120, 450),
    )),
    "condensed-milk buttercream": Formula((
        Line("butter", _BUTTER, 200, 560),
        Line("milk", "milk_condensed_sweetened milk_condensed_sweetened dulce_de_leche confiture_de_lait", 120, 480),
    )),
    "sugar-and-butter frosting": Formula((
        Line("fat", f"{_BUTTER} margarine_stick_salted shortening_vegetable", 60, 360),
        Line("sugar", _ICING_SUGAR, 150, 700),
        Line("milk", f"{_MILK} {_CREAM} water_tap", 5, 80, chance=0.8),
    )),
    "cream-cheese frosting": Formula((
        Line("cheese", "cream_cheese cream_cheese cheese_neufchatel mascarpone", 120, 460),
        Line("butter", _BUTTER, 30, 240, chance=0.7),
        Line("sugar", _ICING_SUGAR, 40, 520),
    )),
    "whipped cream": Formula((
        Line("cream", _CREAM, 250, 720),
        Line("sugar", "sugar_powdered sugar_granulated sugar_icing_uk", 8, 110),
        Line("cheese", "mascarpone cream_cheese", 50, 260, chance=0.25),
        Line("water", "water_tap", 15, 45, cooked=True, chance=0.5),
        Line("gelatine", "gelatin_powder gelatin_sheet_fr", 2, 10, cooked=True, chance=0.5),
    ), (45, 70)),
    "ganache": Formula((
        Line("cream", _CREAM, 80, 520, cooked=True),
        Line("chocolate", _CHOCOLATE, 100, 520),
        Line("butter", _BUTTER, 10, 90, chance=0.5),
        Line("syrup", "honey glucose_syrup_liquid corn_syrup_light golden_syrup", 8, 60, cooked=True, chance=0.5),
    )),
    "curd or custard filling": Formula((
        Line("juice", "lemon_juice lime_juice passion_fruit_juice orange_juice milk_whole", 60, 300, cooked=True),
        Line("sugar", _SUGAR, 60, 300, cooked=True),
        Line("egg", "egg_whole_raw egg_yolk_raw", 40, 250, cooked=True),
        Line("starch", _STARCH, 8, 35, cooked=True, chance=0.4),
        Line("butter", _BUTTER, 15, 260, cooked=True, chance=0.85),
    ), (72, 98)),
    "glaze or icing": Formula((
        Line("sugar", _ICING_SUGAR, 100, 560),
        Line("liquid", "water_tap lemon_juice milk_whole cream_heavy_whipping coffee_espresso_brewed", 12, 110),
        Line("butter", _BUTTER, 8, 70, chance=0.3),
    )),
    "other": Formula((
        Line("fat", "coconut_oil shortening_vegetable margarine_stick_salted fat_spread_60 cocoa_butter", 40, 320),
        Line("sugar", _ICING_SUGAR, 60, 420),
        Line("drink", "oat_milk_unsweetened soy_milk_unsweetened coconut_milk_canned soy_cream water_tap", 15, 260),
        Line("starch", _STARCH, 8, 30, cooked=True, chance=0.3),
    )),
}  # fmt: skip
"""Butter and sugar where most have them; everything else with a chance."""

UNUSUAL = (
    Line("cocoa", "cocoa_powder_dutched cocoa_powder_natural", 8, 70),
    Line("corn_syrup", "corn_syrup_light corn_syrup_dark corn_syrup_high_fructose", 5, 120),
    Line("honey_or_malt", "honey malt_syrup maple_syrup molasses", 5, 90),
    Line("dextrose", "dextrose_monohydrate fructose_pure fructose_dry lactose_monohydrate", 5, 80),
    Line("spirit", "rum_80_proof liqueur_generic cognac", 3, 45),
    Line("jam", "apricot_jam raspberry_raw redcurrant_jelly strawberry_frozen", 15, 140),
    Line("nuts", "almond_butter_unsalted peanut_butter_smooth_salted pistachio_raw hazelnut almond_paste", 15, 160),
    Line("more_chocolate", _CHOCOLATE, 15, 180),
    Line("powder", "milk_powder_skim milk_powder_whole coffee_instant_powder", 4, 70),
    Line("juice_for_taste", "lemon_juice orange_juice", 4, 45),
    Line("cheese_beside", "mascarpone cream_cheese sour_cream", 20, 160),
)
SMALL = (
    Line("vanilla", "vanilla_extract", 2, 12, chance=0.5),
    Line("salt", "salt_table", 0.3, 4, chance=0.5),
)


def random_recipe(family: str, number: int) -> Fields:
    """The fields of a recipe of a family; the same number gives the same recipe, on every machine."""
    chance = random.Random(f"{family}, {number}")
    formula, size = FORMULAS[family], chance.choice((0.4, 1.0, 1.0, 1.0, 3.0))
    wanted = [line for line in formula.lines if chance.random() < line.chance]
    taken = {line.key for line in wanted}
    for line in chance.sample(UNUSUAL, chance.choice((0, 0, 0, 0, 1, 2))) + list(SMALL):
        if line.key not in taken and chance.random() < line.chance:
            wanted.append(line)
    ingredients: dict[str, dict[str, str]] = {}
    for line in wanted:
        mass_g = size * chance.uniform(line.low_g, line.high_g)
        ingredients[line.key] = {"kind": chance.choice(line.kinds.split()), "amount": f"{mass_g:.1f} g"}
    cooked = [line.key for line in wanted if line.cooked]
    stages: list[Fields] = []
    if cooked:
        wet_g = fsum(_water_g(ingredients[key]) for key in cooked)
        hot = chance.randint(*formula.heat_to)
        step: Fields = {"do": "Heat, stirring.", "add": cooked, "heat_to": f"{hot} °C"}
        if chance.random() < 0.7:
            step["water_lost"] = f"{chance.uniform(0, 0.15) * wet_g:.1f} g"
        stages.append({"title": "Base", "makes": "base", "steps": [step]})
    others = [line.key for line in wanted if not line.cooked]
    beat: Fields = {"do": "Bring together.", "add": [*others, *(["base"] if cooked else [])]}
    stages.append({"title": "Bowl", "steps": [beat]})
    return {
        "title": "A recipe made at random", "summary": "For a test.", "author": "Lantern Street teaching kitchen",
        "family": family, "yield": {"portions": "12", "of": "slices"}, "ingredients": ingredients, "stages": stages,
    }  # fmt: skip


def with_amount(fields: Fields, key: str, mass_g: float) -> Fields:
    """The same recipe with another amount of one ingredient, in g."""
    changed = deepcopy(fields)
    changed["ingredients"][key]["amount"] = f"{mass_g} g"
    return changed


def grams_of(fields: Fields, key: str) -> float:
    """How much of an ingredient a recipe made at random has, in g."""
    return float(fields["ingredients"][key]["amount"].removesuffix(" g"))


def kinds_of(fields: Fields) -> set[str]:
    """The kinds of all ingredients."""
    return {ingredient["kind"] for ingredient in fields["ingredients"].values()}


def batch_from(fields: Fields) -> Batch:
    """One batch, as the recipe file says."""
    return batch_of(recipe_from(fields))


def _water_g(ingredient: Mapping[str, str]) -> float:
    return float(ingredient["amount"].removesuffix(" g")) * (food(ingredient["kind"]).content("water_g") or 0) / 100
