"""The temperature of a mixture, and how cold or warm one ingredient must be for a wanted one."""

from collections.abc import Sequence

from crumbcoat_calc.science.constants import temperatures_c
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld, increasing_root, outside
from crumbcoat_calc.science.heat import HeatContent, HeatPart, combined
from crumbcoat_calc.science.milk_fat import melting_heat_j_per_g, solid_percents

MIXING = Model(
    "heat balance: specific heats of the components (Choi and Okos) and the melting of milk fat as a band",
    "0 to 120 °C; leaves out heat exchanged with bowl and room, freezing, boiling, the dissolving of sugar and the "
    "melting of other fats",
    "choi-okos-1986",
)


def mixing_temperature_c(parts: Sequence[HeatPart], work_j: float = 0.0) -> Estimated:
    """Temperature of a mixture in °C, from the temperatures of its ingredients and the work of the mixer.

        sum of h_i(T) = sum of h_i(t_i) + work,  h = integral of cp dt - milk fat * solid share * melting heat

    Enthalpy rises with temperature, so there is one T; it is found by false position. The band is from the melting of
    the milk fat: its typical, low and high curve, and 70 to 100 J/g. Sugar that dissolves cools the mixture further;
    this is left out.

    Args:
        work_j: heat that the mixer leaves in the mixture, J.

    Source:
        choi-okos-1986, versteeg-2016, memory (melting heat).
    """
    reason = _reason_to_withhold(parts)
    if reason:
        return reason
    heat = combined([content for content, _ in parts])
    sensible_j, solid_g = _stored(parts)
    found_c: list[float] = []
    for curve, melting_j_per_g in _corners(heat.milk_fat_g):
        stored_j = sensible_j - melting_j_per_g * solid_g[curve] + work_j
        t_c = _temperature_c(heat, stored_j, curve, melting_j_per_g, found_c)
        if t_c is None:
            return Withheld(f"the mixture would be {'above 120 °C' if stored_j > 0 else 'below 0 °C'}")
        found_c.append(t_c)
    return Estimate(found_c[0], min(found_c), max(found_c), MIXING)


def ingredient_temperature_c(
    others: Sequence[HeatPart], ingredient: HeatContent, target_c: float, work_j: float = 0.0
) -> Estimated:
    """How cold or warm one ingredient must be for the mixture to reach a wanted temperature.

    Args:
        others: all other ingredients at their temperatures.
        ingredient: the heat content of the ingredient in question.
        target_c: the wanted temperature, 0 to 120 °C.
        work_j: heat that the mixer leaves in the mixture, J.

    Source:
        choi-okos-1986, versteeg-2016, memory (melting heat); derivation (the same balance, solved for one).
    """
    reason = _reason_to_withhold([*others, HeatPart(ingredient, target_c)])
    if reason:
        return reason
    at_target = [HeatPart(content, target_c) for content, _ in others]
    before_j, solid_before_g = _stored(others)
    after_j, solid_after_g = _stored([*at_target, HeatPart(ingredient, target_c)])
    found_c: list[float] = []
    for curve, melting_j_per_g in _corners(combined([ingredient, *[content for content, _ in others]]).milk_fat_g):
        wanted_j = after_j - before_j - melting_j_per_g * (solid_after_g[curve] - solid_before_g[curve]) - work_j
        t_c = _temperature_c(ingredient, wanted_j, curve, melting_j_per_g, found_c)
        if t_c is None:
            limit = "above 120 °C" if wanted_j > 0 else "below 0 °C"
            return Withheld(f"alone it cannot bring the mixture to {target_c:.3g} °C: it would have to be {limit}")
        found_c.append(t_c)
    return Estimate(found_c[0], min(found_c), max(found_c), MIXING)


def _temperature_c(
    heat: HeatContent, wanted_j: float, curve: int, melting_j_per_g: float, found_c: list[float]
) -> float | None:
    """The temperature at which this much heat is stored; looked for near the first one found, then everywhere."""
    store_j = heat.milk_fat_g * melting_j_per_g / 100
    a, b, c = heat.a, heat.b, heat.c

    def surplus_j(t: float) -> float:
        sensible_j = t * (a + t * (b + t * c)) - wanted_j
        return sensible_j - store_j * solid_percents(t)[curve] if store_j else sensible_j

    coldest, hottest = temperatures_c("heat-balance")
    if found_c:
        near = increasing_root(surplus_j, max(coldest, found_c[0] - 1), min(hottest, found_c[0] + 1))
        if near is not None:
            return near
    return increasing_root(surplus_j, coldest, hottest)


def _stored(parts: Sequence[HeatPart]) -> tuple[float, tuple[float, float, float]]:
    """Heat stored in J without melting, and solid milk fat in g by the typical, low and high curve."""
    typical = low = high = sensible_j = 0.0
    for content, t_c in parts:
        sensible_j += content.sensible_j(t_c)
        if content.milk_fat_g > 0:
            solid = solid_percents(t_c)
            typical += content.milk_fat_g * solid[0] / 100
            low += content.milk_fat_g * solid[1] / 100
            high += content.milk_fat_g * solid[2] / 100
    return sensible_j, (typical, low, high)


def _corners(milk_fat_g: float) -> list[tuple[int, float]]:
    """The corners of the band: curve of solid fat and melting heat in J/g, the typical ones first."""
    typical, low, high = melting_heat_j_per_g()
    corners = [(0, typical)]
    if milk_fat_g > 0:
        corners += [(curve, melting_j_per_g) for curve in (1, 2) for melting_j_per_g in (low, high)]
    return corners


def _reason_to_withhold(parts: Sequence[HeatPart]) -> Withheld | None:
    coldest, hottest = temperatures_c("heat-balance")
    for _, t_c in parts:
        if not coldest <= t_c <= hottest:
            return outside("an ingredient's temperature", t_c, coldest, hottest, "°C")
    whole = combined([content for content, _ in parts])
    if whole.unknown:
        return Withheld(f"the water or fat content of {', '.join(whole.unknown)} is not known")
    return None if whole.mass_g > 0 else Withheld("there is no mixture")
