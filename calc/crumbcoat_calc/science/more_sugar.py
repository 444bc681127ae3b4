"""What more sugar does to a mixture: dissolve and thin it, or stay undissolved and stiffen it."""

from enum import Enum

from crumbcoat_calc.science.emulsion import InnerPhase, Packing, inner_phase_by_amount, packing
from crumbcoat_calc.science.estimate import Estimated, Withheld


class SugarEffect(Enum):
    """What more sugar does to a mixture at rest."""

    DISSOLVES_AND_THINS = "dissolves, makes more syrup around the fat, and thins"
    STIFFENS = "stays undissolved, and stiffens"
    UNKNOWN = "not known"


def sugar_effect(saturated: bool | None, fat_volume: Estimated, emulsified: bool | None = None) -> SugarEffect:
    """What the next spoon of sugar does: dissolve and thin, or stay undissolved and stiffen.

    In a saturated syrup it stays undissolved. In any other syrup it dissolves: with fat inside, that makes more of the
    syrup around it, and thins; with water inside the fat, it only stiffens. Which phase is inside is known from
    `emulsified` or, without that, judged by amount: above ordered close packing fat is not inside, below random close
    packing it can be. In between, and with hardly any fat, the effect is unknown.

    Args:
        saturated: whether the syrup is saturated; None if that is unknown.
        fat_volume: fat in fat and water phase, % by volume.
        emulsified: whether the fat is known to be in droplets in the water phase; None if that is unknown.

    Source:
        common-practice (the two behaviours); definition (close packing).

    >>> sugar_effect(True, Withheld("unknown")).name, sugar_effect(False, Withheld("unknown"), emulsified=True).name
    ('STIFFENS', 'DISSOLVES_AND_THINS')
    """
    if saturated is None:
        return SugarEffect.UNKNOWN
    if saturated or emulsified is False:
        return SugarEffect.STIFFENS
    if emulsified:
        return SugarEffect.DISSOLVES_AND_THINS
    if isinstance(fat_volume, Withheld):
        return SugarEffect.UNKNOWN
    share = fat_volume.value / 100
    inner = inner_phase_by_amount(share)
    if inner is InnerPhase.FAT:
        return SugarEffect.UNKNOWN
    if inner is InnerPhase.WATER:
        return SugarEffect.STIFFENS
    return SugarEffect.DISSOLVES_AND_THINS if packing(share) is Packing.LOOSE else SugarEffect.UNKNOWN
