"""Volumes of a mixture without air: fat, water phase, and the solids in suspension."""

from math import fsum

from crumbcoat_calc.science.choi_okos import density_g_per_ml
from crumbcoat_calc.science.constants import constants, too_hot_or_cold
from crumbcoat_calc.science.constituents import Constituents
from crumbcoat_calc.science.dissolving import Syrup
from crumbcoat_calc.science.emulsion import FAT_VOLUME, fat_ml
from crumbcoat_calc.science.estimate import Answer, Estimate, Model, Withheld
from crumbcoat_calc.science.sugar_solution import (
    syrup_density_g_per_ml,
    syrup_viscosity_mpa_s,
    unchecked_density_g_per_ml,
)

TABLE = Model("sum over the ingredient table", "as far as the table's rows add up", "usda-sr28")
DENSITY = Model(
    "density without air: fat, syrup (Bubnik) and solids (Choi and Okos), volumes added",
    "0 to 100 °C; ±1 %; air is not in it",
    "choi-okos-1986",
)


def syrup_by_strength(strength: Answer, t_c: float, *, thickness: bool) -> Answer:
    """Density or viscosity of the syrup, all its sugars taken as sucrose, over the band of its strength."""
    if isinstance(strength, Withheld):
        return strength
    of = syrup_viscosity_mpa_s if thickness else syrup_density_g_per_ml
    middle, low, high = of(strength.value, t_c), of(strength.low, t_c), of(strength.high, t_c)
    if isinstance(middle, Withheld):
        return middle
    if isinstance(low, Withheld) or isinstance(high, Withheld):
        return Withheld("the strength's band reaches beyond the model")
    return Estimate(middle.value, low.low, high.high, middle.model)


def volumes_ml(
    made: Constituents, syrup: Syrup | Withheld, strength: Answer, t_c: float
) -> tuple[Answer, Answer, Answer]:
    """Volumes of the fat, of the water phase and of the solids in suspension, in mL; 0 to 100 °C.

    The water phase is water with its dissolved sugars (density as if all were sucrose), dissolved protein, minerals and
    ethanol; in suspension are undissolved sugar, starch, fibre and protein in particles, by Choi and Okos. Volumes are
    taken to add up.

    Source:
        bubnik-1995, choi-okos-1986, guelph-dairy.
    """
    far = too_hot_or_cold(t_c, "bubnik-density")
    if far:
        return far, far, far
    names = made.unknown_of("fat", "milk fat")
    fat: Answer
    if made.unknown_of("fat"):
        fat = Withheld(f"the fat of {names} is not known")
    else:
        volume = fat_ml(made.milk_fat_g, made.other_fat_g, t_c)
        spread = constants("milk-fat")["density_tolerance"]
        fat = Estimate(volume, volume * (1 - spread), volume * (1 + spread), FAT_VOLUME)
    carbohydrate, protein = density_g_per_ml("carbohydrate", t_c), density_g_per_ml("protein", t_c)
    particles = made.other_carbohydrate_g / carbohydrate + made.suspended_protein_g / protein
    if isinstance(syrup, Withheld) or isinstance(strength, Withheld):
        if made.water_g > 0 or made.unknown:
            reason = syrup if isinstance(syrup, Withheld) else Withheld("the syrup is not told")
            return fat, reason, reason
        dry = made.dissolved_protein_g / protein + made.minerals_g / density_g_per_ml("ash", t_c)
        dry += particles + (made.mass_g - made.fat_g - _not_sugar(made)) / carbohydrate
        return fat, Estimate(0.0, 0.0, 0.0, TABLE), Estimate(dry, dry, dry, DENSITY)
    beside = made.dissolved_protein_g / protein + made.minerals_g / density_g_per_ml("ash", t_c)
    beside += made.ethanol_g / constants("ethanol")["density_20c"]
    strongest = syrup_density_g_per_ml(strength.high, t_c)
    if isinstance(strongest, Withheld):
        return fat, strongest, strongest
    ends: list[float] = []
    for sugars in zip(syrup.sucrose_dissolved_g, syrup.other_dissolved_g, strict=True):
        solution = syrup.water_g + fsum(sugars)
        ends.append(solution / unchecked_density_g_per_ml(100 * fsum(sugars) / solution, t_c) + beside)
    at_middle, at_low, at_high = ends
    crystals = [(sucrose + syrup.lactose_undissolved_g) / carbohydrate for sucrose in syrup.sucrose_undissolved_g]
    middle, low, high = [volume + particles for volume in crystals]
    return fat, Estimate(at_middle, at_low, at_high, DENSITY), Estimate(middle, low, high, DENSITY)


def _not_sugar(made: Constituents) -> float:
    return made.dissolved_protein_g + made.suspended_protein_g + made.minerals_g + made.other_carbohydrate_g


def fat_volume_percent(volumes: tuple[Answer, Answer, Answer]) -> Answer:
    """Volume share of the fat in fat and water phase, in %; the solids in suspension are left out."""
    fat, aqueous, _ = volumes
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


def density_of(mass_g: float, volumes: tuple[Answer, Answer, Answer]) -> Answer:
    """Density of the mixture without air, in g/mL."""
    total = 0.0
    for volume in volumes:
        if isinstance(volume, Withheld):
            return volume
        total += volume.value
    if total <= 0:
        return Withheld("there is no mixture")
    density, spread = mass_g / total, constants("mixture-density")["tolerance"]
    return Estimate(density, density * (1 - spread), density * (1 + spread), DENSITY)
