"""A bowl and what is in it, by how far it is whipped: heights of a surface over the bowl, in decimetres, and a whisk.

How each looks is drawn by eye, without a source.
"""

from collections.abc import Callable
from itertools import pairwise

import numpy as np

from illustrations.shapes import Distances, Points, Shape, moved

Surface = Callable[[Distances, Distances], Distances]
"""How much higher than its level a mixture stands at each x and z."""

RADIUS, RIM, _WALL = 1.2, 0.88, 0.035
"""Of the ball that the bowl is a part of, the height of its rim, and half the thickness of its wall."""
_FOOT = 0.05


def bowl(points: Points) -> Distances:
    """A round bowl on a foot, open at the top."""
    x, y, z = points.T
    across, up = np.hypot(x, z), y - _FOOT - RADIUS
    rim_up = RIM - _FOOT - RADIUS
    rim_across = np.sqrt(RADIUS**2 - rim_up**2)
    beside = np.abs(np.hypot(across, up) - RADIUS)
    at_rim = np.hypot(across - rim_across, up - rim_up)
    wall = np.where(rim_up * across < rim_across * up, at_rim, beside) - _WALL
    foot = np.maximum(np.abs(across - 0.46) - 0.05, np.abs(y - 0.05) - 0.05)
    return np.minimum(wall, foot).astype(np.float32)


def level_of(volume_l: float) -> float:
    """The height above the table to which a bowl is filled by a volume in litres: a part of a ball."""
    inside = RADIUS - _WALL
    heights = np.linspace(0.01, inside, 400)
    volumes = np.pi * heights**2 * (3 * inside - heights) / 3
    return float(np.interp(volume_l, volumes, heights)) + _FOOT + _WALL


def mixture(volume_l: float, surface: Surface, peak: Shape | None = None, steep: float = 0.55) -> Shape:
    """What is in the bowl: up to its level and the surface over it; `peak` grows out of its middle.

    Args:
        steep: what a height above the surface counts for as a distance: less where the surface is steep.
    """
    level = level_of(volume_l)
    high = None if peak is None else moved(peak, 0, level, 0)

    def shape(points: Points) -> Distances:
        x, y, z = points.T
        inside = np.sqrt(x * x + z * z + (y - _FOOT - RADIUS) ** 2) - RADIUS + _WALL * 0.6
        edge = np.clip((np.sqrt(RADIUS**2 - (level - _FOOT - RADIUS) ** 2) - np.hypot(x, z)) / 0.3, 0, 1)
        found = (y - level - surface(x, z) * edge * (2 - edge)) * steep
        if high is not None:
            near = np.hypot(x, z) < 0.8
            found[near] = _joined(found[near], high(points[near]), 0.16)
        return np.maximum(found, inside).astype(np.float32)

    return shape


def _joined(first: Distances, second: Distances, blend: float) -> Distances:
    part = np.clip(0.5 + 0.5 * (second - first) / blend, 0, 1)
    return second + (first - second) * part - blend * part * (1 - part)


def peak(lean: float, height: float, width: float, *, bend: float) -> Shape:
    """A peak where a whisk was lifted out; its tip is bent over by an angle, in radians, or more than that.

    Args:
        lean: how far it leans before the tip.
        bend: from 0, upright, to about 2.4, hanging down.
    """
    count = 26
    up = np.linspace(0, 1, count)
    turn = lean * up + bend * np.clip((up - 0.6) / 0.4, 0, 1) ** 1.5
    step = np.stack([np.sin(turn), np.cos(turn), 0.25 * np.sin(turn)], axis=1) * height / count
    ends = np.concatenate([[[0, -0.08, 0]], np.cumsum(step, axis=0)]).astype(np.float32)
    thick = width * (1 - np.linspace(0, 1, count + 1)) ** 1.25 + 0.012

    def shape(points: Points) -> Distances:
        found = np.full(len(points), 9.0, np.float32)
        for start, end, wide, narrow in zip(ends, ends[1:], thick, thick[1:], strict=False):
            way = end - start
            along = np.clip((points - start) @ way / (way @ way), 0, 1)
            off = np.linalg.norm(points - start - along[:, None] * way, axis=1)
            found = _joined(found, off - (wide + (narrow - wide) * along), 0.04)
        return (found * 0.75).astype(np.float32)

    return shape


def tracks(depth: float, *, fade: float = 0.0) -> Surface:
    """The rings that a whisk draws; with `fade` those that it drew first have closed again."""

    def surface(x: Distances, z: Distances) -> Distances:
        across, angle = np.hypot(x, z), np.arctan2(z, x)
        wobble = 0.03 * np.sin(3 * angle + 1.0) + 0.018 * np.sin(5 * angle - across * 9)
        ring = (across + wobble) / 0.13 - angle / (2 * np.pi)
        height = np.cos(2 * np.pi * ring) * (0.6 + 0.4 * np.cos(2 * angle - 11 * (across + wobble)))
        left = 1 - fade * (0.5 + 0.5 * np.sin(angle - 0.6)) ** 0.8
        inside = np.clip((across - 0.10) / 0.2, 0, 1) * np.clip((0.98 - across) / 0.2, 0, 1)
        return depth * height * left * inside

    return surface


def folds(depth: float, *, crisp: float = 1.0) -> Surface:
    """Thick folds, turned around the middle of the bowl; the more `crisp`, the narrower their ridges."""

    def surface(x: Distances, z: Distances) -> Distances:
        across, angle = np.hypot(x, z), np.arctan2(z, x)
        swing = 0.05 * np.sin(2 * angle + 3.1 * across) + 0.025 * np.sin(5 * angle - 7 * across)
        turn = (across + swing) / 0.27 - angle / (2 * np.pi)
        wave = np.abs(np.cos(np.pi * turn))
        ridge = 1 - wave**crisp if crisp < 1 else (1 - wave) ** (1 / crisp)
        fine = 0.10 * np.sin(2 * np.pi * turn * 5) * ridge
        dome = 0.10 * (1 - np.clip(across / 1.0, 0, 1) ** 2)
        near = np.clip((across - 0.06) / 0.3, 0, 1)
        return depth * (ridge + fine) * near * near * (3 - 2 * near) + dome

    return surface


def curds(size: float, height: float) -> Surface:
    """Lumps of different sizes that hang together here and there, with gaps between them."""

    def surface(x: Distances, z: Distances) -> Distances:
        bend = 0.3 * size
        bent_x = x + bend * np.sin(9 * z + 2 * np.sin(5 * x)) + 0.4 * bend * np.sin(23 * z)
        bent_z = z + bend * np.sin(8 * x + 2 * np.sin(6 * z)) + 0.4 * bend * np.sin(21 * x + 1)
        large, small = _lumps(bent_x / size, bent_z / size), _lumps(bent_x / size * 2.1 + 7.7, bent_z / size * 2.1 - 3)
        roll = 0.5 + 0.5 * np.sin(4.2 * x + 1.3 * np.sin(3.1 * z)) * np.sin(3.7 * z + 0.5)
        return height * (0.75 * large + 0.45 * small) * (0.55 + 0.6 * roll)

    return surface


def _lumps(x: Distances, z: Distances) -> Distances:
    """From 0 to 1: how high a lump is at each place, one in each square of 1 by 1; neighbours run into each other."""
    total = np.zeros(np.shape(x))
    column, row = np.floor(x), np.floor(z)
    for off in np.ndindex(3, 3):
        at_x, at_z = column + off[0] - 1, row + off[1] - 1
        chance = np.abs(np.sin(at_x * 127.1 + at_z * 311.7) * 43758.5453) % 1
        other = np.abs(np.sin(at_x * 269.5 + at_z * 183.3) * 24634.6345) % 1
        away = np.hypot(at_x + 0.1 + 0.8 * chance - x, at_z + 0.1 + 0.8 * other - z) / (0.55 + 0.4 * other)
        total += np.clip(1 - away * away, 0, 1) ** 2
    return np.clip(total / (0.35 + total), 0, 1) * 1.2


def flat(height: float) -> Surface:
    """A liquid at rest, so much higher than the level."""
    return lambda x, _: np.full_like(x, height)


def core(radius: float) -> Surface:
    """What grows outward from the middle, stirred in small circles; lower than the rest outside of that."""
    stirred = tracks(0.012)

    def surface(x: Distances, z: Distances) -> Distances:
        across, angle = np.hypot(x, z), np.arctan2(z, x)
        edge = radius + 0.05 * np.sin(3 * angle + 1) + 0.035 * np.sin(7 * angle + 2) + 0.02 * np.sin(12 * angle)
        return stirred(x, z) + 0.035 - 0.09 * np.clip((across - edge) / 0.05, 0, 1)

    return surface


def whisk(length: float, width: float, wires: int = 5) -> Shape:
    """A balloon whisk, upright on its end, with its handle above it."""
    up = np.linspace(0, 1, 25)
    half = np.stack([width * np.sin(np.pi * up**0.55) ** 0.8 * (1 - 0.35 * up) + 0.045 * up, length * up], axis=1)

    def shape(points: Points) -> Distances:
        x, y, z = points.T
        across, angle = np.hypot(x, z), np.arctan2(z, x)
        step = np.pi / wires
        off = (angle + step / 2) % step - step / 2
        flat = np.stack([across * np.cos(off), y], axis=1)
        found = np.full(len(points), 9.0, np.float32)
        for start, end in pairwise(half):
            way = end - start
            along = np.clip((flat - start) @ way / (way @ way), 0, 1)
            np.minimum(found, np.linalg.norm(flat - start - along[:, None] * way, axis=1), out=found)
        wire = np.hypot(found, across * np.sin(off)) - 0.014
        swell = 0.052 + 0.03 * np.clip((y - length) / 0.9, 0, 1)
        grip = np.maximum(across - swell, np.abs(y - length - 0.95) - 1.0)
        return (np.minimum(wire, grip) * 0.9).astype(np.float32)

    return shape


def tilted(shape: Shape, lean_x: float, lean_z: float) -> Shape:
    """A shape that leans on its lowest point: towards x, then towards z, by angles in radians."""
    cos_x, sin_x, cos_z, sin_z = np.cos(lean_x), np.sin(lean_x), np.cos(lean_z), np.sin(lean_z)

    def shown(points: Points) -> Distances:
        x, y, z = points.T
        x, y = cos_x * x - sin_x * y, sin_x * x + cos_x * y
        z, y = cos_z * z - sin_z * y, sin_z * z + cos_z * y
        return shape(np.stack([x, y, z], axis=1).astype(np.float32))

    return shown
