"""The temperature of a mixture, and how cold or warm one ingredient must be for a wanted one."""

from collections.abc import Sequence
from math import fsum

from crumbcoat_calc.science.constants import temperatures_c
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld, increasing_root, outside
from crumbcoat_calc.science.fat_sorts import Fats
from crumbcoat_calc.science.heat import HeatContent, HeatPart, combined
from crumbcoat_calc.science.solid_fat import Band, melting_heat_j_per_g, solid_percents

MIXING = Model(
    "heat balance: specific heats of the components (Choi and Okos), the melting of fats and the dissolving of sugar "
    "as bands",
    "0 to 120 °C; each fat melts by its own curve; from no sugar dissolved to all that can; leaves out heat exchanged "
    "with bowl and room, freezing and boiling",
    "choi-okos-1986",
)

NOTHING: Band = (0.0, 0.0, 0.0)

_TYPICAL, _LOW, _HIGH = 0, 1, 2


def mixing_temperature_c(
    parts: Sequence[HeatPart], work_j: float = 0.0, dissolving_j: Band = NOTHING, reading_k: float = 0.0
) -> Estimated:
    """Temperature of a mixture in °C, from the temperatures of its ingredients and the work of the mixer.

        sum of h_i(T) = sum of h_i(t_i) + work - dissolving,  h = integral of cp dt - fat * solid share * melting heat

    Enthalpy rises with temperature, so there is one T; it is found by false position. The band is from the melting of
    the fats, by their typical, low and high curves and melting heats, and from the dissolving of sugar.

    Args:
        work_j: heat that the mixer leaves in the mixture, J.
        dissolving_j: heat that dissolving sugar takes, J: typical, low, high.
        reading_k: by how much the temperatures of the ingredients may be off, all to one side, K.

    Source:
        choi-okos-1986, versteeg-2016, memory (melting and dissolving heats).
    """
    reason = _reason_to_withhold(parts)
    if reason:
        return reason
    heat = combined([content for content, _ in parts])
    sensible_j, melting_j = _sensible_j(parts), _melting_j(parts)
    found_c: list[float] = []
    for curve, melting, dissolving in _corners(heat.fats, dissolving_j):
        stored_j = sensible_j - melting_j[curve][melting] + work_j - dissolving_j[dissolving]
        t_c = _temperature_c(heat, stored_j, curve, melting, found_c)
        if t_c is None:
            return Withheld(f"the mixture would be {'above 120 °C' if stored_j > 0 else 'below 0 °C'}")
        found_c.append(t_c)
    return Estimate(found_c[0], min(found_c) - reading_k, max(found_c) + reading_k, MIXING)


def ingredient_temperature_c(
    others: Sequence[HeatPart],
    ingredient: HeatContent,
    target_c: float,
    work_j: float = 0.0,
    dissolving_j: Band = NOTHING,
    reading_k: float = 0.0,
) -> Estimated:
    """How cold or warm one ingredient must be for the mixture to reach a wanted temperature.

    Args:
        others: all other ingredients at their temperatures.
        ingredient: the heat content of the ingredient in question.
        target_c: the wanted temperature, 0 to 120 °C.
        work_j, dissolving_j, reading_k: as in `mixing_temperature_c`.

    Source:
        choi-okos-1986, versteeg-2016, memory (melting and dissolving heats); derivation (the same balance).
    """
    reason = _reason_to_withhold([*others, HeatPart(ingredient, target_c)])
    if reason:
        return reason
    at_target = [*[HeatPart(content, target_c) for content, _ in others], HeatPart(ingredient, target_c)]
    sensible_j = _sensible_j(at_target) - _sensible_j(others)
    before_j, after_j = _melting_j(others), _melting_j(at_target)
    found_c: list[float] = []
    for curve, melting, dissolving in _corners(combined([content for content, _ in at_target]).fats, dissolving_j):
        melted_j = before_j[curve][melting] - after_j[curve][melting]
        wanted_j = sensible_j + melted_j - work_j + dissolving_j[dissolving]
        t_c = _temperature_c(ingredient, wanted_j, curve, melting, found_c)
        if t_c is None:
            limit = "above 120 °C" if wanted_j > 0 else "below 0 °C"
            return Withheld(f"alone it cannot bring the mixture to {target_c:.3g} °C: it would have to be {limit}")
        found_c.append(t_c)
    others_j_per_k = fsum([content.j_per_k(target_c) for content, _ in others])
    off_k = reading_k * others_j_per_k / ingredient.j_per_k(target_c)
    return Estimate(found_c[0], min(found_c) - off_k, max(found_c) + off_k, MIXING)


def _temperature_c(heat: HeatContent, wanted_j: float, curve: int, melting: int, found_c: list[float]) -> float | None:
    """The temperature at which this much heat is stored; looked for near the first one found, then everywhere."""
    a, b, c = heat.a, heat.b, heat.c
    fats = [(fat, fat_g * melting_heat_j_per_g(fat)[melting] / 100) for fat, fat_g in heat.fats]

    def surplus_j(t: float) -> float:
        stored_j = t * (a + t * (b + t * c)) - wanted_j
        for fat, store_j in fats:
            stored_j -= store_j * solid_percents(fat, t)[curve]
        return stored_j

    coldest, hottest = temperatures_c("heat-balance")
    if found_c:
        near = increasing_root(surplus_j, max(coldest, found_c[0] - 2), min(hottest, found_c[0] + 2))
        if near is not None:
            return near
    return increasing_root(surplus_j, coldest, hottest)


def _sensible_j(parts: Sequence[HeatPart]) -> float:
    """Heat stored without melting, J."""
    return fsum([content.sensible_j(t_c) for content, t_c in parts])


def _melting_j(parts: Sequence[HeatPart]) -> list[list[float]]:
    """Heat that would melt what is solid of the fats, J, by each curve of solid fat and each melting heat."""
    found = [[0.0, 0.0, 0.0] for _ in range(3)]
    for content, t_c in parts:
        for fat, fat_g in content.fats:
            heats = melting_heat_j_per_g(fat)
            for by_heat, percent in zip(found, solid_percents(fat, t_c), strict=True):
                solid_g = fat_g * percent / 100
                for at, heat in enumerate(heats):
                    by_heat[at] += solid_g * heat
    return found


def _corners(fats: Fats, dissolving_j: Band) -> list[tuple[int, int, int]]:
    """The corners of the band: curve of solid fat, melting heat and dissolving heat, the typical ones first."""
    curves = (_LOW, _HIGH) if any(fat_g > 0 for _, fat_g in fats) else (_TYPICAL,)
    ends = (_LOW, _HIGH) if dissolving_j != NOTHING else (_TYPICAL,)
    melting = [(curve, heat) for curve in curves for heat in curves]
    if curves == ends == (_TYPICAL,):
        return [(_TYPICAL, _TYPICAL, _TYPICAL)]
    return [(_TYPICAL, _TYPICAL, _TYPICAL), *[(curve, heat, end) for curve, heat in melting for end in ends]]


def _reason_to_withhold(parts: Sequence[HeatPart]) -> Withheld | None:
    coldest, hottest = temperatures_c("heat-balance")
    for _, t_c in parts:
        if not coldest <= t_c <= hottest:
            return outside("an ingredient's temperature", t_c, coldest, hottest, "°C")
    whole = combined([content for content, _ in parts])
    if whole.unknown:
        return Withheld(f"the water or fat content of {', '.join(whole.unknown)} is not known")
    return None if whole.mass_g > 0 else Withheld("there is no mixture")
