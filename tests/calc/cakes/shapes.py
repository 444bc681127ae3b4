"""Solids from the lengths that a cook would measure."""

from crumbcoat_calc.cakes.solids import Block, Disc


def round_solid(diameter_mm: float, height_mm: float, bottom_mm: float | None = None) -> Disc:
    """A cylinder, or a cone frustum if the bottom has a different diameter."""
    return Disc(top_mm=diameter_mm, bottom_mm=diameter_mm if bottom_mm is None else bottom_mm, height_mm=height_mm)


def ring_solid(diameter_mm: float, hole_mm: float, height_mm: float) -> Disc:
    """A ring with straight walls."""
    return Disc(top_mm=diameter_mm, bottom_mm=diameter_mm, height_mm=height_mm, hole_mm=hole_mm)


def block_solid(length_mm: float, width_mm: float, height_mm: float) -> Block:
    """A box: square, rectangle or sheet."""
    return Block(top_mm=(length_mm, width_mm), bottom_mm=(length_mm, width_mm), height_mm=height_mm)


def loaf_solid(top_mm: tuple[float, float], bottom_mm: tuple[float, float], height_mm: float) -> Block:
    """A loaf: a box with sloping walls."""
    return Block(top_mm=top_mm, bottom_mm=bottom_mm, height_mm=height_mm)
