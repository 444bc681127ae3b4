"""Solid fat: how much of each fat, and of a blend of fats, is crystallised, and the heat that melts it."""

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from functools import cache, lru_cache
from itertools import pairwise
from math import fsum, log
from typing import NamedTuple

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld
from crumbcoat_calc.science.fat_sorts import UNKNOWN, Fats, family_of, fats_of, of_unknown_fat
from crumbcoat_calc.tables import load_rows

SOLID = Model(
    "solid share of each fat: straight lines between points, with a band for fast or slow cooling, season and origin; "
    "a blend between fats that crystallise apart and fats that dissolve each other (ideal solubility)",
    "0 to 150 °C; published points are those of milk fat at 5 and 20 °C, most others were not looked up; fat in fine "
    "droplets may stay liquid for longer",
    "versteeg-2016",
)

Band = tuple[float, float, float]
"""Typical value, low end and high end."""


class Curve(NamedTuple):
    """Solid shares of a fat in g per 100 g: temperatures in °C, rising, with the typical, low and high shares there."""

    t_c: tuple[float, ...]
    percents: tuple[Band, ...]


def solid_fat_percent(parts: Sequence[tuple[Food, float]], t_c: float) -> Estimated:
    """Solid fat of a mixture in g per 100 g of its fat, with its band; withheld where the fats are not known.

    Up to a tenth of the fat may be unknown: it widens the band.

    Source:
        versteeg-2016 (milk fat at 5 and 20 °C); techniques-f6320, belitz (where fats are liquid); memory (the rest).

    >>> from crumbcoat_calc.foods.table import food
    >>> solid_fat_percent([(food("butter_unsalted"), 100)], 20)[:3]
    (19.5, 11.0, 29.6)
    """
    reason = too_hot_or_cold(t_c, "choi-okos")
    if reason:
        return reason
    fats = fats_of(parts)
    reason = not_known(fats, parts)
    return reason or Estimate(*blend_percents(fats, t_c), SOLID)


def not_known(fats: Fats, parts: Sequence[tuple[Food, float]]) -> Withheld | None:
    """The reason to withhold the solid fat of a mixture: it has no fat, or too much of it is not known."""
    total_g = fsum([mass_g for _, mass_g in fats])
    if total_g <= 0:
        return Withheld("there is no fat")
    if dict(fats).get(UNKNOWN, 0.0) > constants("solid-fat")["unknown_share"] * total_g:
        return Withheld(f"it is not known which fat is in {of_unknown_fat(parts)}")
    return None


@lru_cache(maxsize=256)
def blend_percents(fats: Fats, t_c: float) -> Band:
    """Solid fat of a blend in g per 100 g: typical, low, high; from 0 °C, not checked, the caller must.

        apart = sum of w_i S_i(t);  dissolved = sum of w_i S_i(t - D ln w_family)

    Apart, every fat has its own curve: the high end, and the upper estimate within one family. Dissolved, a family
    that is only the share w of the fat melts like an ideal solution of it, with D = R T2 / melting heat: the low end.
    The typical value is the middle of both.

    Args:
        fats: one or more with a mass above zero.

    Source:
        derivation (ideal solubility).
    """
    total_g = fsum([mass_g for _, mass_g in fats])
    families: dict[str, list[float]] = {}
    for name, mass_g in fats:
        families.setdefault(family_of(name), []).append(mass_g)
    spread = constants("solid-fat")["dilution"]
    warmer = {family: -spread * log(min(1.0, fsum(masses) / total_g)) for family, masses in families.items()}
    typical, low, high = [], [], []
    for name, mass_g in fats:
        share = mass_g / total_g
        apart = solid_percents(name, t_c)
        shift = warmer[family_of(name)]
        dissolved = solid_percents(name, t_c + shift) if shift else apart
        typical.append(share * (apart[0] + dissolved[0]) / 2)
        low.append(share * dissolved[1])
        high.append(share * apart[2])
    return fsum(typical), fsum(low), fsum(high)


def solid_percents(fat: str, t_c: float) -> Band:
    """Solid share of one fat in g per 100 g: typical, low, high; from 0 °C, not checked, the caller must."""
    curve = curves()[fat]
    at = bisect_right(curve.t_c, t_c)
    if at == len(curve.t_c):
        return curve.percents[-1]
    start = curve.t_c[at - 1]
    share = (t_c - start) / (curve.t_c[at] - start)
    (a, b, c), (d, e, f) = curve.percents[at - 1], curve.percents[at]
    return a + share * (d - a), b + share * (e - b), c + share * (f - c)


def melting_heat_j_per_g(fat: str) -> Band:
    """Heat that melts a fat which is all solid, in J per g: typical, low, high.

    Source:
        memory (70 to 100 J/g for milk fat, 110 to 160 for cocoa butter, 80 to 130 for others); rahman-1998 found 80.8.
    """
    of_fat = fat_constants(fat)
    return of_fat["melting_heat"], of_fat["melting_heat_low"], of_fat["melting_heat_high"]


def fat_constants(fat: str) -> Mapping[str, float]:
    """The constants of a fat: of milk fat, of cocoa butter, or of any other."""
    known = {"milk": "milk-fat", "cocoa_butter": "cocoa-butter", "milk_chocolate": "cocoa-butter"}
    return constants(known.get(fat, "other-fat"))


@cache
def curves() -> Mapping[str, Curve]:
    """The curve of each fat, from 0 °C to where all of it is liquid."""
    points: dict[str, list[tuple[float, Band]]] = {}
    for fat, t_c, percents in load_rows("solid_fat", _point_from, ("fat", "t_c")):
        points.setdefault(fat, []).append((t_c, percents))
    for fat, found in points.items():
        melts = all(cold >= warm for (_, a), (_, b) in pairwise(found) for cold, warm in zip(a, b, strict=True))
        if found[0][0] != 0 or any(found[-1][1]) or not melts:
            raise ValueError(f"solid_fat.csv: {fat} does not melt from 0 °C on until all of it is liquid")
    return {fat: Curve(*map(tuple, zip(*found, strict=True))) for fat, found in points.items()}


def _point_from(cells: dict[str, str]) -> tuple[str, float, Band]:
    typical, low, high = [float(cells[f"{name}_percent"]) for name in ("typical", "low", "high")]
    if not 0 <= low <= typical <= high <= 100:
        raise ValueError("the typical value is not between low and high")
    return cells["fat"], float(cells["t_c"]), (typical, low, high)
