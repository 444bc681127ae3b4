"""The meaning of each figure of the science, and the model behind it: the same for every recipe."""

from dataclasses import dataclass

from crumbcoat_calc.science import (
    chilling,
    dissolving,
    emulsifier,
    emulsion,
    foam,
    mixing,
    solid_fat,
    solubility,
    syrup_properties,
    volumes,
    warming,
)
from crumbcoat_calc.science import water_activity as activity
from crumbcoat_calc.science.estimate import Model
from crumbcoat_calc.tables import citations, public_source


@dataclass(frozen=True, slots=True)
class Explained:
    """A figure: its name in texts, its label, its group, its meaning, and its model."""

    key: str
    label: str
    group: str
    meaning: str
    model: Model

    @property
    def source(self) -> str:
        """The citation of the work that the model comes from."""
        return public_source(citations()[self.model.source])


MAIN = "The figures that matter first"
PHASES, SYRUP, EMULSION = "Phases", "Syrup", "Fat and water"
COVER, KEEPING, WARMTH = "What covers the fat", "Water activity and keeping", "Temperature, density and air"

KEEPING_TABLES = Model(
    "the published table of pH and water activity, read for the whole band of the prediction",
    "a measured pH; never a clearance: a laboratory's measurement and local codes decide",
    "fda-food-code",
)
MORE_SUGAR = Model(
    "the saturation curve, and what holds the frosting, by its amounts and the way it is made",
    "at rest; the two behaviours are common practice",
    "common-practice",
)

EXPLAINED = (
    Explained(
        "undissolved_sugar", "Undissolved sugar", MAIN,
        "Sugar that the water cannot dissolve at the bowl's temperature: crystals, a third phase beside fat and syrup. "
        "The high end includes milk sugar and dextrose that may crystallise over days.",
        dissolving.SUCROSE,
    ),
    Explained(
        "syrup_strength", "Strength of the syrup", MAIN,
        "Dissolved sugars in 100 g of water and dissolved sugars together, similar to degrees Brix.",
        dissolving.SUCROSE,
    ),
    Explained(
        "headroom", "What more sugar does", MAIN,
        "How many more grams of sugar the water would dissolve at this temperature. Dissolved sugar makes more syrup, "
        "which thins a frosting that only crowded droplets hold; undissolved sugar stiffens every one.",
        MORE_SUGAR,
    ),
    Explained(
        "fat_volume", "Fat by volume", MAIN,
        "The fat's share of the volume of fat and water phase, without air and undissolved solids. Equal spheres pack "
        "at random up to 64 % and in order up to 74 %; above that, droplets are squeezed (a high-internal-phase "
        "emulsion). The marks are advice, never a verdict: droplets of many sizes pack closer.",
        emulsion.FAT_VOLUME,
    ),
    Explained(
        "solid_fat", "Solid part of the fat", MAIN,
        "How much of all the fat is crystallised at the bowl's temperature, cooled fast or slowly.",
        solid_fat.SOLID,
    ),
    Explained(
        "water_activity", "Water activity", MAIN,
        "How freely available the water is, from 0 to 1, by two models; the band covers both, and unknown contents. A "
        "prediction is never a measurement.",
        activity.BOTH,
    ),
    Explained("fat", "Fat", PHASES, "All the fat, from the ingredient table.", volumes.TABLE),
    Explained("water", "Water", PHASES, "All the water, minus what boiled off.", volumes.TABLE),
    Explained(
        "dissolved_sugar", "Dissolved sugar", PHASES,
        "Sugars in solution at rest: sucrose up to saturation, less beside other sugars, and these by their own "
        "solubility. Sugars that the table does not list one by one are anything from all sucrose to all soluble.",
        dissolving.SUCROSE,
    ),
    Explained(
        "lactose", "Milk sugar (lactose), dissolved", PHASES,
        "What is dissolved when the batch is made. The low end is what stays dissolved at the bowl's temperature.",
        solubility.LACTOSE,
    ),
    Explained(
        "lactose_crystals", "Milk sugar that may crystallise", PHASES,
        "Over days at 4 °C: the mass of the crystals, of which 5 % is water. Crystals above 16 µm feel sandy.",
        solubility.LACTOSE,
    ),
    Explained(
        "lactose_supersaturation", "Milk sugar in the cold", PHASES,
        "All the milk sugar, compared with what stays dissolved at 4 °C beside the other sugars.", solubility.LACTOSE,
    ),
    Explained(
        "other_solids", "Other solids", PHASES,
        "Everything that is not fat, water or sugar: protein, starch, fibre, minerals.", volumes.TABLE,
    ),
    Explained(
        "saturation", "Saturated syrup", SYRUP,
        "The strength at which no more sucrose dissolves at this temperature.", solubility.SATURATION,
    ),
    Explained(
        "syrup_density", "Density of the syrup", SYRUP, "With all its sugars taken as sucrose.",
        syrup_properties.DENSITY,
    ),
    Explained(
        "syrup_viscosity", "Thickness of the syrup", SYRUP,
        "Its viscosity, with all its sugars taken as sucrose; water has about 1 mPa·s.", syrup_properties.VISCOSITY,
    ),
    Explained(
        "inside", "Which phase is inside", EMULSION,
        "By amount alone: a phase cannot be inside if its droplets could not be packed that closely. Emulsifier, "
        "temperature and the order of addition matter too.",
        emulsion.FAT_VOLUME,
    ),
    Explained(
        "packing", "How close the fat is packed", EMULSION,
        "Fat by volume, compared with the marks of close packing: advice only.", emulsion.FAT_VOLUME,
    ),
    Explained(
        "milk_protein", "Milk protein", COVER, "Caseins and whey proteins from all ingredients.", emulsifier.PROTEIN,
    ),
    Explained(
        "egg_protein", "Egg protein", COVER, "That of white and yolk. What was heated until it set covers nothing.",
        emulsifier.PROTEIN,
    ),
    Explained(
        "phospholipid", "Phospholipid", COVER,
        "Egg yolk and buttermilk from churned cream are rich in it, cultured buttermilk is not.",
        emulsifier.PHOSPHOLIPID,
    ),
    Explained(
        "yolk_phospholipid", "of which from yolk (lecithin)", COVER, "Phospholipid from egg.", emulsifier.PHOSPHOLIPID,
    ),
    Explained(
        "fat_surface", "Surface of the fat", COVER,
        "That of the fat in droplets, if they are of 5 to 50 µm: six times its volume divided by their mean size. "
        "Where the recipe leaves open how much is in droplets, it is a range.",
        emulsion.SURFACE,
    ),
    Explained(
        "milk_protein_per_m2", "Milk protein per square metre of fat", COVER,
        "All the milk protein, spread over that surface.", emulsifier.LOAD,
    ),
    Explained(
        "phospholipid_per_m2", "Phospholipid per square metre of fat", COVER,
        "All the phospholipid, spread over that surface.", emulsifier.LOAD,
    ),
    Explained(
        "finest_droplet", "Finest droplets that can be covered", COVER,
        "The mean droplet size down to which protein and phospholipid are enough; finer droplets would merge.",
        emulsifier.FINEST,
    ),
    Explained(
        "water_activity_norrish", "Water activity by Norrish", KEEPING, "By the first of the two models.",
        activity.NORRISH,
    ),
    Explained(
        "water_activity_money_born", "Water activity by Money and Born", KEEPING, "By the second.", activity.MONEY_BORN,
    ),
    Explained(
        "keeping", "What the keeping tables say", KEEPING,
        "The prediction with its whole band, and a measured pH, in the table for food that is not heated in its "
        "package. Without a measured pH there is no answer.",
        KEEPING_TABLES,
    ),
    Explained(
        "mixing_temperature", "Temperature as mixed", WARMTH,
        "The temperature of the mixture, from the masses and temperatures of its ingredients, the melting of fat, the "
        "cold of dissolving sugar and the mixer's work; the bowl and the room are left out.",
        mixing.MIXING,
    ),
    Explained("density", "Density without air", WARMTH, "Mass divided by the volume of all phases.", volumes.DENSITY),
    Explained(
        "overrun", "Overrun (air)", WARMTH,
        "Air in mL per 100 mL of mix without air, from a weighed cup or from the density of the recipe, measured or "
        "expected. "
        "Pieces count as mix, so the foam between them holds more air than this.",
        foam.OVERRUN,
    ),
    Explained(
        "chilling", "How long to chill", WARMTH,
        "From two temperatures that you measured in this bowl; without them, no time is given.", chilling.COOLING,
    ),
    Explained(
        "warming", "How long a coat takes to warm", WARMTH,
        "From the refrigerator to a temperature, on a cake in the room. “As it warms” has more, and the sun.",
        warming.TIMES,
    ),
)  # fmt: skip
"""In the order in which a page shows them."""

GROUPS = tuple(dict.fromkeys(figure.group for figure in EXPLAINED))
