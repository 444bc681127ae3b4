"""What more sugar does to a mixture: dissolve and thin it, or stay undissolved and stiffen it."""

from enum import Enum

from crumbcoat_calc.science.emulsion import InnerPhase, inner_phase_by_amount
from crumbcoat_calc.science.estimate import Estimated, Withheld

CROWDED_PERCENT = 50.0
"""Fat by volume from which droplets nearly touch (common practice, no source)."""


class SugarEffect(Enum):
    """What more sugar does to a mixture at rest."""

    DISSOLVES_AND_THINS = "dissolves, makes more syrup around the fat, and thins"
    STIFFENS = "stays undissolved, and stiffens"
    UNKNOWN = "not known"


def sugar_effect(saturated: bool | None, fat_volume: Estimated, emulsified: bool | None = None) -> SugarEffect:
    """What the next spoon of sugar does: dissolve and thin, or stay undissolved and stiffen.

    In a saturated syrup it stays undissolved. In any other syrup it dissolves. Where fat is outside, that only
    stiffens. Where droplets of fat nearly touch in the syrup, and nothing else holds them, there is more syrup around
    them, and it thins. Everywhere else it is unknown: a stronger syrup is thicker, and a gel does not care.

    Args:
        saturated: whether the syrup is saturated; None if that is unknown.
        fat_volume: fat in fat and water phase, % by volume.
        emulsified: whether droplets of fat are known to hold the mixture, or known not to; None if that is unknown.

    Source:
        common-practice (the two behaviours); definition (close packing).

    >>> sugar_effect(True, Withheld("unknown")).name, sugar_effect(False, Withheld("unknown"), emulsified=True).name
    ('STIFFENS', 'UNKNOWN')
    """
    if saturated is None:
        return SugarEffect.UNKNOWN
    if saturated:
        return SugarEffect.STIFFENS
    if isinstance(fat_volume, Withheld):
        return SugarEffect.UNKNOWN
    if emulsified:
        close = fat_volume.low >= CROWDED_PERCENT
        return SugarEffect.DISSOLVES_AND_THINS if close else SugarEffect.UNKNOWN
    inner = inner_phase_by_amount(fat_volume.low / 100)
    fat_outside = inner is InnerPhase.WATER or (emulsified is False and inner is InnerPhase.EITHER)
    return SugarEffect.STIFFENS if fat_outside else SugarEffect.UNKNOWN
