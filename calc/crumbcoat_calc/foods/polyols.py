"""The energy of the polyols that a pack lists: less than that of other carbohydrate."""

from math import fsum

from crumbcoat_calc.foods.pack import KCAL, Pack

CARBOHYDRATE, POLYOLS, ERYTHRITOL = (4.0, 17.0), (2.4, 10.0), (0.0, 0.0)
"""Energy per g in kcal and kJ. Source: eu-1169-2011, Annex XIV."""

MOST_OF_POLYOLS_KCAL = 3.0
"""The most energy per g by US law. Source: cfr-101-9 (c)(1)(i)(F): hydrogenated starch hydrolysates."""


def less_energy_of_polyols(pack: Pack) -> tuple[float, float]:
    """By how many kcal and kJ the polyols in 100 g have less than other carbohydrate.

    They count as erythritol where the energy of the pack leaves them less than half of what other polyols have.

    Source:
        eu-1169-2011, Annex XIV; derivation (energy of the pack without that of the rest).
    """
    figures = pack.figures
    if "polyols" not in figures:
        return 0.0, 0.0
    polyols_g, per_g = figures["polyols"].value, POLYOLS
    if pack.energy_kcal is not None:
        counted = [field for field in KCAL if field in figures and not (pack.us and field == "fibre")]
        others = fsum([KCAL[field] * figures[field].value for field in counted]) - CARBOHYDRATE[0] * polyols_g
        if pack.energy_kcal.value - others < POLYOLS[0] / 2 * polyols_g:
            per_g = ERYTHRITOL
    return (CARBOHYDRATE[0] - per_g[0]) * polyols_g, (CARBOHYDRATE[1] - per_g[1]) * polyols_g


def with_polyols(pack: Pack, low_kcal: float, high_kcal: float) -> tuple[float, float]:
    """The least and the most energy of a pack's nutrients, its polyols having from none to 3 kcal instead of 4."""
    polyols = pack.figures.get("polyols")
    if polyols is None:
        return low_kcal, high_kcal
    most = CARBOHYDRATE[0] - MOST_OF_POLYOLS_KCAL
    return low_kcal - CARBOHYDRATE[0] * polyols.high, high_kcal - most * polyols.low
