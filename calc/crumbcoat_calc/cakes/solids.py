"""The solid shapes of cakes: areas, volumes, and the same solid with a coat around it."""

import math
from dataclasses import dataclass
from math import fsum

MM3_PER_ML = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """A round solid with its bottom down, straight or tapered, with or without a hole; lengths in mm.

    A solid with a hole has straight walls.
    """

    top_mm: float
    bottom_mm: float
    height_mm: float
    hole_mm: float = 0.0

    @property
    def widest_mm(self) -> float:
        """The greatest diameter."""
        return max(self.top_mm, self.bottom_mm)

    def section_mm2(self, z_mm: float) -> float:
        """Area of the horizontal section at a height above the bottom: pi (d^2 - hole^2) / 4."""
        across = self.bottom_mm + (self.top_mm - self.bottom_mm) * z_mm / self.height_mm
        return math.pi * (across**2 - self.hole_mm**2) / 4

    def rim_mm(self, *, top: bool) -> float:
        """Length of the outer edge: pi d."""
        return math.pi * (self.top_mm if top else self.bottom_mm)

    def grown(self, *, wall_mm: float, top_mm: float) -> "Disc":
        """The solid with a coat: walls moved outwards by `wall_mm` at right angles, and the top raised.

        Negative thicknesses remove material. A hole closes when the coat is thicker than its radius.
        """
        lean = (self.top_mm - self.bottom_mm) / 2 / self.height_mm
        out = 2 * wall_mm * math.hypot(1, lean)
        return Disc(
            top_mm=self.top_mm + 2 * lean * top_mm + out,
            bottom_mm=self.bottom_mm + out,
            height_mm=self.height_mm + top_mm,
            hole_mm=max(0.0, self.hole_mm - 2 * wall_mm) if self.hole_mm else 0.0,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A solid with four sharp corners and its bottom down, straight or tapered; lengths in mm."""

    top_mm: tuple[float, float]
    bottom_mm: tuple[float, float]
    height_mm: float

    @property
    def widest_mm(self) -> float:
        """The greatest length of a side."""
        return max(*self.top_mm, *self.bottom_mm)

    def section_mm2(self, z_mm: float) -> float:
        """Area of the horizontal section at a height above the bottom: length times width."""
        length, width = (
            bottom + (top - bottom) * z_mm / self.height_mm
            for top, bottom in zip(self.top_mm, self.bottom_mm, strict=True)
        )
        return length * width

    def rim_mm(self, *, top: bool) -> float:
        """Length of the outer edge: 2 (length + width)."""
        return 2 * fsum(self.top_mm if top else self.bottom_mm)

    def grown(self, *, wall_mm: float, top_mm: float) -> "Block":
        """The solid with a coat: walls moved outwards by `wall_mm` at right angles, and the top raised."""
        tops, bottoms = [], []
        for top, bottom in zip(self.top_mm, self.bottom_mm, strict=True):
            lean = (top - bottom) / 2 / self.height_mm
            out = 2 * wall_mm * math.hypot(1, lean)
            tops.append(top + 2 * lean * top_mm + out)
            bottoms.append(bottom + out)
        return Block(top_mm=(tops[0], tops[1]), bottom_mm=(bottoms[0], bottoms[1]), height_mm=self.height_mm + top_mm)


Solid = Disc | Block


def top_mm2(solid: Solid) -> float:
    """Area of the top."""
    return solid.section_mm2(solid.height_mm)


def slice_ml(solid: Solid, from_mm: float, to_mm: float) -> float:
    """Volume between two heights above the bottom, in mL.

    The section of each solid here is a polynomial of second degree in the height, so the prismatoid rule is exact:

        V = h / 6 * (A_bottom + 4 A_middle + A_top)

    Source:
        derivation (Simpson's rule is exact up to the third degree).
    """
    middle = solid.section_mm2((from_mm + to_mm) / 2)
    ends = solid.section_mm2(from_mm) + solid.section_mm2(to_mm)
    return (to_mm - from_mm) * (ends + 4 * middle) / 6 / MM3_PER_ML


def volume_ml(solid: Solid) -> float:
    """Volume in mL."""
    return slice_ml(solid, 0.0, solid.height_mm)


def coat_ml(solid: Solid, *, wall_mm: float, top_mm: float) -> float:
    """Volume of a coat over walls and top, in mL: the coated solid minus the bare one, with filled edges and corners.

        cylinder: V = pi ((R + t)^2 (H + t) - R^2 H)
        box: V = (L + 2 t) (W + 2 t) (H + t) - L W H

    Args:
        wall_mm, top_mm: thickness on the walls and on the top, zero or more.

    Source:
        derivation.

    >>> cake = Disc(top_mm=203.2, bottom_mm=203.2, height_mm=101.6)  # 8 in across, 4 in tall
    >>> round(coat_ml(cake, wall_mm=5, top_mm=5), 1)
    510.8
    """
    return volume_ml(solid.grown(wall_mm=wall_mm, top_mm=top_mm)) - volume_ml(solid)


def cap_ml(across_mm: float, height_mm: float) -> float:
    """Volume of a dome (a cap of a sphere) in mL: V = pi h (3 a^2 + h^2) / 6, with `a` half of `across_mm`."""
    return math.pi * height_mm * (3 * (across_mm / 2) ** 2 + height_mm**2) / 6 / MM3_PER_ML


def cone_ml(across_mm: float, height_mm: float) -> float:
    """Volume of a cone in mL: V = pi r^2 h / 3.

    >>> round(cone_ml(64, 50), 2)
    53.62
    """
    return math.pi * (across_mm / 2) ** 2 * height_mm / 3 / MM3_PER_ML


def fits_on(above: Solid, below: Solid) -> bool:
    """Whether the bottom of one solid fits entirely on the top of another, both centred; it must bridge any hole."""
    if isinstance(below, Disc):
        reach = above.bottom_mm if isinstance(above, Disc) else math.hypot(*above.bottom_mm)
        grip = above.bottom_mm if isinstance(above, Disc) else min(above.bottom_mm)
        return reach <= below.top_mm + 1e-9 and grip > below.hole_mm
    sides = (above.bottom_mm, above.bottom_mm) if isinstance(above, Disc) else above.bottom_mm
    return all(side <= room + 1e-9 for side, room in zip(sorted(sides), sorted(below.top_mm), strict=True))
