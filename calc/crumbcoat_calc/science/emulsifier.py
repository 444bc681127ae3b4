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
    "assumes all fat in droplets and all emulsifier at their surface: an upper bound",
    "memory",
)
FINEST = Model(
    "finest droplets that the emulsifiers in the batch can cover (6 × fat volume / surface covered)",
    "surface loads 1.4 to 15 mg/m² for milk protein, 1.5 to 2 for phospholipid; enough whisking to make such droplets",
    "srinivasan-caseinate",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Emulsifiers:
    """Emulsifiers of a batch in g, and for the surface of its fat in mg/m2 and µm.

    `finest_droplet_um` is the mean droplet size down to which they suffice; they cannot cover finer droplets.
    """

    milk_protein_g: Estimated
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


def emulsifiers(parts: Sequence[tuple[Food, float]], constituents: Constituents, fat_ml: Estimated) -> Emulsifiers:
    """Emulsifiers of a batch for the surface of its fat, in droplets of 5 to 50 µm.

        S = 6 V / d32;  finest d32 = 6 V / (protein / load + phospholipid / load)

    Args:
        fat_ml: the volume of all its fat.

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
    surface = fat_surface_m2(fat_ml, finest_um, coarsest_um)
    return Emulsifiers(
        milk_protein_g=protein,
        phospholipid_g=lipid,
        egg_yolk_phospholipid_g=yolk,
        fat_surface_m2=surface,
        milk_protein_mg_per_m2=_per_m2(protein, surface),
        phospholipid_mg_per_m2=_per_m2(lipid, surface),
        finest_droplet_um=finest_droplet_um(fat_ml, protein, lipid),
    )


def finest_droplet_um(fat_ml: Estimated, milk_protein_g: Estimated, phospholipid: Estimated) -> Estimated:
    """Mean size of the finest droplets that the emulsifiers can cover, in µm, by the band of their surface loads.

        d32 = 6 V / (protein / load + phospholipid / load)

    Source:
        srinivasan-caseinate, memory (loads in surface_loads.csv); definition.
    """
    if isinstance(fat_ml, Withheld):
        return fat_ml
    if isinstance(milk_protein_g, Withheld):
        return milk_protein_g
    if isinstance(phospholipid, Withheld):
        return phospholipid
    if fat_ml.high <= 0:
        return Withheld("there is no fat to cover")
    loads = surface_loads_mg_per_m2()
    (protein_low, protein_high), (lipid_low, lipid_high) = loads["milk_protein"], loads["phospholipid"]
    most = 1000 * (milk_protein_g.high / protein_low + phospholipid.high / lipid_low)
    least = 1000 * (milk_protein_g.low / protein_high + phospholipid.low / lipid_high)
    if least <= 0:
        return Withheld("no milk protein and no phospholipid is certain to be in it")
    middle = 1000 * (
        milk_protein_g.value / (protein_low * protein_high) ** 0.5
        + phospholipid.value / (lipid_low * lipid_high) ** 0.5
    )
    return Estimate(6 * fat_ml.value / middle, 6 * fat_ml.low / most, 6 * fat_ml.high / least, FINEST)


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
    if surface.low <= 0:
        return Withheld("there is no fat to cover")
    return Estimate(
        1000 * emulsifier.value / surface.value,
        1000 * emulsifier.low / surface.high,
        1000 * emulsifier.high / surface.low,
        LOAD,
    )
