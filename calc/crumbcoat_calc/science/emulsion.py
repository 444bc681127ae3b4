"""Fat and water as an emulsion: volume of the fat, close packing, the inner phase by amount, surface of the fat."""

from enum import Enum

from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Estimate, Estimated, Model, Withheld

FAT_VOLUME = Model(
    "volumes of fat and of the water phase by density, solid fat denser than liquid fat; undissolved solids left out",
    "0 to 100 °C; assumes that volumes add up; how much denser solid fat is was not looked up",
    "choi-okos-1986",
)
SURFACE = Model(
    "surface of droplets of one mean size (6 × volume / diameter)",
    "any droplet size; assumes that all the fat is in droplets",
    "definition",
)


class Packing(Enum):
    """How close the fat would be packed if it were in droplets: advice, never a verdict.

    The marks are for equal rigid spheres; droplets of many sizes pack closer, and soft ones are squeezed.
    """

    LOOSE = "below random close packing"
    CLOSE = "between random and ordered close packing"
    SQUEEZED = "above ordered close packing: a high-internal-phase emulsion"


class InnerPhase(Enum):
    """Which phase can be inside by amount alone; emulsifier, temperature and order of addition matter too."""

    FAT = "fat inside water, by amount"
    EITHER = "either, by amount"
    WATER = "water inside fat, by amount"


def packing(fat_volume: float) -> Packing:
    """How close a volume share of droplets is packed, by the close-packing marks 0.64 and 0.74.

    Source:
        mason-1995 (random close packing); definition (pi / (3 sqrt 2), ordered).

    >>> packing(0.7).value
    'between random and ordered close packing'
    """
    marks = constants("close-packing")
    if fat_volume < marks["random"]:
        return Packing.LOOSE
    return Packing.CLOSE if fat_volume <= marks["ordered"] else Packing.SQUEEZED


def inner_phase_by_amount(fat_volume: float) -> InnerPhase:
    """Which phase can be inside: not one whose equal spheres could not be packed that closely.

    With less than 0.26 fat, only water can be the outer phase; with more than 0.74, only fat can, unless the emulsion
    is a high-internal-phase one.

    Source:
        definition (ordered close packing of equal spheres, for either phase).

    >>> inner_phase_by_amount(0.8242)
    <InnerPhase.WATER: 'water inside fat, by amount'>
    """
    mark = constants("close-packing")["ordered"]
    if fat_volume > mark:
        return InnerPhase.WATER
    return InnerPhase.FAT if fat_volume < 1 - mark else InnerPhase.EITHER


def fat_surface_m2(fat: Estimated, finest_um: float, coarsest_um: float) -> Estimated:
    """Surface of all the fat in m2, from its volume in mL, for droplets between the finest and the coarsest size.

    The value is for the geometric mean of the two sizes. (1 mL in droplets of 6 µm has 1 m2.)

    Source:
        definition.
    """
    if isinstance(fat, Withheld):
        return fat
    middle = (finest_um * coarsest_um) ** 0.5
    return Estimate(6 * fat.value / middle, 6 * fat.low / coarsest_um, 6 * fat.high / finest_um, SURFACE)
