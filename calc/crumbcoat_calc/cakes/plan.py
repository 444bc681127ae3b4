"""The cake that a reader plans: tiers, cupcakes and coats, with the usual value for everything left blank."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

from crumbcoat_calc.cakes.cupcakes import TOPS, Cupcakes
from crumbcoat_calc.cakes.solids import Block, Disc, Solid
from crumbcoat_calc.cakes.thickness import allowances, thicknesses
from crumbcoat_calc.cakes.tiers import STYLES, Cake, Tier, coats
from crumbcoat_calc.kitchen.density import CUPS, density_of_measure
from crumbcoat_calc.tables import load_rows, number_in

TIER_SHAPES: Mapping[str, tuple[str, ...]] = {
    "round": ("diameter",),
    "square": ("width",),
    "rectangle": ("length", "width"),
    "sheet": ("length", "width"),
    "ring": ("diameter", "hole"),
    "loaf": ("length", "width", "bottom_length", "bottom_width"),
}
"""The shapes of a tier, each with the lengths that define it besides its height."""

NO_TIER = "none"
MOST_TIERS = 12
LENGTH_UNITS = ("cm", "in")
_HALF_INCH_MM = 12.7
FILLED_WITH = ("this", "other")

THICKNESSES = ("filling", "dam", "crumb", "final", "top_border", "bottom_border")
TIER_THICKNESSES = ("filling", "dam", "crumb", "final")
"""The thicknesses that can be set for a single tier; otherwise it follows the cake's."""

SHARES = ("piping", "loss")
CUPCAKE_LENGTHS = ("cupcake_top", "topping_height", "core", "core_depth")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedTier:
    """A tier as typed in: a shape, its lengths in mm including the height, layers, and thicknesses of its own."""

    shape: str
    lengths_mm: Mapping[str, float]
    layers: int
    own_mm: Mapping[str, float] = field(default_factory=dict)

    def solid(self) -> Solid:
        """The bare tier."""
        mm = self.lengths_mm
        high = mm["height"]
        if "diameter" in mm:
            return Disc(top_mm=mm["diameter"], bottom_mm=mm["diameter"], height_mm=high, hole_mm=mm.get("hole", 0.0))
        top = (mm.get("length", mm["width"]), mm["width"])
        bottom = (mm.get("bottom_length", top[0]), mm.get("bottom_width", top[1]))
        return Block(top_mm=top, bottom_mm=bottom, height_mm=high)


@dataclass(frozen=True, slots=True, kw_only=True)
class CakePlan:
    """A reader's plan of a cake. `mm` has lengths by THICKNESSES and CUPCAKE_LENGTHS, `shares` has shares by SHARES.

    `starts_in`: of which of LENGTH_UNITS the usual lengths are whole ones, whatever they are shown in.
    """

    tiers: tuple[PlannedTier, ...]
    mm: Mapping[str, float] = field(default_factory=dict)
    shares: Mapping[str, float] = field(default_factory=dict)
    choices: Mapping[str, str] = field(default_factory=dict)
    cupcakes: int = 0
    density_g_per_ml: float | None = None
    cup_g: float | None = None
    starts_in: str = LENGTH_UNITS[0]

    def length_mm(self, name: str) -> float:
        """A thickness or a length of a cupcake: as typed in, else the usual one."""
        return self.mm[name] if name in self.mm else usual_mm(name, self.choice("topping"), self.starts_in)

    def tier_mm(self, tier: PlannedTier, name: str) -> float:
        """A thickness of a tier: its own, else the cake's."""
        return tier.own_mm[name] if name in tier.own_mm else self.length_mm(name)

    def share(self, name: str) -> float:
        """The share for piping or loss: as typed in, else the usual one, which is zero for piping."""
        return self.shares.get(name, usual_share(name))

    def choice(self, name: str) -> str:
        """A choice: as made, else the first option."""
        return self.choices.get(name, CHOICES[name][0])

    def density(self) -> float | None:
        """The density in g/mL: from a weighed cup, else as typed in."""
        return density_of_measure(self.cup_g, self.choice("cup")) if self.cup_g is not None else self.density_g_per_ml

    def cake(self) -> Cake | None:
        """The tiers for `cake_volumes`; None if there are none."""
        tiers = tuple([self._tier(tier) for tier in self.tiers])
        under = self.choice("under") == "yes"
        return Cake(tiers=tiers, coat_under=under, loss_share=self.share("loss")) if tiers else None

    def _tier(self, tier: PlannedTier) -> Tier:
        crumb, final = coats(self.choice("style"), self.tier_mm(tier, "crumb"), self.tier_mm(tier, "final"))
        return Tier(
            solid=tier.solid(),
            layers=tier.layers,
            filling_mm=self.tier_mm(tier, "filling") if tier.layers > 1 else 0.0,
            dam_mm=self.tier_mm(tier, "dam") if tier.layers > 1 else 0.0,
            crumb=crumb,
            final=final,
            top_border_mm=self.length_mm("top_border"),
            bottom_border_mm=self.length_mm("bottom_border"),
            piping_share=self.share("piping"),
        )

    def cupcakes_asked(self) -> Cupcakes | None:
        """The cupcakes for `cupcake_volumes`; None if there are none."""
        if not self.cupcakes:
            return None
        return Cupcakes(
            count=self.cupcakes,
            top_mm=self.length_mm("cupcake_top"),
            topping=self.choice("topping"),
            height_mm=self.length_mm("topping_height"),
            core_mm=self.length_mm("core"),
            core_depth_mm=self.length_mm("core_depth"),
            loss_share=self.share("loss"),
        )


CHOICES: Mapping[str, tuple[str, ...]] = {
    "lengths": LENGTH_UNITS,
    "style": STYLES,
    "filled_with": FILLED_WITH,
    "under": ("yes", "no"),
    "topping": ("swirl", *[top for top in TOPS if top != "swirl"]),
    "cup": CUPS,
}
"""The options of each choice; the first is the default."""


@cache
def starting_tiers(lengths: str = LENGTH_UNITS[0]) -> Mapping[str, PlannedTier]:
    """A default tier of each shape, and a default `cupcake`: common practice, no source; in inches to half an inch.

    >>> starting_tiers()["ring"].lengths_mm["hole"], starting_tiers("in")["round"].lengths_mm["diameter"]
    (80.0, 203.2)
    """
    step_mm = _HALF_INCH_MM if lengths == "in" else 1.0
    names = ("diameter", "hole", "length", "width", "bottom_length", "bottom_width", "height")

    def row(cells: dict[str, str]) -> tuple[str, PlannedTier]:
        found = {name: number_in(cells, f"{name}_mm", 0, 2000) for name in names}
        lengths = {
            name: round(mm / step_mm) * step_mm
            for name, mm in found.items()
            if name in (*TIER_SHAPES.get(cells["shape"], names), "height")
        }
        layers = int(number_in(cells, "layers", 1, 30))
        return cells["shape"], PlannedTier(shape=cells["shape"], lengths_mm=lengths, layers=layers)

    return dict(load_rows("tier_starts", row, ("shape",)))


_AS = {"crumb": "crumb_coat", "final": "final_coat", "filling": "filling"}


def usual_mm(name: str, topping: str, lengths: str = LENGTH_UNITS[0]) -> float:
    """The default of a thickness: the usual one for filling and coats, zero for dam, borders and core.

    In inches to a sixteenth, and from an inch on to half an inch, as a ruler has them.

    >>> usual_mm("crumb", "swirl"), usual_mm("crumb", "swirl", "in")
    (1.0, 1.5875)
    """
    if name == "cupcake_top":
        return starting_tiers(lengths)["cupcake"].lengths_mm["diameter"]
    use = f"cupcake_{topping}" if name == "topping_height" else _AS.get(name, "")
    if not use:
        return 0.0
    mm = thicknesses()[use].usual_mm
    if lengths != "in":
        return mm
    step_mm = _HALF_INCH_MM if mm >= 2 * _HALF_INCH_MM else _HALF_INCH_MM / 8
    return max(1, round(mm / step_mm)) * step_mm


def usual_share(name: str) -> float:
    """The default of a share."""
    return allowances()["loss_share"].usual if name == "loss" else 0.0
