"""What each figure of the science means, and the model behind it: the same for every recipe."""

from dataclasses import dataclass

from crumbcoat_calc.science import (
    chilling,
    dissolving,
    emulsifier,
    emulsion,
    foam,
    milk_fat,
    mixing,
    solubility,
    syrup_properties,
    volumes,
)
from crumbcoat_calc.science import water_activity as activity
from crumbcoat_calc.science.estimate import Model
from crumbcoat_calc.tables import citations


@dataclass(frozen=True, slots=True)
class Explained:
    """A figure: its name in texts, its label, the group that it stands in, what it means, and its model."""

    key: str
    label: str
    group: str
    meaning: str
    model: Model

    @property
    def source(self) -> str:
        """The work that the model is from, in full."""
        return citations()[self.model.source]


FEW = "The figures that matter first"
PHASES, SYRUP, EMULSION = "Phases", "Syrup", "Fat and water"
COVER, KEEPING, WARMTH = "What covers the fat", "Water activity and keeping", "Temperature, density and air"

KEEPING_TABLES = Model(
    "the published tables of pH and water activity, read for the whole band of the prediction",
    "a measured pH; never a clearance: a laboratory's measurement and local codes decide",
    "fda-food-code",
)
MORE_SUGAR = Model(
    "the saturation curve, and which phase is inside by amount or by the family of frosting",
    "at rest; common practice for the two behaviours",
    "common-practice",
)

EXPLAINED = (
    Explained(
        "undissolved_sugar", "Undissolved sugar", FEW,
        "Sugar that the water cannot hold at the bowl's temperature: crystals, which count as a third phase.",
        dissolving.SUCROSE,
    ),
    Explained(
        "syrup_strength", "Strength of the syrup", FEW,
        "Dissolved sugars in 100 g of water and dissolved sugars together, much like degrees Brix.",
        dissolving.SUCROSE,
    ),
    Explained(
        "headroom", "What more sugar does", FEW,
        "How many more grams the water takes at this temperature. Sugar that dissolves makes more syrup around the fat "
        "and thins an emulsified frosting; sugar that stays undissolved stiffens.",
        MORE_SUGAR,
    ),
    Explained(
        "fat_volume", "Fat by volume", FEW,
        "The fat's share of the volume of fat and water phase, without air and without undissolved solids. Equal "
        "spheres pack at random up to 64 % and in order up to 74 %; above that droplets are squeezed (a "
        "high-internal-phase emulsion). The marks are advice, never a verdict: droplets of many sizes pack closer.",
        emulsion.FAT_VOLUME,
    ),
    Explained(
        "solid_fat", "Solid part of the milk fat", FEW,
        "How much of the milk fat is crystals at the bowl's temperature: the frame that carries the weight.",
        milk_fat.SOLID,
    ),
    Explained(
        "water_activity", "Water activity", FEW,
        "How free the water is, from 0 to 1, by two models; the band is their spread and what the contents leave open. "
        "A prediction is never a measurement.",
        activity.BOTH,
    ),
    Explained("fat", "Fat", PHASES, "All the fat, from the ingredient table.", volumes.TABLE),
    Explained("water", "Water", PHASES, "All the water, less what boiled off.", volumes.TABLE),
    Explained(
        "dissolved_sugar", "Dissolved sugar", PHASES,
        "Sugars in solution at rest: sucrose up to saturation, the other sugars by their own solubility.",
        dissolving.SUCROSE,
    ),
    Explained(
        "other_solids", "Other solids", PHASES,
        "What is neither fat, water nor sugar: protein, starch, fibre, minerals.", volumes.TABLE,
    ),
    Explained(
        "saturation", "Saturated syrup", SYRUP,
        "The strength at which no more sucrose dissolves at this temperature.", solubility.SATURATION,
    ),
    Explained(
        "syrup_density", "Density of the syrup", SYRUP, "All its sugars taken as sucrose.", syrup_properties.DENSITY,
    ),
    Explained(
        "syrup_viscosity", "Thickness of the syrup", SYRUP,
        "Its viscosity, all its sugars taken as sucrose; water has about 1 mPa·s.", syrup_properties.VISCOSITY,
    ),
    Explained(
        "inside", "Which phase is inside", EMULSION,
        "By amount alone: neither fat nor water can be inside where its droplets could not be packed so closely. "
        "Emulsifier, temperature and the order of addition decide as well.",
        emulsion.FAT_VOLUME,
    ),
    Explained(
        "packing", "How close the fat is packed", EMULSION,
        "Fat by volume against the close-packing marks: advice.", emulsion.FAT_VOLUME,
    ),
    Explained(
        "milk_protein", "Milk protein", COVER, "Caseins and whey proteins of all ingredients.", emulsifier.PROTEIN,
    ),
    Explained(
        "phospholipid", "Phospholipid", COVER,
        "What buttermilk from churned cream and yolk are rich in, and cultured buttermilk is not.",
        emulsifier.PHOSPHOLIPID,
    ),
    Explained(
        "yolk_phospholipid", "of which from yolk (lecithin)", COVER, "Phospholipid of egg.", emulsifier.PHOSPHOLIPID,
    ),
    Explained(
        "fat_surface", "Surface of the fat", COVER,
        "Were all the fat in droplets of 5 to 50 µm: six times its volume divided by their mean size.",
        emulsion.SURFACE,
    ),
    Explained(
        "milk_protein_per_m2", "Milk protein per square metre of fat", COVER,
        "All the milk protein spread over that surface.", emulsifier.LOAD,
    ),
    Explained(
        "phospholipid_per_m2", "Phospholipid per square metre of fat", COVER,
        "All the phospholipid spread over that surface.", emulsifier.LOAD,
    ),
    Explained(
        "finest_droplet", "Finest droplets that can be covered", COVER,
        "The mean size down to which protein and phospholipid suffice; finer droplets would run together.",
        emulsifier.FINEST,
    ),
    Explained(
        "water_activity_norrish", "Water activity by Norrish", KEEPING, "The first of two models.", activity.NORRISH,
    ),
    Explained(
        "water_activity_money_born", "Water activity by Money and Born", KEEPING, "The second.", activity.MONEY_BORN,
    ),
    Explained(
        "keeping", "What the keeping tables say", KEEPING,
        "The prediction with all its spread, beside a measured pH, in the table for food that is not heated in its "
        "package. Without a measured pH nothing is said.",
        KEEPING_TABLES,
    ),
    Explained(
        "mixing_temperature", "Temperature as mixed", WARMTH,
        "What the ingredients come to by their masses and temperatures, with the melting of milk fat and the mixer's "
        "work; the bowl and the room are left out.",
        mixing.MIXING,
    ),
    Explained("density", "Density without air", WARMTH, "Mass over the volume of all phases.", volumes.DENSITY),
    Explained(
        "overrun", "Overrun (air)", WARMTH,
        "Air in mL for 100 mL of mix without air, from a weighed cup or the density measured on the recipe.",
        foam.OVERRUN,
    ),
    Explained(
        "chilling", "How long to chill", WARMTH,
        "From two temperatures that you measured in this bowl; without them no time is told.", chilling.COOLING,
    ),
)  # fmt: skip
"""In the order in which a page shows them."""

GROUPS = tuple(dict.fromkeys(one.group for one in EXPLAINED))
