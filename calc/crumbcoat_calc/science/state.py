"""One stage of a recipe as a food scientist sees it: phases, syrup, fat volume, water activity, emulsifiers."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from functools import cached_property
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.constituents import Constituents, constituents_of
from crumbcoat_calc.science.dissolving import Band, Syrup, estimate, strength_percent, syrup_of
from crumbcoat_calc.science.emulsifier import Emulsifiers, emulsifiers
from crumbcoat_calc.science.emulsion import Inside, Packing, inside_by_amount, packing
from crumbcoat_calc.science.estimate import Answer, Estimate, Withheld
from crumbcoat_calc.science.milk_fat import solid_fat_percent
from crumbcoat_calc.science.sugar_solution import sucrose_saturation_percent
from crumbcoat_calc.science.volumes import TABLE, density_of, fat_volume_percent, syrup_by_strength, volumes_ml
from crumbcoat_calc.science.water_activity import water_activities


class MoreSugar(Enum):
    """What more sugar does to a mixture as it stands."""

    DISSOLVES_AND_THINS = "dissolves, makes more syrup around the fat, and thins"
    STIFFENS = "stays undissolved, and stiffens"
    UNKNOWN = "not known"


@dataclass(frozen=True, kw_only=True)
class State:
    """A mixture at rest at one temperature, `at_c`; every figure an estimate or withheld with the reason.

    The fields are what every stage of a batch is shown with; the properties are worked out once they are asked for,
    mostly of one stage only. `fat_volume_percent` is of fat and water phase alone; `volume_ml` holds fat, water phase
    and suspended solids (the third phase: undissolved sugar, starch, fibre, cocoa and the like), and is without air.
    `other_solids_g` is the rest of the mass: protein, minerals, starch, fibre. `packing` and `inside` are advice by
    amount.
    """

    parts: tuple[tuple[Food, float], ...]
    made: Constituents
    syrup: Syrup | Withheld
    mass_g: float
    at_c: float
    fat_g: Answer
    water_g: Answer
    dissolved_sugar_g: Answer
    undissolved_sugar_g: Answer
    other_solids_g: Answer
    ethanol_g: float
    saturated: bool | None
    syrup_strength_percent: Answer
    volume_ml: tuple[Answer, Answer, Answer]
    fat_volume_percent: Answer
    water_activity_norrish: Answer
    water_activity_money_born: Answer
    water_activity: Answer

    @cached_property
    def sucrose_saturation_percent(self) -> Answer:
        """Sucrose in a saturated syrup at this temperature, g per 100 g of syrup."""
        return sucrose_saturation_percent(self.at_c)

    @cached_property
    def headroom_g(self) -> Answer:
        """How much more sucrose would dissolve."""
        return estimate(self.syrup.headroom_g) if isinstance(self.syrup, Syrup) else self.syrup

    @cached_property
    def syrup_density_g_per_ml(self) -> Answer:
        """Density of the syrup, all its sugars taken as sucrose."""
        return syrup_by_strength(self.syrup_strength_percent, self.at_c, thickness=False)

    @cached_property
    def syrup_viscosity_mpa_s(self) -> Answer:
        """Viscosity of the syrup, all its sugars taken as sucrose."""
        return syrup_by_strength(self.syrup_strength_percent, self.at_c, thickness=True)

    @cached_property
    def density_g_per_ml(self) -> Answer:
        """Density of the whole without air."""
        return density_of(self.mass_g, self.volume_ml)

    @cached_property
    def packing(self) -> Packing | None:
        """Where the fat by volume stands against the marks of close packing."""
        phi = self.fat_volume_percent
        return packing(phi.value / 100) if isinstance(phi, Estimate) else None

    @cached_property
    def inside(self) -> Inside | None:
        """Which phase can be inside by amount alone."""
        phi = self.fat_volume_percent
        return inside_by_amount(phi.value / 100) if isinstance(phi, Estimate) else None

    @cached_property
    def solid_fat_percent(self) -> Answer:
        """How much of the milk fat is solid."""
        return _solid(self.made, self.at_c)

    @cached_property
    def emulsifiers(self) -> Emulsifiers:
        """What can cover the fat."""
        return emulsifiers(self.parts, self.made, self.volume_ml[0])


def state_of(parts: Sequence[tuple[Food, float]], t_c: float, *, boiled_off_g: float = 0.0) -> State:
    """Describe a mixture, at rest at a temperature; the masses of its phases add up to its mass.

    See each module for its formulas.

    Args:
        parts: each ingredient with its mass in g, zero or more.
        t_c: temperature of the mixture, 0 to 100 °C; outside that, figures are withheld.
        boiled_off_g: water lost so far, at most what is there.

    Source:
        see `Estimate.model` of each figure.

    >>> from crumbcoat_calc.foods.table import food
    >>> state = state_of([(food("butter_salted"), 227), (food("sugar_powdered"), 340)], 20)
    >>> round(state.undissolved_sugar_g.value), state.saturated, what_more_sugar_does(state).name
    (259, True, 'STIFFENS')
    """
    weighed = tuple([part for part in parts if part[1] > 0])
    made = constituents_of(weighed, boiled_off_g)
    mass_g = max(0.0, fsum([mass_g for _, mass_g in weighed]) - boiled_off_g)
    syrup = syrup_of(made, t_c)
    activities = water_activities(made, syrup, t_c)
    strength = strength_percent(syrup) if isinstance(syrup, Syrup) else syrup
    sugars = _sugars(syrup, made)
    volumes = volumes_ml(made, syrup, strength, t_c)
    return State(
        parts=weighed,
        made=made,
        syrup=syrup,
        mass_g=mass_g,
        at_c=t_c,
        fat_g=_table(made, made.fat_g, "fat"),
        water_g=_table(made, made.water_g, "water"),
        dissolved_sugar_g=sugars[0],
        undissolved_sugar_g=sugars[1],
        other_solids_g=_other_solids(made, mass_g, sugars),
        ethanol_g=made.ethanol_g,
        saturated=syrup.saturated if isinstance(syrup, Syrup) else None,
        syrup_strength_percent=strength,
        volume_ml=volumes,
        fat_volume_percent=fat_volume_percent(volumes),
        water_activity_norrish=activities[0],
        water_activity_money_born=activities[1],
        water_activity=activities[2],
    )


def what_more_sugar_does(state: State, emulsified: bool | None = None) -> MoreSugar:
    """What the next spoon of sugar does to this mixture: dissolve and thin, or stay undissolved and stiffen.

    See `more_sugar` for the rule.

    Args:
        emulsified: whether the fat is known to be in droplets in the water phase; None where it is not known.
    """
    return more_sugar(state.saturated, state.fat_volume_percent, emulsified)


def more_sugar(saturated: bool | None, fat_volume: Answer, emulsified: bool | None = None) -> MoreSugar:
    """What the next spoon of sugar does: dissolve and thin, or stay undissolved and stiffen.

    Where the syrup is saturated, it stays undissolved. Where it is not, it dissolves: around fat that is inside, that
    makes more of the surrounding syrup, and thins; where water is inside the fat, it only stiffens. Whether the fat is
    inside is told by `emulsified`, or, without it, by amount: above ordered close packing it is not, below random close
    packing it can be; between, and where there is hardly any fat, the answer is not known.

    Args:
        fat_volume: fat in fat and water phase, % by volume.
        emulsified: whether the fat is known to be in droplets in the water phase; None where it is not known.

    Source:
        common-practice (the two behaviours); definition (close packing).
    """
    if saturated is None:
        return MoreSugar.UNKNOWN
    if saturated or emulsified is False:
        return MoreSugar.STIFFENS
    if emulsified:
        return MoreSugar.DISSOLVES_AND_THINS
    if isinstance(fat_volume, Withheld):
        return MoreSugar.UNKNOWN
    share = fat_volume.value / 100
    inside = inside_by_amount(share)
    if inside is Inside.FAT:
        return MoreSugar.UNKNOWN
    if inside is Inside.WATER:
        return MoreSugar.STIFFENS
    return MoreSugar.DISSOLVES_AND_THINS if packing(share) is Packing.LOOSE else MoreSugar.UNKNOWN


def _table(made: Constituents, value: float, *what: str) -> Answer:
    names = made.unknown_of(*what)
    return Withheld(f"the {what[0]} of {names} is not known") if names else Estimate(value, value, value, TABLE)


def _solid(made: Constituents, t_c: float) -> Answer:
    names = made.unknown_of("fat", "milk fat")
    if names:
        return Withheld(f"the milk fat of {names} is not known")
    return (
        solid_fat_percent(t_c) if made.milk_fat_g > 0 else Withheld("there is no milk fat, and other fats are not told")
    )


def _sugars(syrup: Syrup | Withheld, made: Constituents) -> tuple[Answer, Answer]:
    if isinstance(syrup, Withheld):
        if made.water_g > 0 or made.unknown:
            return syrup, syrup
        sugars = made.sucrose_g + made.lactose_g + made.glucose_g + made.fructose_g + made.maltose_g + made.sugars_low_g
        return Estimate(0.0, 0.0, 0.0, TABLE), Estimate(sugars, sugars, sugars, TABLE)
    dissolved = _sum(syrup.sucrose_dissolved_g, syrup.other_dissolved_g)
    crystals = syrup.lactose_undissolved_g
    return estimate(dissolved), estimate(_sum(syrup.sucrose_undissolved_g, (crystals, crystals, crystals)))


def _sum(one: Band, other: Band) -> Band:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]


def _other_solids(made: Constituents, mass_g: float, sugars: tuple[Answer, Answer]) -> Answer:
    names = made.unknown_of("water", "fat", "sugar")
    if names:
        return Withheld(f"the water, fat or sugar of {names} is not known")
    dissolved, undissolved = sugars
    if isinstance(dissolved, Withheld) or isinstance(undissolved, Withheld):
        return dissolved
    told = made.fat_g + made.water_g + made.ethanol_g
    rest = mass_g - told - dissolved.value - undissolved.value
    spread = (made.sugars_high_g - made.sugars_low_g) / 2
    return Estimate(max(0.0, rest), max(0.0, rest - spread), max(0.0, rest + spread), TABLE)
