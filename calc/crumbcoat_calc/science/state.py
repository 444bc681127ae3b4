"""A mixture as a food scientist sees it: phases, syrup, fat by volume, water activity, emulsifiers."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.constituents import Constituents, constituents_of
from crumbcoat_calc.science.dissolving import Syrup, estimate, strength_percent, syrup_of
from crumbcoat_calc.science.emulsifier import Emulsifiers, emulsifiers
from crumbcoat_calc.science.emulsion import InnerPhase, Packing, inner_phase_by_amount, packing
from crumbcoat_calc.science.estimate import Estimate, Estimated, Withheld
from crumbcoat_calc.science.fat_sorts import fats_of
from crumbcoat_calc.science.lactose import Lactose, lactose_of
from crumbcoat_calc.science.more_sugar import SugarEffect, sugar_effect
from crumbcoat_calc.science.solid_fat import solid_fat_percent
from crumbcoat_calc.science.solubility import sucrose_saturation_percent
from crumbcoat_calc.science.syrup_properties import density_over_band, viscosity_over_band
from crumbcoat_calc.science.volumes import TABLE, Volumes, density_of, fat_volume_percent, volumes_of
from crumbcoat_calc.science.water_activity import water_activities


@dataclass(frozen=True, kw_only=True)
class MixtureState:
    """A mixture at rest at one temperature, `at_c`; every figure is an estimate, or withheld with the reason.

    The fields are the figures that a card shows for every stage; the properties are computed when they are read,
    mostly for one stage only. `fat_volume_percent` is fat in fat and water phase. `volumes` has these two and the
    solids in suspension (undissolved sugar, starch, fibre, cocoa), without air. `other_solids_g` is the rest of the
    mass: protein, minerals, starch, fibre. `sure_water_activity` is for advice about keeping. `packing`
    and `inner_phase` are advice, by amount only.
    """

    parts: tuple[tuple[Food, float], ...]
    constituents: Constituents
    syrup: Syrup | Withheld
    mass_g: float
    at_c: float
    fat_g: Estimated
    water_g: Estimated
    dissolved_sugar_g: Estimated
    undissolved_sugar_g: Estimated
    other_solids_g: Estimated
    ethanol_g: float
    saturated: bool | None
    syrup_strength_percent: Estimated
    volumes: Volumes
    fat_volume_percent: Estimated
    water_activity_norrish: Estimated
    water_activity_money_born: Estimated
    water_activity: Estimated
    sure_water_activity: Estimated

    @cached_property
    def sucrose_saturation_percent(self) -> Estimated:
        """Sucrose in a saturated syrup at this temperature, g per 100 g of syrup."""
        return sucrose_saturation_percent(self.at_c)

    @cached_property
    def headroom_g(self) -> Estimated:
        """How much more sucrose would dissolve."""
        return estimate(self.syrup.headroom_g) if isinstance(self.syrup, Syrup) else self.syrup

    @cached_property
    def lactose(self) -> Lactose:
        """Milk sugar: dissolved, and what may crystallise in the cold."""
        return lactose_of(self.constituents, self.syrup)

    @cached_property
    def syrup_density_g_per_ml(self) -> Estimated:
        """Density of the syrup, with all its sugars taken as sucrose."""
        return density_over_band(self.syrup_strength_percent, self.at_c)

    @cached_property
    def syrup_viscosity_mpa_s(self) -> Estimated:
        """Viscosity of the syrup, with all its sugars taken as sucrose."""
        return viscosity_over_band(self.syrup_strength_percent, self.at_c)

    @cached_property
    def density_g_per_ml(self) -> Estimated:
        """Density of the mixture without air."""
        return density_of(self.mass_g, self.volumes)

    @cached_property
    def packing(self) -> Packing | None:
        """How close the fat is packed, by the marks of close packing."""
        phi = self.fat_volume_percent
        return packing(phi.value / 100) if isinstance(phi, Estimate) else None

    @cached_property
    def inner_phase(self) -> InnerPhase | None:
        """Which phase can be inside, by amount only."""
        phi = self.fat_volume_percent
        return inner_phase_by_amount(phi.value / 100) if isinstance(phi, Estimate) else None

    @cached_property
    def solid_fat_percent(self) -> Estimated:
        """How much of the fat is solid."""
        names = self.constituents.unknown_of("fat")
        return (
            Withheld(f"the fat content of {names} is not known") if names else solid_fat_percent(self.parts, self.at_c)
        )

    def emulsifiers(self, droplets: tuple[float, float], egg_protein_g: tuple[float, float]) -> Emulsifiers:
        """What can cover the fat that is in droplets; see `emulsifier.emulsifiers`."""
        return emulsifiers(self.parts, self.constituents, self.volumes.fat_ml, droplets, egg_protein_g)

    def sugar_effect(self, emulsified: bool | None = None) -> SugarEffect:
        """What more sugar does to this mixture; see `more_sugar.sugar_effect`."""
        return sugar_effect(self.saturated, self.fat_volume_percent, emulsified)


def mixture_state(parts: Sequence[tuple[Food, float]], t_c: float, *, boiled_off_g: float = 0.0) -> MixtureState:
    """The state of a mixture at rest at one temperature; the masses of its phases add up to its mass.

    Each module of this package has its formulas.

    Args:
        parts: each ingredient with its mass in g, zero or more.
        t_c: temperature of the mixture, 0 to 100 °C; outside that, figures are withheld.
        boiled_off_g: water lost so far, at most as much as there is.

    Source:
        that of each figure's model.

    >>> from crumbcoat_calc.foods.table import food
    >>> state = mixture_state([(food("butter_salted"), 227), (food("sugar_powdered"), 340)], 20)
    >>> round(state.undissolved_sugar_g.value), state.saturated, state.sugar_effect().name
    (259, True, 'STIFFENS')
    """
    weighed = tuple([part for part in parts if part[1] > 0])
    constituents = constituents_of(weighed, boiled_off_g)
    mass_g = max(0.0, fsum([mass_g for _, mass_g in weighed]) - boiled_off_g)
    syrup = syrup_of(constituents, t_c)
    activities = water_activities(constituents, syrup, t_c)
    strength = strength_percent(syrup) if isinstance(syrup, Syrup) else syrup
    dissolved, undissolved = _sugars(syrup, constituents)
    volumes = volumes_of(constituents, fats_of(weighed), syrup, strength, t_c)
    return MixtureState(
        parts=weighed,
        constituents=constituents,
        syrup=syrup,
        mass_g=mass_g,
        at_c=t_c,
        fat_g=_from_table(constituents, constituents.fat_g, "fat"),
        water_g=_from_table(constituents, constituents.water_g, "water"),
        dissolved_sugar_g=dissolved,
        undissolved_sugar_g=undissolved,
        other_solids_g=_other_solids(constituents, mass_g, dissolved, undissolved),
        ethanol_g=constituents.ethanol_g,
        saturated=syrup.saturated if isinstance(syrup, Syrup) else None,
        syrup_strength_percent=strength,
        volumes=volumes,
        fat_volume_percent=fat_volume_percent(volumes),
        water_activity_norrish=activities.norrish,
        water_activity_money_born=activities.money_born,
        water_activity=activities.both,
        sure_water_activity=activities.sure,
    )


def _from_table(constituents: Constituents, value: float, content: str) -> Estimated:
    names = constituents.unknown_of(content)
    return Withheld(f"the {content} content of {names} is not known") if names else Estimate(value, value, value, TABLE)


def _sugars(syrup: Syrup | Withheld, constituents: Constituents) -> tuple[Estimated, Estimated]:
    """Dissolved and undissolved sugar; in a mixture that is known to be dry, all of it is undissolved."""
    if isinstance(syrup, Withheld):
        if constituents.water_g > 0 or constituents.unknown:
            return syrup, syrup
        sugars = constituents.sugars_g
        return Estimate(0.0, 0.0, 0.0, TABLE), Estimate(sugars, sugars, sugars, TABLE)
    return estimate(syrup.dissolved_g), estimate(syrup.undissolved_g)


def _other_solids(constituents: Constituents, mass_g: float, dissolved: Estimated, undissolved: Estimated) -> Estimated:
    names = constituents.unknown_of("water", "fat", "sugar")
    if names:
        return Withheld(f"the water, fat or sugar content of {names} is not known")
    if isinstance(dissolved, Withheld) or isinstance(undissolved, Withheld):
        return dissolved
    counted = constituents.fat_g + constituents.water_g + constituents.ethanol_g
    rest = mass_g - counted - dissolved.value - undissolved.value
    likely = constituents.likely_sugars_g
    low, high = rest - (constituents.sugars_high_g - likely), rest + (likely - constituents.sugars_low_g)
    return Estimate(max(0.0, rest), max(0.0, low), max(0.0, high), TABLE)
