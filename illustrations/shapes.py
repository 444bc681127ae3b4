"""Shapes of cakes and frosting as distances: how far a point is from the surface, negative inside; in decimetres.

Points are arrays of x, y (upward) and z. A shape whose surface is wavy gives less than the distance, so that a ray does
not pass through it.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float32]
Distances = NDArray[np.float32]
Shape = Callable[[Points], Distances]


def _round(points: Points) -> tuple[Distances, Distances, Distances]:
    """Distance from the upright axis, height, and angle."""
    x, y, z = points.T
    return np.hypot(x, z), y, np.arctan2(z, x)


def swirl(radius: float, height: float, *, turns: float = 3.2, flutes: int = 5, start: float = 0.0) -> Shape:
    """Frosting from a star nozzle, piped in rising turns to a point."""

    def shape(points: Points) -> Distances:
        across, y, angle = _round(points)
        up = np.clip((y - start) / height, 0.0, 1.0)
        around = (angle / (2 * np.pi) + turns * up**0.92) % 1.0
        rope = np.sqrt(np.clip(1 - (2 * around - 1) ** 2, 0, 1))
        grooves = 0.045 * radius * np.cos(2 * np.pi * flutes * around) * rope
        outline = radius * (1 - up**1.5) * (0.68 + 0.32 * rope) + grooves * (1 - up) + 0.012
        outline = outline - 0.10 * radius * np.exp(-up / 0.035)
        beside = (across - outline) * 0.38
        above, below = y - start - height * 1.01, start - y
        return np.maximum(beside, np.maximum(above, below)).astype(np.float32)

    return shape


def pleated_cup(bottom: float, top: float, height: float) -> Shape:
    """A paper case with pleats."""

    def shape(points: Points) -> Distances:
        across, y, angle = _round(points)
        up = np.clip(y / height, 0, 1)
        outline = bottom + (top - bottom) * up + 0.016 * np.cos(34 * angle) * (0.35 + 0.65 * up)
        return np.maximum((across - outline) * 0.6, np.maximum(y - height, -y)).astype(np.float32)

    return shape


def drum(radius: float, low: float, high: float, edge: float = 0.03, *, wave: float = 0.0) -> Shape:
    """An upright cylinder with round edges; `wave` is how uneven a palette knife leaves its side."""

    def shape(points: Points) -> Distances:
        across, y, angle = _round(points)
        side = radius + wave * (np.sin(4 * angle + 5 * y) + np.sin(17 * y + 3 * angle))
        dx, dy = across - side + edge, np.abs(y - (low + high) / 2) - (high - low) / 2 + edge
        outside = np.hypot(np.maximum(dx, 0), np.maximum(dy, 0))
        found = np.minimum(np.maximum(dx, dy), 0) + outside - edge
        return (found * (0.8 if wave else 1.0)).astype(np.float32)

    return shape


def without_wedge(shape: Shape, middle: float, half: float) -> Shape:
    """A shape with a wedge cut out, up to the upright axis."""

    def cut(points: Points) -> Distances:
        x, z = points[:, 0], points[:, 2]
        first = x * np.sin(middle - half) - z * np.cos(middle - half)
        second = z * np.cos(middle + half) - x * np.sin(middle + half)
        wedge = np.maximum(first, second)  # Negative inside the wedge.
        return np.maximum(shape(points), -wedge).astype(np.float32)

    return cut


def moved(shape: Shape, x: float, y: float, z: float) -> Shape:
    """A shape in another place."""
    offset = np.array([x, y, z], dtype=np.float32)
    return lambda points: shape((points - offset).astype(np.float32))


def turned(shape: Shape, angle: float) -> Shape:
    """A shape turned around the upright axis."""
    cos, sin = np.cos(angle), np.sin(angle)

    def shown(points: Points) -> Distances:
        x, y, z = points.T
        return shape(np.stack([cos * x + sin * z, y, cos * z - sin * x], axis=1).astype(np.float32))

    return shown


def stand(radius: float, height: float) -> Shape:
    """A cake stand: a plate with a rim, `height` above the table."""

    def shape(points: Points) -> Distances:
        across, y, _ = _round(points)
        top = np.maximum(across - radius, np.abs(y - height + 0.03) - 0.028)
        rim = np.hypot(across - radius, y - height + 0.02) - 0.045
        foot = np.maximum(across - radius * 0.45, np.abs(y - height / 2) - height / 2)
        return np.minimum(np.minimum(top, rim), foot).astype(np.float32)

    return shape


def in_a_ring(
    shape: Shape, count: int, radius: float, height: float, *, gap: tuple[float, float] | None = None
) -> Shape:
    """A small shape so many times around the axis; none within `gap`, a middle angle and half its width."""

    def ring(points: Points) -> Distances:
        across, y, angle = _round(points)
        step = 2 * np.pi / count
        number = np.round(angle / step)
        near = number * step
        local = np.stack(
            [across * np.cos(angle - near) - radius, y - height, across * np.sin(angle - near)], axis=1
        ).astype(np.float32)
        found = shape(local)
        if gap is not None:
            off = np.abs((near - gap[0] + np.pi) % (2 * np.pi) - np.pi)
            found = np.where(off < gap[1], 0.2, found)
        return found.astype(np.float32)

    return ring


def spread_top(radius: float, height: float, *, start: float, turns: float = 2.2) -> Shape:
    """Frosting that a palette knife has turned into a low spiral."""

    def shape(points: Points) -> Distances:
        across, y, angle = _round(points)
        out = np.clip(across / radius, 0, 1)
        ridge = 0.5 + 0.5 * np.cos(angle + 2 * np.pi * turns * out)
        steep = np.sqrt(np.clip(1 - out**2.6, 0, 1))
        top = start + height * steep * (0.80 + 0.20 * ridge**1.4)
        top = top + 0.10 * np.exp(-(((across - 0.03) / 0.07) ** 2))
        side = across - radius * (1 + 0.025 * np.sin(3 * angle + 6 * y))
        above = (y - top) * (0.10 + 0.32 * steep)
        return np.maximum(above, np.maximum(side * 0.7, start - 0.05 - y)).astype(np.float32)

    return shape


def drips(radius: float, top: float, count: int, seed: int) -> Shape:
    """A glaze that has run over the edge of a cake, by a different length at each place."""
    chance = np.random.default_rng(seed)
    angles = (np.arange(count) + chance.uniform(-0.25, 0.25, count)) * 2 * np.pi / count
    lengths = chance.uniform(0.10, 0.52, count)
    thick = chance.uniform(0.045, 0.068, count)

    def shape(points: Points) -> Distances:
        x, y, z = points.T
        across, _, _ = _round(points)
        cap = drum(radius + 0.035, top - 0.05, top + 0.045, 0.045)(points)
        found = cap
        for angle, length, width in zip(angles, lengths, thick, strict=True):
            px, pz = (radius + 0.012) * np.cos(angle), (radius + 0.012) * np.sin(angle)
            down = np.clip(y, top - length, top)
            one = np.sqrt((x - px) ** 2 + (y - down) ** 2 + (z - pz) ** 2) - width * (
                1 + 0.35 * np.exp(-((y - top + length) ** 2) / 0.004)
            )
            blend = np.clip(0.5 + 0.5 * (one - found) / 0.05, 0, 1)
            found = one + (found - one) * blend - 0.05 * blend * (1 - blend)
            found = np.where(blend >= 1, np.minimum(found, cap), found)
        return (np.maximum(found, across - radius - 0.16) * 0.8).astype(np.float32)

    return shape


def ball(radius: float) -> Shape:
    """A ball on its lowest point."""
    return lambda points: (np.linalg.norm(points - np.array([0, radius, 0], np.float32), axis=1) - radius).astype(
        np.float32
    )


def lemon(radius: float) -> Shape:
    """A lemon on its side, along x."""

    def shape(points: Points) -> Distances:
        x, y, z = points.T
        along = x / (1.42 * radius)
        outline = radius * np.sqrt(np.clip(1 - along**2, 0, 1)) + 0.16 * radius * np.exp(
            -(((np.abs(along) - 0.98) / 0.1) ** 2)
        )
        body = np.hypot(y - radius, z) - outline
        return (np.maximum(body, np.abs(x) - 1.52 * radius) * 0.55).astype(np.float32)

    return shape
