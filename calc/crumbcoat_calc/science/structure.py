"""The structure of a mixture: what holds it, which phase is outside, and how much of the fat is in droplets."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.carriers import Carrier, Carries, bands, brings, setting
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.emulsifier import Emulsifiers
from crumbcoat_calc.science.estimate import Estimate, Estimated
from crumbcoat_calc.science.parts import (
    UNMELTED_C,
    Part,
    bringing,
    content_g,
    egg_g,
    fat_g,
    foams,
    has_droplets,
    is_melted,
    is_plastic,
    is_set_egg,
    is_swollen,
    is_unmelted_fat,
    is_white,
    other_fat_g,
    starch_g,
    whipped_creams,
)
from crumbcoat_calc.science.solid_fat import solid_fat_percent
from crumbcoat_calc.science.state import MixtureState

FAT_OUTSIDE = ("sugar-and-butter frosting",)
"""Families in which unmelted fat surrounds the water, where the amounts allow it (common practice, no source)."""

EMULSIFIED = ("emulsified milk frosting", "whipped cream")
"""Families whose fat is in droplets, where none of it was added unmelted (common practice, no source)."""

GELS = (Carries.EGG_GEL, Carries.STARCH_GEL, Carries.GELATINE, Carries.AGAR, Carries.FRESH_CHEESE)
FOAMS = (Carries.WHITE_FOAM, Carries.YOLK_FOAM, Carries.CLUMPED_FAT)

_MELTING = {
    Carries.GELATINE: "gelatine melts",
    Carries.AGAR: "agar melts",
    Carries.COCOA_BUTTER: "cocoa butter melts",
    Carries.COCONUT_FAT: "coconut fat melts",
}
"""Carriers that melt as a whole, and where setting.csv says when."""

FATS = (Carries.FAT_FRAME, Carries.CLUMPED_FAT, Carries.COCOA_BUTTER, Carries.COCONUT_FAT)

_MUCH_SOLID = 0.25
"""Solids that are neither fat nor sugar, as a share of a mixture, from which they may hold it (common practice, no
source)."""

_FRAME_PERCENT, _CLUMPED_SHARE = 2.0, 0.1
"""A frame holds if at rest this much of its fat is solid; from this share of a batch on, clumped fat counts (common
practice)."""


_FRAME_SHARE = 0.5
"""Beside other carriers, a frame counts from this share of what it counts from alone (common practice, no source)."""


class Outside(Enum):
    """The phase that surrounds the other; UNKNOWN where neither the amounts nor the making decide it."""

    WATER = "water"
    FAT = "fat"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Structure:
    """What holds a mixture, the strongest first; which phase is outside; and which shares of its fat are in droplets.

    `droplets` has the share that surely is, and the largest possible one. `emulsified` says if the fat is known to be
    in droplets by how it was made, or known not to be. `egg_protein_g` has what is not set, and all of it. `frame` is
    the fat that was never melted, even where the mixture is too warm for it to hold anything, and
    `frame_solid_percent` how much of it is solid at rest. `weak` are those of the carriers that are melting at rest.
    `melted` is what would hold the mixture if it were colder, and `nothing_holds` says that this is all that could.
    """

    carriers: tuple[Carrier, ...]
    weak: tuple[Carrier, ...]
    melted: tuple[Carrier, ...]
    nothing_holds: bool
    outside: Outside
    emulsified: bool | None
    droplets: tuple[float, float]
    egg_protein_g: tuple[float, float]
    made_droplets: bool
    frame: Carrier | None
    frame_solid_percent: Estimated

    def has(self, *kinds: Carries) -> bool:
        """Whether one of these is among its carriers."""
        return any(carrier.carries in kinds for carrier in self.carriers)

    def emulsifiers(self, state: MixtureState) -> Emulsifiers:
        """What can cover the fat that is in droplets."""
        return state.emulsifiers(self.droplets, self.egg_protein_g)

    @property
    def held_by_droplets(self) -> bool | None:
        """`emulsified`, unless a gel or a foam holds the mixture: then droplets alone do not decide what sugar does."""
        return None if self.emulsified and self.has(*GELS, *FOAMS) else self.emulsified


def structure_of(parts: Sequence[Part], family: str, state: MixtureState) -> Structure:
    """The structure of a mixture, from what is in it and what the recipe did to it.

    A carrier counts from the lower end of its band in carriers.csv, and ranks by its part of the upper end, which is
    enough by itself. Starch and egg count only where they were heated far enough in water, gelatine where it was
    warmed until it melts, fat as a frame where it was never melted; and nothing that has melted at rest.

    Args:
        parts: with a mass above zero.
        state: the same mixture at rest.

    Source:
        carriers.csv and setting.csv; definition (close packing).
    """
    all_fat_g = fsum([fat_g(food, mass_g) for food, mass_g, _ in parts])
    made_g = fsum([fat_g(food, mass_g) for food, mass_g, _ in parts if not has_droplets(food)])
    outside, emulsified = _outside(parts, family, state)
    least, most = {Outside.WATER: (1.0, 1.0), Outside.FAT: (0.0, 0.0), Outside.UNKNOWN: (0.0, 1.0)}[outside]
    natural_g = all_fat_g - made_g
    eggs = [part for part in parts if part[0].group == "egg"]
    unset = [part for part in eggs if (part[2].cooked_c or 0.0) < setting("egg sets").low_c]
    found = _carriers(parts, family, state)
    frame = [(food, mass_g) for food, mass_g, treatment in parts if is_unmelted_fat((food, mass_g, treatment))]
    frame_solid = solid_fat_percent(frame, state.at_c)
    frame_carrier = next((carrier for carrier in found if carrier.carries is Carries.FAT_FRAME), None)
    if frame_carrier and len(found) == 1 and frame_carrier.figure < frame_carrier.least:
        found = []
    holding = [carrier for carrier in found if not _has_melted(carrier.carries, state, frame_solid)]
    melted = [carrier for carrier in found if carrier not in holding]
    return Structure(
        carriers=tuple(sorted(holding, key=lambda carrier: -carrier.strength)),
        weak=tuple([carrier for carrier in holding if _is_weak(carrier.carries, state, frame_solid)]),
        melted=tuple(melted),
        nothing_holds=not holding and _nothing_else(parts, state, melted),
        outside=outside,
        emulsified=emulsified,
        droplets=((natural_g + least * made_g) / all_fat_g, (natural_g + most * made_g) / all_fat_g)
        if all_fat_g > 0
        else (0, 0),
        egg_protein_g=(content_g(unset, "protein_g"), content_g(eggs, "protein_g")),
        made_droplets=outside is not Outside.FAT and made_g >= 0.02 * state.mass_g,
        frame_solid_percent=frame_solid,
        frame=frame_carrier if frame_carrier and frame_carrier.figure >= frame_carrier.least else None,
    )


def _carriers(parts: Sequence[Part], family: str, state: MixtureState) -> list[Carrier]:
    mass_g = state.mass_g
    boiled_off_g = content_g(parts, "water_g") - state.constituents.water_g
    water_g = max(0.0, content_g([part for part in parts if not is_plastic(part[0])], "water_g") - boiled_off_g)
    sugars = state.dissolved_sugar_g
    syrup_g = state.constituents.water_g + (sugars.value if isinstance(sugars, Estimate) else 0.0)
    undissolved = state.undissolved_sugar_g
    crystals_g = undissolved.low if isinstance(undissolved, Estimate) else 0.0
    foamed = [part for part in parts if part[0].group == "egg" and foams(part, family)]
    found = [
        _carrier(Carries.WHITE_FOAM, [one for one in foamed if is_white(one[0])], mass_g, egg_g),
        _carrier(Carries.YOLK_FOAM, [one for one in foamed if not is_white(one[0])], mass_g, egg_g),
        _carrier(Carries.EGG_GEL, [one for one in parts if is_set_egg(one)], water_g, egg_g),
        _carrier(Carries.STARCH_GEL, [one for one in parts if is_swollen(one)], water_g, starch_g),
        _carrier(Carries.GELATINE, [one for one in bringing(parts, "gelatine") if is_melted(one, "gelatine")], syrup_g),
        _carrier(Carries.AGAR, [one for one in bringing(parts, "agar") if is_melted(one, "agar")], water_g),
        _carrier(Carries.GUM, bringing(parts, "gum"), water_g),
        _clumped(whipped_creams(parts, family), mass_g),
        _carrier(Carries.COCOA_BUTTER, bringing(parts, "cocoa butter"), mass_g, other_fat_g),
        _carrier(Carries.COCONUT_FAT, bringing(parts, "coconut fat"), mass_g, fat_g),
        _carrier(Carries.FAT_FRAME, [one for one in parts if is_unmelted_fat(one)], mass_g, fat_g, _FRAME_SHARE),
        _carrier(Carries.FRESH_CHEESE, bringing(parts, "fresh cheese"), mass_g),
        _counted(Carries.SUGAR_CRYSTALS, crystals_g, mass_g, ()),
    ]
    return [carrier for carrier in found if carrier]


def _carrier(
    carries: Carries,
    parts: Sequence[Part],
    in_g: float,
    amount_g: Callable[[Food, float], float] = lambda _, g: g,
    from_share: float = 1.0,
) -> Carrier | None:
    return _counted(carries, fsum([amount_g(food, mass_g) for food, mass_g, _ in parts]), in_g, parts, from_share)


def _clumped(creams: Sequence[Part], mass_g: float) -> Carrier | None:
    """The fat of whipped cream, if it is enough of the batch; its figure is the fat of the cream, not of the batch."""
    whipped_g = content_g(creams, "fat_g")
    if whipped_g < _CLUMPED_SHARE * mass_g or whipped_g <= 0:
        return None
    weighted = [
        fat_g(food, part_g)
        * (food.content("fat_g") or 0.0 if one.whipped_fat_percent is None else one.whipped_fat_percent)
        for food, part_g, one in creams
    ]
    return _counted(Carries.CLUMPED_FAT, fsum(weighted) / whipped_g, 100, creams)


def _counted(
    carries: Carries, amount_g: float, in_g: float, parts: Sequence[Part], from_share: float = 1.0
) -> Carrier | None:
    """The carrier with this amount in 100 g of something, if it is enough to count, or this share of that."""
    least, alone, *_ = bands()[carries.value]
    if in_g <= 0 or 100 * amount_g < from_share * least * in_g:
        return None
    heated = [treatment.cooked_c for _, _, treatment in parts if treatment.cooked_c is not None]
    foods = tuple(dict.fromkeys([food for food, _, _ in parts]))
    return Carrier(carries, 100 * amount_g / in_g, least, alone, foods, min(heated, default=None))


def _has_melted(carries: Carries, state: MixtureState, frame_solid: Estimated) -> bool:
    """Whether a carrier has melted at the temperature of the mixture."""
    if carries in (Carries.FAT_FRAME, Carries.CLUMPED_FAT):
        solid = frame_solid if carries is Carries.FAT_FRAME else state.solid_fat_percent
        return solid.value < _FRAME_PERCENT if isinstance(solid, Estimate) else state.at_c > UNMELTED_C
    melting = _MELTING.get(carries)
    return melting is not None and state.at_c >= setting(melting).high_c


def _is_weak(carries: Carries, state: MixtureState, frame_solid: Estimated) -> bool:
    """Whether a carrier is melting at the temperature of the mixture: by its range, or a fat by its curve."""
    solid = frame_solid if carries is Carries.FAT_FRAME else state.solid_fat_percent
    greasy = carries in FATS and isinstance(solid, Estimate) and solid.value < constants("solid-fat")["greasy"]
    melting = _MELTING.get(carries)
    return greasy or (melting is not None and state.at_c > setting(melting).low_c)


def _nothing_else(parts: Sequence[Part], state: MixtureState, melted: Sequence[Carrier]) -> bool:
    """Whether nothing in a mixture could hold it but what has melted."""
    solids, sugar = state.other_solids_g, state.undissolved_sugar_g
    known = {food for carrier in melted for food in carrier.of}
    others = [food for food, _, _ in parts if food not in known and (food.group == "egg" or brings(food))]
    return (
        bool(melted)
        and all(brings(food) in {carries.value for carries in FATS} for food in others)
        and isinstance(solids, Estimate)
        and solids.high < _MUCH_SOLID * state.mass_g
        and isinstance(sugar, Estimate)
        and 100 * sugar.high < bands()[Carries.SUGAR_CRYSTALS.value][0] * state.mass_g
    )


def _outside(parts: Sequence[Part], family: str, state: MixtureState) -> tuple[Outside, bool | None]:
    """The phase outside, and whether the fat is in droplets by how it was made."""
    phi = state.fat_volume_percent
    if not isinstance(phi, Estimate):
        return Outside.UNKNOWN, None
    ordered = 100 * constants("close-packing")["ordered"]
    unmelted = any(is_unmelted_fat(part) for part in parts)
    all_droplets = all(has_droplets(food) for food, mass_g, _ in parts if fat_g(food, mass_g) > 0.01 * state.mass_g)
    if phi.high < 100 - ordered:
        return Outside.WATER, True if all_droplets or (family in EMULSIFIED and not unmelted) else None
    if phi.low > ordered:
        return (Outside.FAT, False) if unmelted and not all_droplets else (Outside.UNKNOWN, None)
    if family in FAT_OUTSIDE and unmelted and phi.low >= 100 - ordered:
        return Outside.FAT, False
    if phi.high <= ordered and (all_droplets or (family in EMULSIFIED and not unmelted)):
        return Outside.WATER, True
    return Outside.UNKNOWN, None
