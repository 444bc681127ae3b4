"""Shapes -> a picture: rays from a camera, a window on the left, soft shadows on a table."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from illustrations.shapes import Distances, Points, Shape

Colour = tuple[float, float, float]
Place = tuple[float, float, float]
Colours = NDArray[np.float32]

_SUN = np.array([-0.62, 0.74, 0.44], np.float32) / np.linalg.norm([-0.62, 0.74, 0.44])
_FAR = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A thing in the picture: its shape, the ball around it, its colour at each point, and how it shines.

    `soft` is how far light goes into it, as into cream.
    """

    shape: Shape
    middle: Place
    reach: float
    colour: Callable[[Points], Colours]
    gloss: float = 0.15
    sharpness: float = 24.0
    soft: float = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What is in a picture, and where it is seen from."""

    parts: tuple[Part, ...]
    eye: Place
    towards: Place
    zoom: float
    table: Colour
    wall: Colour


def plain(colour: Colour) -> Callable[[Points], Colours]:
    """The same colour everywhere."""
    return lambda points: np.broadcast_to(np.array(colour, np.float32), points.shape)


def _near(part: Part, points: Points) -> Distances:
    """The distance to a part; far from it, that to the ball around it."""
    ball = np.linalg.norm(points - np.array(part.middle, np.float32), axis=1) - part.reach
    found = (ball + 0.05).astype(np.float32)
    close = ball < 0.4
    if close.any():
        found[close] = part.shape(points[close])
    return found


def _nearest(parts: Sequence[Part], points: Points) -> Distances:
    found = np.full(len(points), _FAR, np.float32)
    for part in parts:
        np.minimum(found, _near(part, points), out=found)
    return found


def _march(parts: Sequence[Part], start: Points, way: Points, limit: Distances) -> Distances:
    """How far each ray goes to the first part; `limit` where it meets none before that."""
    far = np.full(len(start), 0.02, np.float32)
    left = np.arange(len(start))
    for _ in range(150):
        points = start[left] + way[left] * far[left, None]
        step = _nearest(parts, points.astype(np.float32))
        far[left] += step
        going = (step > 0.0006 * far[left]) & (far[left] < limit[left])
        left = left[going]
        if not len(left):
            break
    return np.minimum(far, limit)


def _shade(parts: Sequence[Part], points: Points, sharp: float = 9.0) -> Distances:
    """How much of the window each point sees, from 0 to 1."""
    light = np.ones(len(points), np.float32)
    far = np.full(len(points), 0.03, np.float32)
    left = np.arange(len(points))
    for _ in range(70):
        step = _nearest(parts, (points[left] + _SUN * far[left, None]).astype(np.float32))
        light[left] = np.minimum(light[left], sharp * step / far[left])
        far[left] += np.clip(step, 0.012, 0.09 + 0.05 * far[left])
        left = left[(light[left] > 0.01) & (far[left] < 4.5)]
        if not len(left):
            break
    light = np.clip(light, 0, 1)
    return light * light * (3 - 2 * light)


def _hidden(parts: Sequence[Part], points: Points, normals: Points) -> Distances:
    """How much of the room around it each point does not see."""
    hidden = np.zeros(len(points), np.float32)
    for number, off in enumerate((0.02, 0.06, 0.13, 0.24, 0.4)):
        hidden += (off - np.minimum(off, _nearest(parts, points + normals * off))) * 0.72**number
    return np.clip(1 - 1.5 * hidden, 0.12, 1)


def _normals(part: Part, points: Points) -> Points:
    found = np.zeros_like(points)
    for corner in ((1, -1, -1), (-1, -1, 1), (-1, 1, -1), (1, 1, 1)):
        off = np.array(corner, np.float32)
        found += off * part.shape((points + off * 0.0015).astype(np.float32))[:, None]
    return (found / np.maximum(np.linalg.norm(found, axis=1, keepdims=True), 1e-9)).astype(np.float32)


def picture(scene: Scene, *, width: int, height: int) -> NDArray[np.uint8]:
    """The picture as red, green and blue."""
    parts = scene.parts
    eye_at, looks = np.array(scene.eye, np.float32), np.array(scene.towards, np.float32)
    ahead = (looks - eye_at) / np.linalg.norm(looks - eye_at)
    right = np.cross(ahead, [0, 1, 0])
    right /= np.linalg.norm(right)
    up = np.cross(right, ahead)
    across, down = np.meshgrid(np.linspace(-1, 1, width), np.linspace(1, -1, height) * height / width)
    way = (ahead[None] * scene.zoom + across.reshape(-1, 1) * right + down.reshape(-1, 1) * up).astype(np.float32)
    way /= np.linalg.norm(way, axis=1, keepdims=True)
    start = np.broadcast_to(eye_at, way.shape).astype(np.float32)
    to_table = np.where(way[:, 1] < -1e-4, -eye_at[1] / np.minimum(way[:, 1], -1e-4), _FAR).astype(np.float32)
    limit = np.minimum(to_table, _FAR)
    far = _march(parts, start, way, limit)
    shown = _backdrop(start, way, to_table, scene.table, scene.wall)
    hit = far < limit - 1e-3
    on_table = ~hit & (to_table < _FAR)
    points = (start + way * far[:, None]).astype(np.float32)
    ground = points[on_table]
    close = np.linalg.norm(ground[:, [0, 2]], axis=1) < 6
    light, open_sky = np.ones(len(ground), np.float32), np.ones(len(ground), np.float32)
    upward = np.broadcast_to(np.array([0, 1, 0], np.float32), ground[close].shape)
    light[close], open_sky[close] = _shade(parts, ground[close], 7.0), _hidden(parts, ground[close], upward)
    shadow = np.array([0.50, 0.44, 0.42], np.float32)
    shown[on_table] *= (shadow + (1 - shadow) * light[:, None]) * (0.45 + 0.55 * open_sky[:, None])
    shown[hit] = _lit(parts, points[hit], way[hit])
    shown = 1 - np.exp(-1.55 * np.clip(shown, 0, None))  # As film does: bright parts do not burn out.
    shown = np.clip(shown / (1 - np.exp(-1.55)), 0, 1) ** (1 / 2.2)
    edge = 1 - 0.16 * np.clip(across**2 * 0.6 + (down * width / height) ** 2 * 0.4, 0, 1).reshape(-1, 1) ** 1.5
    return (255 * np.clip(shown * edge, 0, 1) + 0.5).astype(np.uint8).reshape(height, width, 3)


def _lit(parts: Sequence[Part], points: Points, way: Points) -> Colours:
    """The light that comes from points on parts, back along the rays that met them."""
    which = np.argmin(np.stack([_near(part, points) for part in parts]), axis=0)
    shown = np.zeros(points.shape, np.float32)
    for number, part in enumerate(parts):
        mine = which == number
        if not mine.any():
            continue
        at, ray = points[mine], way[mine]
        normal = _normals(part, at)
        colour = part.colour(at) ** 2.2
        sun = normal @ _SUN
        light = _shade(parts, at + normal * 0.006) * np.clip((sun + part.soft) / (1 + part.soft), 0, 1)
        sky = _hidden(parts, at, normal) * (0.62 + 0.38 * normal[:, 1])
        bounce = np.clip(0.5 - 0.5 * normal[:, 1], 0, 1) * 0.22
        warm, cool = np.array([1.22, 1.11, 1.0], np.float32), np.array([0.64, 0.62, 0.68], np.float32)
        through = part.soft * 0.35 * (1 - light)[:, None] * colour**0.55 * np.array([1.0, 0.9, 0.78], np.float32)
        seen = colour * (warm * light[:, None] + cool * sky[:, None] + bounce[:, None]) + through * sky[:, None]
        half = _SUN - ray
        half /= np.linalg.norm(half, axis=1, keepdims=True)
        shine = part.gloss * light * np.clip(np.einsum("ij,ij->i", normal, half), 0, 1) ** part.sharpness
        rim = (1 - np.clip(-np.einsum("ij,ij->i", normal, ray), 0, 1)) ** 4 * part.gloss * 0.5 * sky
        shown[mine] = seen * 0.66 + (shine + rim)[:, None]
    return shown


def _backdrop(start: Points, way: Points, to_table: Distances, table: Colour, wall: Colour) -> Colours:
    """A table that goes over into a wall, without an edge."""
    depth = np.clip((to_table - 7.0) / 9.0, 0, 1)
    depth = depth * depth * (3 - 2 * depth)
    high = np.clip(way[:, 1] * 2.2, -0.2, 1)
    front, back = np.array(table, np.float32) ** 2.2, np.array(wall, np.float32) ** 2.2
    plain_wall = back * (0.86 + 0.22 * np.clip(0.5 - way[:, :1], 0, 1)) * (1 - 0.12 * high[:, None])
    side = 1.04 - 0.10 * np.clip(way[:, :1] + 0.4, 0, 1)
    return (front * side * (1 - depth[:, None]) + plain_wall * depth[:, None]).astype(np.float32)
