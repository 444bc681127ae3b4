"""The frosting that a cake with any number of tiers needs, by use."""

import math
from dataclasses import dataclass
from itertools import pairwise
from math import fsum

from crumbcoat_calc.cakes.frosting_volumes import FrostingVolumes, with_loss
from crumbcoat_calc.cakes.solids import MM3_PER_ML, Disc, Solid, coat_ml, fits_on, slice_ml, top_mm2
from crumbcoat_calc.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class Coat:
    """Thickness of a coat on the top and on the walls, in mm; zero for none."""

    top_mm: float = 0.0
    wall_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Tier:
    """One tier: `solid` is the bare cake before coating, with its layers and fillings.

    Args:
        layers: of cake; there are `layers` - 1 fillings between them.
        filling_mm: thickness of each filling.
        dam_mm: width of the ring of frosting that holds each filling in at the edge; zero for none.
        crumb, final: the two coats; the final coat goes over the crumb coat.
        top_border_mm, bottom_border_mm: width of a rope piped along an edge; zero for none.
        piping_share: other piping, as a share of the coats.
    """

    solid: Solid
    layers: int = 1
    filling_mm: float = 0.0
    dam_mm: float = 0.0
    crumb: Coat = Coat()
    final: Coat = Coat()
    top_border_mm: float = 0.0
    bottom_border_mm: float = 0.0
    piping_share: float = 0.0

    @property
    def layer_mm(self) -> float:
        """Thickness of one layer of cake: its share of the height without the fillings."""
        return (self.solid.height_mm - (self.layers - 1) * self.filling_mm) / self.layers

    def fillings(self) -> tuple[tuple[float, float], ...]:
        """The lower and upper edge of each filling, in mm above the bottom."""
        step = self.layer_mm + self.filling_mm
        return tuple([(n * step - self.filling_mm, n * step) for n in range(1, self.layers)])

    def crumb_coated(self) -> Solid:
        """The solid with its crumb coat."""
        return self.solid.grown(wall_mm=self.crumb.wall_mm, top_mm=self.crumb.top_mm)

    def coated(self) -> Solid:
        """The solid with both coats."""
        return self.crumb_coated().grown(wall_mm=self.final.wall_mm, top_mm=self.final.top_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cake:
    """Tiers, the lowest first, each centred on the one below.

    Args:
        coat_under: whether the top of a tier is also coated underneath the next one.
        loss_share: the share of the total that stays in bowl and bag; 0 to less than 0.5.
    """

    tiers: tuple[Tier, ...]
    coat_under: bool = True
    loss_share: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CakeVolumes:
    """Volumes for each tier, the lowest first, and for the whole cake."""

    tiers: tuple[FrostingVolumes, ...]
    total: FrostingVolumes


STYLES = ("all over", "thin walls", "bare walls", "none")
"""How a tier is coated: `thin walls` leaves only the crumb coat on the walls, `bare walls` coats only the top."""


def coats(style: str, crumb_mm: float, final_mm: float) -> tuple[Coat, Coat]:
    """The crumb coat and the final coat of a style.

    >>> coats("thin walls", 1.5, 5)[1]
    Coat(top_mm=5, wall_mm=0.0)
    """
    if style not in STYLES:
        raise InputError(f"unknown style of coating {style!r}", f"use one of: {', '.join(STYLES)}", ("style",))
    on_top = style != "none"
    crumb_walls = style in ("all over", "thin walls")
    return (
        Coat(top_mm=crumb_mm if on_top else 0.0, wall_mm=crumb_mm if crumb_walls else 0.0),
        Coat(top_mm=final_mm if on_top else 0.0, wall_mm=final_mm if style == "all over" else 0.0),
    )


def cake_volumes(cake: Cake) -> CakeVolumes:
    """The frosting a cake needs, by use and tier.

        fillings: sum of area * thickness over the fillings, exact for sloping walls; the dam is their outer ring
        coats: the coated solid minus the bare one (see `coat_ml`); underneath the next tier, its coated outline times
            the thickness is left out unless `coat_under`
        border: a rope with a round section, pi w^2 / 4 * length of the coated edge
        piping: `piping_share` of the coats, plus the borders

    Raises:
        InputError: at `tiers` and the tier, if a length is out of range, the fillings leave no cake, or a tier is
            wider than the one below.

    Source:
        derivation.
    """
    check_cake(cake)
    tiers = []
    for position, tier in enumerate(cake.tiers):
        above = cake.tiers[position + 1] if position + 1 < len(cake.tiers) else None
        covered = 0.0 if above is None or cake.coat_under else _covered_mm2(above.coated(), tier.coated())
        tiers.append(with_loss(_used(tier, covered), cake.loss_share))
    total = FrostingVolumes()
    for amounts in tiers:
        total = total + amounts
    return CakeVolumes(tiers=tuple(tiers), total=total)


def _used(tier: Tier, covered_mm2: float) -> FrostingVolumes:
    filling, dam = _fillings_ml(tier)
    under, outer = tier.crumb_coated(), tier.coated()
    crumb = _coat_left_ml(tier.solid, under, tier.crumb, covered_mm2)
    final = _coat_left_ml(under, outer, tier.final, covered_mm2)
    ropes = fsum(
        math.pi * width**2 / 4 * outer.rim_mm(top=top) / MM3_PER_ML
        for width, top in ((tier.top_border_mm, True), (tier.bottom_border_mm, False))
    )
    return FrostingVolumes(
        filling_ml=filling,
        dam_ml=dam,
        crumb_coat_ml=crumb,
        final_coat_ml=final,
        piping_ml=ropes + tier.piping_share * (crumb + final),
    )


def _coat_left_ml(bare: Solid, outside: Solid, coat: Coat, covered_mm2: float) -> float:
    full_ml = coat_ml(bare, wall_mm=coat.wall_mm, top_mm=coat.top_mm)
    return max(0.0, full_ml - min(covered_mm2, top_mm2(outside)) * coat.top_mm / MM3_PER_ML)


def _fillings_ml(tier: Tier) -> tuple[float, float]:
    """Filling and dam, in mL."""
    inside = tier.solid.grown(wall_mm=-tier.dam_mm, top_mm=0.0)
    with_dam = fsum([slice_ml(tier.solid, low, high) for low, high in tier.fillings()])
    filling = fsum([slice_ml(inside, low, high) for low, high in tier.fillings()])
    return filling, with_dam - filling


def _covered_mm2(above: Solid, below: Solid) -> float:
    """The area of the top of `below` that is covered by `above`; both are centred."""
    holes = [solid.hole_mm for solid in (above, below) if isinstance(solid, Disc)]
    outline = above.section_mm2(0.0) + (math.pi * above.hole_mm**2 / 4 if isinstance(above, Disc) else 0.0)
    return outline - math.pi * max(holes, default=0.0) ** 2 / 4


def check_cake(cake: Cake) -> None:
    """Refuse a cake that cannot be built.

    Raises:
        InputError: as `cake_volumes`.
    """
    if not 1 <= len(cake.tiers) <= 12:
        raise InputError(f"a cake cannot have {len(cake.tiers)} tiers here", "use 1 to 12 tiers", ("tiers",))
    for position, tier in enumerate(cake.tiers):
        try:
            _check_tier(tier)
        except InputError as error:
            raise error.within("tiers", position) from None
    for position, (below, above) in enumerate(pairwise(cake.tiers), start=1):
        if not fits_on(above.solid, below.solid):
            raise InputError(
                f"tier {position + 1} does not fit on tier {position}",
                "make it smaller than the top of the tier below, but wide enough to bridge a ring",
                ("tiers", position),
            )


def _check_tier(tier: Tier) -> None:
    sides = _sides(tier.solid)
    narrowest = min(sides)
    if not (narrowest >= 10 and max(sides) <= 2000 and 5 <= tier.solid.height_mm <= 1000):
        raise InputError(
            "a tier must be 1 to 200 cm across and 0.5 to 100 cm high", "check the lengths and their unit", ("solid",)
        )
    half = len(sides) // 2
    lean = max(abs(top - bottom) / 2 for top, bottom in zip(sides[:half], sides[half:], strict=True))
    hole = tier.solid.hole_mm if isinstance(tier.solid, Disc) else 0.0
    if hole and (lean or not 0 < hole < narrowest - 20):
        raise InputError(
            f"a hole of {hole:g} mm does not fit", "make it 2 cm smaller than the ring, with straight walls", ("solid",)
        )
    if lean > tier.solid.height_mm:
        raise InputError("the walls slope by more than 45°", "check the top, the bottom and the height", ("solid",))
    if not 1 <= tier.layers <= 30:
        raise InputError(f"a tier cannot have {tier.layers} layers", "use 1 to 30 layers", ("layers",))
    lengths = {
        "filling": tier.filling_mm, "crumb": tier.crumb.top_mm, "crumb_wall": tier.crumb.wall_mm,
        "final": tier.final.top_mm, "final_wall": tier.final.wall_mm,
        "top_border": tier.top_border_mm, "bottom_border": tier.bottom_border_mm,
    }  # fmt: skip
    for name, length in lengths.items():
        if not 0 <= length <= 60:
            raise InputError(f"{length:g} mm is not a possible thickness here", "use 0 to 60 mm", (name,))
    if min(_sides(tier.coated())) <= 0:
        raise InputError("the walls slope so much that the coat ends in a point", "use a thinner coat", ("final",))
    if not 0 <= tier.piping_share <= 2:
        problem = f"piping cannot be {100 * tier.piping_share:g} % of the coats"
        raise InputError(problem, "use 0 to 200 %", ("piping_share",))
    if tier.layer_mm < 1:
        raise InputError(
            f"{_fillings_text(tier)} in a tier {tier.solid.height_mm:g} mm high leaves no room for cake",
            "use fewer layers, thinner fillings or a higher tier",
            ("filling",),
        )
    if not 0 <= tier.dam_mm < (narrowest - hole) / 4:
        raise InputError(
            f"a dam of {tier.dam_mm:g} mm leaves no room for the filling",
            f"use less than {(narrowest - hole) / 4:.0f} mm",
            ("dam",),
        )


def _fillings_text(tier: Tier) -> str:
    fillings = "1 filling" if tier.layers == 2 else f"{tier.layers - 1} fillings"
    return f"{fillings} of {tier.filling_mm:g} mm"


def _sides(solid: Solid) -> tuple[float, ...]:
    """The lengths across a solid at its top and its bottom, in mm."""
    if isinstance(solid, Disc):
        return solid.top_mm, solid.bottom_mm
    return (*solid.top_mm, *solid.bottom_mm)
