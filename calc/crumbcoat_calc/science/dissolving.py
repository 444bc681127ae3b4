"""The sugars of a mixture in its water: what is dissolved, what is not, and how much more would dissolve."""

from dataclasses import dataclass

from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.constituents import Constituents
from crumbcoat_calc.science.estimate import Answer, Estimate, Model, Withheld
from crumbcoat_calc.science.sugar_solution import (
    dextrose_solubility_g_per_100g_water,
    grams_per_gram_water,
    lactose_solubility_g_per_100g_water,
    saturated_percent,
    saturation_spread_percent,
)

SUCROSE = Model(
    "sucrose against its saturation curve in the water alone (Vavrinecz); other dissolved sugars may push out up to "
    "their own mass of it, which the band covers",
    "0 to 100 °C; where sucrose is left undissolved, other sugars up to a tenth of it; ethanol up to 5 g per 100 g "
    "of water; at rest, nothing oversaturated",
    "vavrinecz-1962",
)

Band = tuple[float, float, float]
"""Value, low, high."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Syrup:
    """The water of a mixture with what is dissolved in it, masses in g: value, low and high end.

    `other_dissolved` is lactose, dextrose, fructose, maltose and sugars not told apart. `saturated` is None where the
    band leaves it open. `glucose_like_g` are the monosaccharides in it, for water activity.
    """

    water_g: float
    sucrose_dissolved_g: Band
    sucrose_undissolved_g: Band
    headroom_g: Band
    lactose_dissolved_g: Band
    lactose_undissolved_g: float
    other_dissolved_g: Band
    saturated: bool | None


def syrup_of(made: Constituents, t_c: float) -> Syrup | Withheld:
    """Split the sugars of a mixture into dissolved and undissolved ones, at rest at a temperature.

        most = water S / (100 - S);  dissolved = min(sucrose, most)

    S comes from the saturation curve with its spread. A mixture of sugars has no model here: other sugars lower the
    sucrose that dissolves, but raise all sugars dissolved together (from memory), so by the water alone and by the
    water less their own mass two bounds are found. If the sucrose lies below both, all of it dissolves, whatever else
    is there. Else the other sugars must be at most a tenth of the sucrose that the water takes, or the answer is
    withheld: with more the bounds are too far apart to be of use. Lactose counts against its own solubility in water
    alone; in a sucrose syrup less dissolves, and its low end falls evenly to a fifth of that at saturation (from
    memory). Starch does not dissolve cold.

    Args:
        t_c: 0 to 100 °C.

    Source:
        vavrinecz-1962; hudson-lowe; assumption (the tenth).
    """
    names = made.unknown_of("water", "sugar")
    if names:
        return Withheld(f"the water or the sugars of {names} are not known")
    reason = too_hot_or_cold(t_c, "vavrinecz-saturation")
    if reason:
        return reason
    water, sucrose = made.water_g, made.sucrose_g
    if water <= 0:
        return Withheld("there is no water that sugar could dissolve in")
    if made.ethanol_g > water * constants("ethanol")["limit"] / 100:
        return Withheld("with more than 5 g of ethanol per 100 g of water no saturation curve holds")
    spread, percent = saturation_spread_percent(), saturated_percent(t_c)
    most = water * grams_per_gram_water(percent)
    lactose, undissolved_lactose = _lactose(made, t_c, min(1.0, sucrose / most))
    if isinstance(lactose, Withheld):
        return lactose
    reason = _too_much_dextrose(made, t_c)
    if reason:
        return reason
    free = made.glucose_g + made.fructose_g + made.maltose_g
    others = (
        lactose[0] + free + (made.sugars_low_g + made.sugars_high_g) / 2,
        lactose[1] + free + made.sugars_low_g,
        lactose[2] + free + made.sugars_high_g,
    )
    lowest = max(0.0, water * grams_per_gram_water(percent - spread) - others[2])
    highest = water * grams_per_gram_water(percent + spread)
    if sucrose > lowest and others[2] > constants("mixed-sugars")["limit_share"] * most:
        return Withheld(
            f"sugars other than sucrose, {others[2]:.3g} g, are more than a tenth of the sucrose that the water takes, "
            f"{most:.3g} g: for such a mixture of sugars there is no model here"
        )
    dissolved = (min(sucrose, most), min(sucrose, lowest), min(sucrose, highest))
    return Syrup(
        water_g=water,
        sucrose_dissolved_g=dissolved,
        sucrose_undissolved_g=(sucrose - dissolved[0], sucrose - dissolved[2], sucrose - dissolved[1]),
        headroom_g=(max(0.0, most - sucrose), max(0.0, lowest - sucrose), max(0.0, highest - sucrose)),
        lactose_dissolved_g=lactose,
        lactose_undissolved_g=undissolved_lactose,
        other_dissolved_g=others,
        saturated=False if sucrose <= lowest else True if sucrose >= highest else None,
    )


def strength_percent(syrup: Syrup) -> Estimate:
    """Strength of the syrup: dissolved sugars in g per 100 g of water and dissolved sugars, much like °Brix.

    Source:
        definition.
    """
    value, low, high = [
        100 * sugars / (syrup.water_g + sugars)
        for sugars in (
            sucrose + other for sucrose, other in zip(syrup.sucrose_dissolved_g, _crossed(syrup), strict=True)
        )
    ]
    return Estimate(value, min(low, value), max(high, value), SUCROSE)


def estimate(band: Band) -> Answer:
    """A band of this module as an estimate."""
    return Estimate(*band, SUCROSE)


def _crossed(syrup: Syrup) -> Band:
    """The other sugars that go with each end of the sucrose: where they push it out, they are there themselves."""
    value, low, high = syrup.other_dissolved_g
    return (value, high, high) if syrup.saturated is not False else (value, low, high)


def _lactose(made: Constituents, t_c: float, saturation: float) -> tuple[Band | Withheld, float]:
    """Lactose dissolved, and undissolved, beside sucrose from none (0) to saturation (1)."""
    lactose = made.lactose_g
    if lactose <= 0:
        return (0.0, 0.0, 0.0), 0.0
    soluble = lactose_solubility_g_per_100g_water(t_c)
    if isinstance(soluble, Withheld):
        return soluble, 0.0
    dissolved = min(lactose, soluble.value * made.water_g / 100)
    beside = 1 - saturation * (1 - constants("lactose-solubility")["least_share_in_syrup"])
    low = min(lactose, beside * soluble.low * made.water_g / 100)
    return (dissolved, low, min(lactose, soluble.high * made.water_g / 100)), lactose - dissolved


def _too_much_dextrose(made: Constituents, t_c: float) -> Withheld | None:
    share = 100 * made.glucose_g / made.water_g
    soluble = dextrose_solubility_g_per_100g_water(min(t_c, 25.0))
    if isinstance(soluble, Estimate) and share > soluble.low:
        return Withheld(
            f"dextrose, {share:.3g} g per 100 g of water, is beyond what is sure to dissolve, {soluble.low:.3g} g: "
            "what of it is dissolved is not told"
        )
    return None
