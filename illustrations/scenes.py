"""Recipe -> what is in its picture: colours from its ingredients, shapes, sizes and numbers from its yield."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from crumbcoat_calc.recipe.model import Recipe

from illustrations import shapes
from illustrations.light import Colour, Colours, Part, Place, Scene, plain
from illustrations.shapes import Points

_STAINS: tuple[tuple[str, Colour, float], ...] = (
    ("cocoa", (0.34, 0.20, 0.13), 42.0),
    ("chocolate", (0.22, 0.11, 0.07), 3.2),
    ("yolk", (0.98, 0.80, 0.34), 3.4),
    ("egg_whole", (0.98, 0.84, 0.42), 2.2),
    ("lemon", (0.98, 0.84, 0.22), 2.0),
    ("butter", (1.0, 0.90, 0.70), 0.75),
    ("condensed", (0.99, 0.86, 0.68), 0.9),
)
"""What colours a frosting, by a word of its kind, and how strongly for its share. By eye, no source."""

WHITE: Colour = (0.985, 0.965, 0.93)
_SPONGE: Colour = (0.90, 0.72, 0.46)
TABLES: tuple[tuple[Colour, Colour, Colour], ...] = (
    ((0.95, 0.90, 0.84), (0.92, 0.82, 0.79), (0.80, 0.44, 0.53)),
    ((0.91, 0.92, 0.89), (0.81, 0.87, 0.84), (0.55, 0.68, 0.62)),
    ((0.94, 0.91, 0.92), (0.87, 0.82, 0.86), (0.62, 0.52, 0.68)),
    ((0.96, 0.92, 0.83), (0.94, 0.86, 0.72), (0.86, 0.66, 0.40)),
    ((0.91, 0.92, 0.94), (0.80, 0.84, 0.90), (0.50, 0.58, 0.72)),
)
"""Table, wall, and what is of paper or china, one after the other."""


def frosting_colour(recipe: Recipe, in_bowl: Mapping[str, float] = MappingProxyType({})) -> Colour:
    """The colour of the frosting by the shares of what colours it; `in_bowl` is how much of an ingredient is in it."""
    masses = {item.food.key: item.mass_g * in_bowl.get(item.key, 1.0) for item in recipe.ingredients}
    total = sum(masses.values())
    colour = np.array(WHITE)
    for word, stain, strength in reversed(_STAINS):
        share = sum(mass_g for key, mass_g in masses.items() if word in key) / total
        weight = 1 - np.exp(-strength * share)
        colour = colour * (1 - weight) + np.array(stain) * weight
    return float(colour[0]), float(colour[1]), float(colour[2])


def scene_of(recipe: Recipe, number: int) -> Scene:
    """The scene for what a batch is enough for; `number` is that of the recipe, for the colours around it."""
    table, wall, china = TABLES[number % len(TABLES)]
    of = recipe.yields.of
    glossy = recipe.family in ("ganache", "curd or custard filling")
    frosting = Frosting(frosting_colour(recipe), 0.55 if glossy else 0.16, 60 if glossy else 26)
    if "cupcake" in of:
        parts = _cupcakes(frosting, china, piped="piped" in of, turned=number * 0.7)
        return Scene(parts=parts, eye=(0.5, 1.75, 4.6), towards=(0.02, 0.56, 0), zoom=2.75, table=table, wall=wall)
    size = re.search(r"(\d+) cm cake", of)
    radius = int(size[1]) / 20 if size else 1.0
    parts = _cake(recipe, frosting, radius, china)
    return Scene(parts=parts, eye=(1.0, 3.0, 6.4), towards=(0.04, 0.54, 0), zoom=3.75, table=table, wall=wall)


@dataclass(frozen=True, slots=True)
class Frosting:
    """How frosting looks."""

    colour: Colour
    gloss: float
    sharpness: float

    def part(
        self, shape: shapes.Shape, middle: Place, reach: float, colour: Callable[[Points], Colours] | None = None
    ) -> Part:
        """A thing of it."""
        seen = colour or plain(self.colour)
        return Part(
            shape=shape, middle=middle, reach=reach, colour=seen, gloss=self.gloss, sharpness=self.sharpness, soft=0.42
        )


def _cupcakes(frosting: Frosting, paper: Colour, *, piped: bool, turned: float) -> tuple[Part, ...]:
    parts: list[Part] = []
    for number, (x, z) in enumerate(((0.0, 0.25), (-1.18, -0.75), (1.12, -1.05))):
        cup = shapes.moved(shapes.pleated_cup(0.33, 0.45, 0.40), x, 0, z)
        parts.append(Part(shape=cup, middle=(x, 0.2, z), reach=0.58, colour=plain(paper), gloss=0.05, soft=0.2))
        top = (
            shapes.swirl(
                0.57, 0.92 - 0.06 * (turned % 1.3), turns=2.7 + turned % 1.3, flutes=4 + round(turned) % 3, start=0.385
            )
            if piped
            else shapes.spread_top(0.55, 0.40, start=0.43)
        )
        around = shapes.turned(top, turned + 2.1 * number)
        parts.append(
            frosting.part(
                shapes.moved(around, x, 0, z), (x, 0.9, z) if piped else (x, 0.66, z), 0.86 if piped else 0.66
            )
        )
    return tuple(parts)


def _cake(recipe: Recipe, frosting: Frosting, radius: float, china: Colour) -> tuple[Part, ...]:
    """A cake with a slice taken out, which shows its layers; rosettes as many as it has slices."""
    of, portions = recipe.yields.of, recipe.yields.portions
    high, base = 1.0, 0.12
    naked, whole = "topped" in of, recipe.family == "ganache"
    coat = 0.0 if naked else 0.05
    curd = recipe.family == "curd or custard filling"
    white = Frosting(WHITE, 0.12, 24)
    coating = white if curd else frosting
    middle, half = 1.06, np.pi / max(7, min(portions, 10))
    sponge = (0.62, 0.36, 0.18) if "carrot" in of else (0.30, 0.17, 0.11) if whole else _SPONGE
    body = shapes.drum(radius, base, base + high, 0.05, wave=0.0035)
    colour = _layers(
        radius - coat if coat else radius + 0.04,
        base,
        base + high - (0.05 if not naked else 0.0),
        sponge,
        frosting.colour,
        coating.colour,
        3,
    )
    stand = Part(
        shape=shapes.stand(radius * 1.22, base),
        middle=(0, 0, 0),
        reach=radius * 1.3,
        colour=plain(_pale(china)),
        gloss=0.35,
        sharpness=50,
        soft=0.1,
    )
    parts = [stand]
    if whole:
        inside = shapes.drum(radius - 0.01, base, base + high, 0.05)
        parts.append(
            Part(
                shape=inside, middle=(0, base + high / 2, 0), reach=radius * 1.16, colour=plain(_pale(china)), soft=0.3
            )
        )
        parts.append(frosting.part(shapes.drips(radius, base + high, 17, 7), (0, base + high * 0.75, 0), radius * 1.16))
        for x, z, size in ((0.05, 0.1, 0.13), (-0.24, -0.06, 0.11), (0.22, -0.24, 0.12)):
            ball = shapes.moved(shapes.ball(size), x, base + high + 0.04, z)
            parts.append(
                Part(
                    shape=ball,
                    middle=(x, base + high + 0.04 + size, z),
                    reach=size * 1.1,
                    colour=plain((0.62, 0.08, 0.16)),
                    gloss=0.5,
                    sharpness=60,
                    soft=0.2,
                )
            )
        return tuple(parts)
    cut = shapes.without_wedge(body, middle, half)
    parts.append(coating.part(cut, (0, base + high / 2, 0), radius * 1.2, colour))
    small = shapes.swirl(0.17, 0.22, turns=2.2, flutes=4)
    count = max(8, min(portions, 14))
    ring = shapes.in_a_ring(small, count, radius * 0.78, base + high - 0.02, gap=(middle, half + 0.14))
    parts.append(coating.part(ring, (0, base + high + 0.1, 0), radius * 1.0))
    if naked:
        knife = shapes.spread_top(radius * 0.99, 0.13, start=base + high - 0.03, turns=2.6)
        parts.append(frosting.part(shapes.without_wedge(knife, middle, half), (0, base + high, 0), radius * 1.1))
    if curd:
        for x, z, size in ((-1.22, 0.98, 0.22), (-0.72, 1.36, 0.21)):
            fruit = shapes.moved(shapes.turned(shapes.lemon(size), x), x, 0, z)
            parts.append(
                Part(
                    shape=fruit, middle=(x, size, z), reach=size * 1.7, colour=_peel, gloss=0.22, sharpness=30, soft=0.3
                )
            )
    return tuple(parts)


def _layers(
    radius: float, low: float, high: float, sponge: Colour, filling: Colour, coating: Colour, count: int
) -> Callable[[Points], Colours]:
    """Sponge with filling between its layers, where a cut shows them; coating everywhere else."""

    def colour(points: Points) -> Colours:
        x, y, z = points.T
        found = np.tile(np.array(coating, np.float32), (len(points), 1))
        inside = (np.hypot(x, z) < radius - 0.004) & (y < high)
        at = (y - low) / (high - low) * count % 1.0
        wobble = 0.035 * np.sin(7 * x + 5 * z) + 0.02 * np.sin(23 * x - 19 * z)
        is_filling = inside & (at + wobble > 0.80) & (y < low + (high - low) * (count - 0.5) / count)
        crumb = 0.86 + 0.14 * _noise(points, 34) + 0.16 * (_noise(points, 85) - 0.5)
        found[inside] = np.clip(np.array(sponge, np.float32) * crumb[inside, None], 0, 1)
        found[is_filling] = filling
        return found

    return colour


def _noise(points: Points, fine: float) -> shapes.Distances:
    """A number from 0 to 1 for each point, which changes smoothly and looks like chance."""
    cell = np.floor(points * fine)
    part = points * fine - cell
    part = part * part * (3 - 2 * part)
    found = np.zeros(len(points), np.float32)
    for corner in np.ndindex(2, 2, 2):
        at = cell + np.array(corner)
        value = np.abs(np.sin(at @ np.array([127.1, 311.7, 74.7])) * 43758.5453) % 1.0
        weight = np.prod(np.where(np.array(corner), part, 1 - part), axis=1)
        found += (value * weight).astype(np.float32)
    return found


def _peel(points: Points) -> Colours:
    dots = 0.93 + 0.07 * _noise(points, 40)
    return (np.array((0.98, 0.80, 0.16), np.float32) * dots[:, None]).astype(np.float32)


def _pale(colour: Colour) -> Colour:
    red, green, blue = (0.62 + 0.38 * part for part in colour)
    return red, green, blue
