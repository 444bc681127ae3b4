"""The sugars of a mixture: how much is dissolved, how much is not, and how much more would dissolve."""

from dataclasses import dataclass

from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.constituents import Constituents
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld
from crumbcoat_calc.science.solubility import (
    dextrose_solubility_g_per_100g_water,
    grams_per_gram_water,
    lactose_solubility_g_per_100g_water,
    saturated_percent,
    saturation_spread_percent,
)

SUCROSE = Model(
    "sucrose by its saturation curve in water alone (Vavrinecz); other dissolved sugars may displace up to their own "
    "mass of sucrose, which the band covers",
    "0 to 100 °C; if some sucrose is undissolved, other sugars up to a tenth of it; ethanol up to 5 g per 100 g of "
    "water; at rest, not supersaturated",
    "vavrinecz-1962",
)

Band = tuple[float, float, float]
"""Value, low end and high end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Syrup:
    """The water of a mixture and what is dissolved in it, masses in g.

    `other_dissolved_g` is lactose, dextrose, fructose, maltose and the sugars that the table does not list one by one.
    `headroom_g` is how much more sucrose would dissolve. `saturated` is None if the band leaves that open.
    """

    water_g: float
    sucrose_dissolved_g: Band
    sucrose_undissolved_g: Band
    headroom_g: Band
    lactose_dissolved_g: Band
    lactose_undissolved_g: float
    other_dissolved_g: Band
    saturated: bool | None


def syrup_of(constituents: Constituents, t_c: float) -> Syrup | Withheld:
    """Split the sugars of a mixture into dissolved and undissolved, at rest at one temperature.

        most = water S / (100 - S);  dissolved = min(sucrose, most)

    S is from the saturation curve with its spread. There is no model for a mixture of sugars. With other sugars, less
    sucrose dissolves, but more sugar dissolves altogether (from memory); so the sucrose that dissolves has two bounds,
    in all the water, and in all the water minus the mass of the other sugars. With less sucrose than both, all of it
    dissolves. Otherwise the other sugars must be at most a tenth of the sucrose that the water can dissolve, or the
    syrup is withheld, because the bounds would be too far apart to be useful. Lactose dissolves by its own solubility
    in water alone; in a sucrose syrup less of it dissolves, so its low end falls evenly to a fifth of that at
    saturation (from memory). Starch does not dissolve in the cold.

    Args:
        t_c: 0 to 100 °C.

    Source:
        vavrinecz-1962; hudson-lowe; assumption (the tenth).
    """
    names = constituents.unknown_of("water", "sugar")
    if names:
        return Withheld(f"the water or sugar content of {names} is not known")
    reason = too_hot_or_cold(t_c, "vavrinecz-saturation")
    if reason:
        return reason
    water, sucrose = constituents.water_g, constituents.sucrose_g
    if water <= 0:
        return Withheld("there is no water for sugar to dissolve in")
    if constituents.ethanol_g > water * constants("ethanol")["limit"] / 100:
        return Withheld("with more than 5 g of ethanol per 100 g of water, no saturation curve applies")
    spread, percent = saturation_spread_percent(), saturated_percent(t_c)
    most = water * grams_per_gram_water(percent)
    lactose, undissolved_lactose = _lactose(constituents, t_c, min(1.0, sucrose / most))
    if isinstance(lactose, Withheld):
        return lactose
    reason = _too_much_dextrose(constituents, t_c)
    if reason:
        return reason
    free = constituents.glucose_g + constituents.fructose_g + constituents.maltose_g
    others = (
        lactose[0] + free + (constituents.sugars_low_g + constituents.sugars_high_g) / 2,
        lactose[1] + free + constituents.sugars_low_g,
        lactose[2] + free + constituents.sugars_high_g,
    )
    lowest = max(0.0, water * grams_per_gram_water(percent - spread) - others[2])
    highest = water * grams_per_gram_water(percent + spread)
    if sucrose > lowest and others[2] > constants("mixed-sugars")["limit_share"] * most:
        return Withheld(
            f"sugars other than sucrose ({others[2]:.3g} g) are more than a tenth of the sucrose that the water can "
            f"dissolve ({most:.3g} g), and there is no model for such a mixture"
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
    """Strength of the syrup: dissolved sugars in g per 100 g of water and dissolved sugars, similar to °Brix.

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


def estimate(band: Band) -> Estimated:
    """A band of this module as an estimate."""
    return Estimate(*band, SUCROSE)


def _crossed(syrup: Syrup) -> Band:
    """The other sugars at each end of the sucrose: where they displace sucrose, they are in the syrup themselves."""
    value, low, high = syrup.other_dissolved_g
    return (value, high, high) if syrup.saturated is not False else (value, low, high)


def _lactose(constituents: Constituents, t_c: float, saturation: float) -> tuple[Band | Withheld, float]:
    """Dissolved and undissolved lactose, with sucrose from none (0) to saturation (1)."""
    lactose = constituents.lactose_g
    if lactose <= 0:
        return (0.0, 0.0, 0.0), 0.0
    soluble = lactose_solubility_g_per_100g_water(t_c)
    if isinstance(soluble, Withheld):
        return soluble, 0.0
    dissolved = min(lactose, soluble.value * constituents.water_g / 100)
    beside = 1 - saturation * (1 - constants("lactose-solubility")["least_share_in_syrup"])
    low = min(lactose, beside * soluble.low * constituents.water_g / 100)
    return (dissolved, low, min(lactose, soluble.high * constituents.water_g / 100)), lactose - dissolved


def _too_much_dextrose(constituents: Constituents, t_c: float) -> Withheld | None:
    share = 100 * constituents.glucose_g / constituents.water_g
    soluble = dextrose_solubility_g_per_100g_water(min(t_c, 25.0))
    if isinstance(soluble, Estimate) and share > soluble.low:
        return Withheld(
            f"there is more dextrose ({share:.3g} g per 100 g of water) than is sure to dissolve "
            f"({soluble.low:.3g} g), so how much of it is dissolved is not known"
        )
    return None
