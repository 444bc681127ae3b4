"""How a frosting warms: its solid fat from the refrigerator to a hot day, and how long it takes to get there."""

import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from math import fsum
from typing import NamedTuple

from crumbcoat_calc.science.conduction import Axis, at_place, ball_terms, plate_terms, time_until_s
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Model, Withheld
from crumbcoat_calc.science.fat_sorts import Fats, fats_of
from crumbcoat_calc.science.heat import combined, heat_content
from crumbcoat_calc.science.solid_fat import Band, blend_percents, melting_heat_j_per_g, not_known, solid_percents
from crumbcoat_calc.science.state import MixtureState

TIMES = Model(
    "heat equation for half a ball of 30 g (1 oz) and for a cake 20 cm (8 in) across and 10 cm (4 in) high on a board, "
    "in air all around, "
    "as a band for what they are made of and for the draught",
    "still air: a draught is faster, a box slower; a round cake counts as a square one of the same volume; leaves out "
    "water that condenses, and what melts inside the cake",
    "derivation",
)

DEGREES = (2.0, 5.0, 7.5, 10.0, 12.5, 15.0, 17.5, 20.0, 22.5, 25.0, 27.5, 30.0, 32.5, 35.0)
"""The temperatures of a curve, in °C."""

Range = tuple[float | None, float | None]
"""The shortest and the longest time in s; None where it never gets that warm."""


class Melting(NamedTuple):
    """Solid fat at the temperatures of DEGREES: g in 100 g of the mixture, and in 100 g of its fat."""

    of_mixture: tuple[Band, ...]
    of_fat: tuple[Band, ...]


def melting(ends: Sequence[MixtureState]) -> Melting | Withheld:
    """The solid fat of a mixture as it warms, over the ends of what is not known of it.

    Source:
        that of `solid_fat`.
    """
    found = []
    for end in ends:
        names = end.constituents.unknown_of("fat")
        if names or end.mass_g <= 0:
            return Withheld(f"the fat content of {names} is not known" if names else "there is no mixture")
        fats = fats_of(end.parts)
        reason = not_known(fats, end.parts)
        if reason:
            return reason
        fat_g = fsum([mass_g for _, mass_g in fats])
        # Rounded, so that a batch of another size is found in the caches.
        shares = tuple([(fat, round(mass_g / fat_g, 4)) for fat, mass_g in fats if mass_g > 0.0001 * fat_g])
        found.append(_melting(shares, round(fat_g / end.mass_g, 4)))
    return found[0] if len(found) == 1 else Melting(*[_over(curves) for curves in zip(*found, strict=True)])


@lru_cache(maxsize=32)
def _melting(fats: Fats, share: float) -> Melting:
    curve = tuple([blend_percents(fats, t_c) for t_c in DEGREES])
    return Melting(tuple([(a * share, b * share, c * share) for a, b, c in curve]), curve)


def _over(curves: Sequence[tuple[Band, ...]]) -> tuple[Band, ...]:
    """Bands that cover those of all curves, with the middle of their typical values."""
    covering = []
    for bands in zip(*curves, strict=True):
        typical, low, high = zip(*bands, strict=True)
        covering.append(((min(typical) + max(typical)) / 2, min(low), max(high)))
    return tuple(covering)


def value_at(curve: Sequence[Band], t_c: float) -> Band | None:
    """The value of a curve over DEGREES, by straight lines; None outside it."""
    for at in range(len(DEGREES) - 1):
        if DEGREES[at] <= t_c <= DEGREES[at + 1]:
            share = (t_c - DEGREES[at]) / (DEGREES[at + 1] - DEGREES[at])
            (a, b, c), (d, e, f) = curve[at], curve[at + 1]
            return a + share * (d - a), b + share * (e - b), c + share * (f - c)
    return None


def falls_to(curve: Sequence[Band], percent: float) -> Band:
    """The temperature in °C at which the solid fat has fallen to this much: by the typical curve, the low, the high.

    The first or the last temperature of DEGREES where it is less or more all along.
    """
    typical, low, high = [_falls_to([band[end] for band in curve], percent) for end in range(3)]
    return typical, low, high


def _falls_to(values: Sequence[float], percent: float) -> float:
    if values[0] <= percent:
        return DEGREES[0]
    for at in range(len(values) - 1):
        if values[at + 1] <= percent:
            share = (values[at] - percent) / (values[at] - values[at + 1])
            return DEGREES[at] + share * (DEGREES[at + 1] - DEGREES[at])
    return DEGREES[-1]


class Around(NamedTuple):
    """The temperature around a body in °C, with what the sun adds at least and at most."""

    room_c: float
    least_k: float = 0.0
    most_k: float = 0.0


def in_the_sun(room_c: float, *, dark: bool) -> Around:
    """A place in the sun by a window, as the temperature of air that would warm as much.

        T = room + G tau alpha / h

    At least, half of the body is lit.

    Args:
        dark: whether it is dark with cocoa.

    Source:
        found-web (glass, white coats); memory (sun on a window, chocolate).
    """
    sun = constants("sun")
    absorbed = ("dark_low", "dark_high") if dark else ("white", "white")
    per_k = constants("warming")["h"]
    least, most = [
        sun[strength] * sun["glass"] * sun[coat] / per_k
        for strength, coat in zip(("low", "high"), absorbed, strict=True)
    ]
    return Around(room_c, least / 2, most)


@lru_cache(maxsize=64)
def cake_times_s(place: float, from_c: float, to_c: float, around: Around) -> Range:
    """How long a cake takes from one temperature to a warmer one, at half its height.

    Args:
        place: 0 in the middle, 1 in the coat, in the middle of a side.

    Source:
        derivation; assumption and memory (size, conductivity, diffusivity), derivation (h).
    """
    of = constants("warming")
    half_m = of["cake_across"] * math.sqrt(math.pi) / 4
    high_m = of["cake_height"]

    def axes(corner: str, other: str) -> list[Axis]:
        per_m = of[f"h_{corner}"] / of[f"k_{other}"]
        spread = of[f"diffusivity_{corner}"]
        side = plate_terms(per_m * half_m)
        return [
            Axis(at_place(side, place), spread / half_m**2),
            Axis(side, spread / half_m**2),
            Axis(at_place(plate_terms(per_m * high_m), 0.5), spread / high_m**2),
        ]

    return _times_s(axes, from_c, to_c, around)


def dollop_times_s(mixture: MixtureState, density_g_per_ml: float, from_c: float, to_c: float, around: Around) -> Range:
    """How long 30 g of a frosting take from one temperature to a warmer one, as half a ball on a board.

    What melts of the fat takes heat as well.

    Args:
        density_g_per_ml: with its air, as far as it is known.

    Source:
        derivation; choi-okos-1986 (specific heat), memory (melting heat, conductivity), derivation (h).
    """
    if to_c <= from_c:
        return 0.0, 0.0
    heat = combined([heat_content(food, mass_g) for food, mass_g in mixture.parts])
    taken_j = heat.sensible_j(to_c) - heat.sensible_j(from_c)
    for fat, fat_g in heat.fats:
        solid = solid_percents(fat, from_c)[0] - solid_percents(fat, to_c)[0]
        taken_j += fat_g * solid / 100 * melting_heat_j_per_g(fat)[0]
    per_g_k = taken_j / heat.mass_g / (to_c - from_c)
    return half_ball_times_s(round(density_g_per_ml, 2), round(per_g_k, 2), from_c, to_c, around)


@lru_cache(maxsize=64)
def half_ball_times_s(
    density_g_per_ml: float, cp_j_per_g_k: float, from_c: float, to_c: float, around: Around
) -> Range:
    """How long half a ball of 30 g takes from one temperature, on its mean, to a warmer one.

    Args:
        cp_j_per_g_k: specific heat in J/(g K), with what melts on the way.

    Source:
        derivation; memory (conductivity), derivation (h).
    """
    of = constants("warming")
    radius_m = (3 * of["dollop_mass"] / density_g_per_ml / (2 * math.pi)) ** (1 / 3) / 100

    def axes(corner: str, other: str) -> list[Axis]:
        k = of[f"frosting_k_{corner}"]
        per_m3_k = density_g_per_ml * cp_j_per_g_k * 1e6
        return [Axis(ball_terms(of[f"h_{corner}"] * radius_m / k), k / per_m3_k / radius_m**2)]

    return _times_s(axes, from_c, to_c, around)


def _times_s(axes: Callable[[str, str], Sequence[Axis]], from_c: float, to_c: float, around: Around) -> Range:
    if to_c <= from_c:
        return 0.0, 0.0
    found: list[float | None] = []
    for corner, other, warmer in (("high", "low", around.most_k), ("low", "high", around.least_k)):
        outside_c = around.room_c + warmer
        share = (outside_c - to_c) / (outside_c - from_c) if outside_c > from_c else 0.0
        found.append(time_until_s(axes(corner, other), share) if share > 0 else None)
    return found[0], found[1]
