"""Volumes of a mixture without air: fat, water phase, and the solids in suspension."""

from typing import NamedTuple

from crumbcoat_calc.science.choi_okos import density_g_per_ml
from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.constituents import Constituents
from crumbcoat_calc.science.dissolving import Solution, Syrup
from crumbcoat_calc.science.emulsion import FAT_VOLUME
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld
from crumbcoat_calc.science.fat_density import fat_ml
from crumbcoat_calc.science.fat_sorts import Fats
from crumbcoat_calc.science.syrup_properties import unchecked_density_g_per_ml

TABLE = Model("sum over the ingredient table", "as far as the table's rows add up", "ingredient-table")
DENSITY = Model(
    "density without air: fat, denser as it crystallises, syrup (Bubnik) and solids (Choi and Okos), volumes added",
    "0 to 100 °C; ±1 %, and what is open of the fat and of the dissolved sugar; without air",
    "choi-okos-1986",
)


class Volumes(NamedTuple):
    """Volumes without air, in mL: fat, water phase, and solids in suspension."""

    fat_ml: Estimated
    water_phase_ml: Estimated
    suspended_ml: Estimated


def volumes_of(
    constituents: Constituents, fats: Fats, syrup: Syrup | Withheld, strength: Estimated, t_c: float
) -> Volumes:
    """Volumes of the fat, of the water phase and of the solids in suspension; 0 to 100 °C.

    The water phase is water with its dissolved sugars (with the density of sucrose, above 84 % that of the rest as
    solids), dissolved protein, minerals and ethanol. In suspension are undissolved sugar, starch, fibre and protein in
    particles, by Choi and Okos. Volumes are assumed to add up, except that ethanol takes a tenth less at the low end.

    Source:
        bubnik-1995, choi-okos-1986; that of `fat_density` for the fat.
    """
    far = too_hot_or_cold(t_c, "bubnik-density")
    if far:
        return Volumes(far, far, far)
    fat = _fat(constituents, fats, t_c)
    carbohydrate, protein = density_g_per_ml("carbohydrate", t_c), density_g_per_ml("protein", t_c)
    particles = constituents.other_carbohydrate_g / carbohydrate + constituents.suspended_protein_g / protein
    if isinstance(syrup, Withheld) or isinstance(strength, Withheld):
        if constituents.water_g > 0 or constituents.unknown:
            reason = syrup if isinstance(syrup, Withheld) else Withheld("the strength of the syrup is not known")
            return Volumes(fat, reason, reason)
        dry = constituents.dissolved_protein_g / protein + constituents.minerals_g / density_g_per_ml("ash", t_c)
        dry += particles + (constituents.mass_g - constituents.fat_g - _not_sugar_g(constituents)) / carbohydrate
        return Volumes(fat, Estimate(0.0, 0.0, 0.0, TABLE), Estimate(dry, dry, dry, DENSITY))
    beside = constituents.dissolved_protein_g / protein + constituents.minerals_g / density_g_per_ml("ash", t_c)
    ethanol = constants("ethanol")
    alcohol = constituents.ethanol_g / ethanol["density_20c"]
    at_middle, at_low, at_high = [_solution_ml(solution, t_c) + beside + alcohol for solution in syrup.solutions]
    at_low = min(at_low, at_middle) - alcohol * ethanol["contraction"]
    likely, most = [
        sugar - constituents.sugars_low_g for sugar in (constituents.likely_sugars_g, constituents.sugars_high_g)
    ]
    middle, low, high = [sugar / carbohydrate + particles for sugar in syrup.undissolved_g]
    middle, low = middle - likely / carbohydrate, low - most / carbohydrate
    return Volumes(
        fat,
        Estimate(at_middle, at_low, max(at_middle, at_high), DENSITY),
        Estimate(middle, min(low, middle), max(middle, high), DENSITY),
    )


def _solution_ml(solution: Solution, t_c: float) -> float:
    """The volume of a syrup; sugar beyond the strongest syrup of the density model is counted as solid."""
    strongest = constants("bubnik-density")["highest_percent"]
    sugar = solution.sugar_g
    counted = min(sugar, solution.water_g * strongest / (100 - strongest))
    mass = solution.water_g + counted
    syrup = mass / unchecked_density_g_per_ml(100 * counted / mass, t_c)
    return syrup + (sugar - counted) / density_g_per_ml("carbohydrate", t_c)


def fat_volume_percent(volumes: Volumes) -> Estimated:
    """Volume share of the fat in fat and water phase, in %, without the solids in suspension.

        phi = 100 * fat / (fat + water phase)

    Source:
        definition.
    """
    fat, aqueous = volumes.fat_ml, volumes.water_phase_ml
    if isinstance(fat, Withheld):
        return fat
    if isinstance(aqueous, Withheld):
        return aqueous
    if fat.value + aqueous.value <= 0:
        return Withheld("there is neither fat nor water")
    if aqueous.value <= 0:
        return Withheld("there is no water phase")
    return Estimate(
        100 * fat.value / (fat.value + aqueous.value),
        100 * fat.low / (fat.low + aqueous.high),
        100 * fat.high / (fat.high + aqueous.low),
        FAT_VOLUME,
    )


def density_of(mass_g: float, volumes: Volumes) -> Estimated:
    """Density of the mixture without air, in g/mL: its mass by the sum of its volumes.

    The band has that of the volume of the fat, that of what is dissolved or not, and a tolerance for the rest.
    """
    fat, aqueous, solids = volumes
    if isinstance(fat, Withheld):
        return fat
    if isinstance(aqueous, Withheld):
        return aqueous
    if isinstance(solids, Withheld):
        return solids
    rest = aqueous.value + solids.value
    if fat.value + rest <= 0:
        return Withheld("there is no mixture")
    ends = rest, aqueous.low + solids.high, aqueous.high + solids.low
    spread = constants("mixture-density")["tolerance"]
    low, high = mass_g / (fat.high + max(ends)), mass_g / (fat.low + min(ends))
    return Estimate(mass_g / (fat.value + rest), low * (1 - spread), high * (1 + spread), DENSITY)


def _fat(constituents: Constituents, fats: Fats, t_c: float) -> Estimated:
    if constituents.unknown_of("fat"):
        return Withheld(f"the fat content of {constituents.unknown_of('fat', 'milk fat')} is not known")
    return Estimate(*fat_ml(fats, t_c), FAT_VOLUME)


def _not_sugar_g(constituents: Constituents) -> float:
    return (
        constituents.dissolved_protein_g
        + constituents.suspended_protein_g
        + constituents.minerals_g
        + constituents.other_carbohydrate_g
    )
