"""What can cover the fat: milk protein, phospholipid and yolk, per batch and per square metre of fat surface."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.constituents import Constituents
from crumbcoat_calc.science.emulsion import fat_surface_m2
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld
from crumbcoat_calc.tables import load_rows

PHOSPHOLIPID = Model(
    "phospholipid of each ingredient from published analyses; in a food with little fat, at most all of its fat",
    "ingredients in the table; powder of churned buttermilk is rich in it, fermented buttermilk is not",
    "mcdowall-phospholipids",
)
PROTEIN = Model("milk protein by the ingredient table", "ingredients whose milk protein is known", "ingredient-table")
LOAD = Model(
    "emulsifier per square metre of fat surface, for droplets of 5 to 50 µm as a kitchen whisk makes them",
    "assumes all emulsifier at the surface of the fat that is in droplets: an upper bound",
    "memory",
)
FINEST = Model(
    "finest droplets that the emulsifiers in the batch can cover (6 × fat volume / surface covered)",
    "loads of 1.4 to 15 mg/m² for milk protein, 1.5 to 3 for egg, 1.5 to 2 for phospholipid; from casein micelles up",
    "srinivasan-caseinate",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Emulsifiers:
    """Emulsifiers of a batch in g, and for the surface of its fat in mg/m2 and µm.

    `finest_droplet_um` is the mean droplet size down to which they suffice; they cannot cover finer droplets.
    """

    milk_protein_g: Estimated
    egg_protein_g: tuple[float, float]
    phospholipid_g: Estimated
    egg_yolk_phospholipid_g: float
    fat_surface_m2: Estimated
    milk_protein_mg_per_m2: Estimated
    phospholipid_mg_per_m2: Estimated
    finest_droplet_um: Estimated


def phospholipid_g(parts: Sequence[tuple[Food, float]]) -> Estimated:
    """Phospholipid of a batch in g; withheld, naming the ingredients, if some have no figure.

    If these bring hardly any of the fat, the band takes in that all of their fat is phospholipid.

    Source:
        mcdowall-phospholipids, egg-lipids-web; phospholipids.csv says which rows are derived or from memory.

    >>> from crumbcoat_calc.foods.table import food
    >>> phospholipid_g([(food("buttermilk_powder"), 20)]).value
    0.3
    >>> phospholipid_g([(food("pistachio_raw"), 20)]).reason
    'the phospholipid content of pistachios is not known'
    """
    table = _phospholipids()
    little = constants("phospholipid")["little_fat"]
    value = low = high = fat_g = missing_fat_g = 0.0
    missing = []
    for food, mass_g in parts:
        fat_g += (food.content("fat_g") or 0.0) * mass_g / 100
        row = table.get(food.key)
        if row is None:
            fat = food.content("fat_g")
            if fat is None or fat > little:
                if mass_g > 0:
                    missing.append(food.name)
                    missing_fat_g += mass_g if fat is None else fat * mass_g / 100
                continue
            row = (0.0, 0.0, fat)
        value += row[0] * mass_g / 100
        low += row[1] * mass_g / 100
        high += row[2] * mass_g / 100
    if missing and missing_fat_g > constants("phospholipid")["share_of_fat"] * fat_g:
        return Withheld(f"the phospholipid content of {', '.join(dict.fromkeys(missing))} is not known")
    return Estimate(value, low, high + missing_fat_g, PHOSPHOLIPID)


def emulsifiers(
    parts: Sequence[tuple[Food, float]],
    constituents: Constituents,
    all_fat_ml: Estimated,
    droplets: tuple[float, float],
    egg_protein_g: tuple[float, float],
) -> Emulsifiers:
    """Emulsifiers of a batch for the surface of its fat, in droplets of 5 to 50 µm.

        S = 6 V / d32;  finest d32 = 6 V / (protein / load + phospholipid / load)

    Args:
        all_fat_ml: the volume of all its fat.
        droplets: the share of it that surely is in droplets, and the largest possible one.
        egg_protein_g: what is not set by heat, and all of it.

    Source:
        srinivasan-caseinate, memory (surface loads, droplet sizes); definition (surface).
    """
    names = constituents.unknown_of("milk protein")
    protein: Estimated = (
        Withheld(f"the milk protein content of {names} is not known")
        if names
        else Estimate(constituents.milk_protein_g, constituents.milk_protein_g, constituents.milk_protein_g, PROTEIN)
    )
    lipid = phospholipid_g(parts)
    yolk = fsum(
        [
            _phospholipids()[food.key][0] * mass_g / 100
            for food, mass_g in parts
            if food.group == "egg" and food.key in _phospholipids()
        ]
    )
    finest_um, coarsest_um = droplet_sizes_um()
    fat_ml = _in_droplets(all_fat_ml, *droplets)
    surface = fat_surface_m2(fat_ml, finest_um, coarsest_um)
    return Emulsifiers(
        milk_protein_g=protein,
        egg_protein_g=egg_protein_g,
        phospholipid_g=lipid,
        egg_yolk_phospholipid_g=yolk,
        fat_surface_m2=surface,
        milk_protein_mg_per_m2=_per_m2(protein, surface),
        phospholipid_mg_per_m2=_per_m2(lipid, surface),
        finest_droplet_um=finest_droplet_um(fat_ml, protein, lipid, egg_protein_g),
    )


def finest_droplet_um(
    fat_ml: Estimated, milk_protein_g: Estimated, phospholipid: Estimated, egg_protein_g: tuple[float, float] = (0, 0)
) -> Estimated:
    """Mean size of the finest droplets that the emulsifiers can cover, in µm, by the band of their surface loads.

        d32 = 6 V / (protein / load + phospholipid / load)

    Never below the mean size of a casein micelle, which cannot cover what is smaller than itself.

    Args:
        fat_ml: the volume of the fat that is in droplets.
        egg_protein_g: the least and the most of it.

    Source:
        srinivasan-caseinate, memory (loads in surface_loads.csv); hristov-2016 (the micelle); definition.
    """
    if isinstance(fat_ml, Withheld):
        return fat_ml
    if isinstance(milk_protein_g, Withheld):
        return milk_protein_g
    if isinstance(phospholipid, Withheld):
        return phospholipid
    if fat_ml.high <= 0:
        return Withheld("there is no fat in droplets to cover")
    loads = surface_loads_mg_per_m2()
    amounts = (
        (milk_protein_g, loads["milk_protein"]),
        (phospholipid, loads["phospholipid"]),
        ((sum(egg_protein_g) / 2, *egg_protein_g), loads["egg_protein"]),
    )
    most = 1000 * fsum([amount[2] / low for amount, (low, _) in amounts])
    least = 1000 * fsum([amount[1] / high for amount, (_, high) in amounts])
    if least <= 0:
        return Withheld("no protein of milk or egg and no phospholipid is certain to be in it")
    middle = 1000 * fsum([amount[0] / (low * high) ** 0.5 for amount, (low, high) in amounts])
    micelle = constants("emulsifier")["casein_micelle"]
    value, low, high = [
        max(micelle, 6 * fat / covered)
        for fat, covered in ((fat_ml.value, middle), (fat_ml.low, most), (fat_ml.high, least))
    ]
    return Estimate(value, low, high, FINEST)


def _in_droplets(fat_ml: Estimated, least: float, most: float) -> Estimated:
    if isinstance(fat_ml, Withheld):
        return fat_ml
    return Estimate(fat_ml.value * (least + most) / 2, fat_ml.low * least, fat_ml.high * most, fat_ml.model)


@cache
def surface_loads_mg_per_m2() -> dict[str, tuple[float, float]]:
    """How much of each emulsifier covers a square metre of fat, in mg: low and high."""
    return dict(
        load_rows(
            "surface_loads",
            lambda cells: (cells["emulsifier"], (float(cells["low_mg_per_m2"]), float(cells["high_mg_per_m2"]))),
            ("emulsifier",),
        )
    )


@cache
def droplet_sizes_um() -> tuple[float, float]:
    """Mean droplet sizes that a kitchen whisk makes, in µm: fine and coarse."""
    rows = load_rows(
        "droplet_sizes",
        lambda cells: (cells["kind"], (float(cells["fine_um"]), float(cells["coarse_um"]))),
        ("kind",),
    )
    return dict(rows)["whisked"]


@cache
def _phospholipids() -> dict[str, tuple[float, float, float]]:
    return dict(
        load_rows(
            "phospholipids",
            lambda cells: (
                cells["food"],
                (float(cells["percent"]), float(cells["low_percent"]), float(cells["high_percent"])),
            ),
            ("food",),
        )
    )


def _per_m2(emulsifier: Estimated, surface: Estimated) -> Estimated:
    if isinstance(emulsifier, Withheld):
        return emulsifier
    if isinstance(surface, Withheld):
        return surface
    if surface.high <= 0:
        return Withheld("there is no fat in droplets to cover")
    if surface.low <= 0:
        return Withheld("the recipe leaves open how much of the fat is in droplets")
    return Estimate(
        1000 * emulsifier.value / surface.value,
        1000 * emulsifier.low / surface.high,
        1000 * emulsifier.high / surface.low,
        LOAD,
    )
