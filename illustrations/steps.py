"""Step of a recipe -> what is in its picture: a bowl with what is in it by then, as much and in its colour."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from crumbcoat_calc.recipe.model import Recipe

from illustrations import bowls
from illustrations.light import Colour, Part, Scene, plain
from illustrations.scenes import TABLES, frosting_colour
from illustrations.shapes import Shape, moved

_STEEL: Colour = (0.78, 0.79, 0.82)
_MIDDLE = (0.0, 0.6, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """What is in the bowl beside the rest, where it stands higher; its colour is mixed with that of the rest."""

    surface: bowls.Surface
    tint: tuple[Colour, float]
    gloss: float = 0.8
    sharpness: float = 90.0


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """What a bowl looks like at a step.

    Args:
        in_bowl: how much of an ingredient is in the bowl, from 0 to 1; all of it if it is not named.
        density_g_per_ml: by eye, no source; without it that of the finished batch.
        tint: a colour that it takes on besides that of its ingredients, and how much.
    """

    surface: bowls.Surface
    peak: Shape | None = None
    in_bowl: Mapping[str, float] = field(default_factory=dict)
    density_g_per_ml: float | None = None
    gloss: float = 0.2
    sharpness: float = 30.0
    tint: tuple[Colour, float] | None = None
    other: Other | None = None
    with_whisk: bool = False


VIEWS: Mapping[str, Mapping[str, View]] = {
    "coating-ganache": {
        "1-3": View(
            surface=bowls.curds(0.06, 0.016),
            density_g_per_ml=1.2,
            gloss=0.05,
            tint=((0.72, 0.56, 0.44), 0.42),
            other=Other(surface=bowls.core(0.55), tint=((0.16, 0.07, 0.045), 0.75), gloss=0.9, sharpness=70),
        ),
        "1-3b": View(
            surface=bowls.curds(0.13, 0.075),
            density_g_per_ml=1.2,
            gloss=0.06,
            tint=((0.45, 0.30, 0.20), 0.5),
            other=Other(surface=bowls.flat(0.03), tint=((0.62, 0.38, 0.10), 0.55), gloss=0.9),
        ),
    },
    "stabilised-whipped-cream": {
        "2-1": View(
            surface=bowls.tracks(0.015, fade=0.85),
            in_bowl={"gelatine": 0, "water": 0, "cream": 0.9, "vanilla": 0},
            density_g_per_ml=0.62,
            gloss=0.4,
            sharpness=60,
            with_whisk=True,
        ),
        "2-2": View(surface=bowls.folds(0.09), peak=bowls.peak(0.25, 0.95, 0.30, bend=2.6), gloss=0.25),
        "2-2b": View(
            surface=bowls.curds(0.075, 0.05), density_g_per_ml=0.6, gloss=0.08, tint=((0.98, 0.86, 0.56), 0.45)
        ),
    },
    "swiss-meringue-buttercream": {
        "2-1": View(
            surface=bowls.folds(0.12, crisp=1.6),
            peak=bowls.peak(0.05, 0.95, 0.30, bend=1.5),
            in_bowl={"butter": 0, "vanilla": 0, "salt": 0},
            density_g_per_ml=0.29,
            gloss=0.4,
            sharpness=45,
        ),
        "3-1": View(
            surface=bowls.curds(0.17, 0.10),
            in_bowl={"butter": 0.5, "vanilla": 0, "salt": 0},
            density_g_per_ml=0.8,
            other=Other(surface=bowls.flat(0.05), tint=((0.94, 0.86, 0.62), 0.45)),
        ),
        "3-1b": View(surface=bowls.folds(0.11, crisp=1.3), in_bowl={"vanilla": 0, "salt": 0}, gloss=0.1),
    },
}
"""By the name of a recipe and the place of a picture, as its file is named."""


def step_scenes(name: str, recipe: Recipe, number: int) -> Mapping[str, Scene]:
    """The scenes of the steps of a recipe that have one, by place; `number` is that of the recipe, for the colours."""
    return {place: _scene(recipe, view, number) for place, view in VIEWS.get(name, {}).items()}


def _scene(recipe: Recipe, view: View, number: int) -> Scene:
    table, wall, china = TABLES[number % len(TABLES)]
    mass_g = sum(item.mass_g * view.in_bowl.get(item.key, 1.0) for item in recipe.ingredients)
    density = view.density_g_per_ml or recipe.measured.density_g_per_ml
    volume_l = mass_g / density / 1000
    colour = frosting_colour(recipe, view.in_bowl)
    if view.tint:
        colour = _mixed(colour, *view.tint)
    parts = [
        Part(shape=bowls.bowl, middle=_MIDDLE, reach=1.35, colour=plain(china), gloss=0.35, sharpness=50, soft=0.1),
        Part(
            shape=bowls.mixture(volume_l, view.surface, view.peak),
            middle=_MIDDLE if view.peak is None else (0.0, 0.8, 0.0),
            reach=1.35 if view.peak is None else 1.6,
            colour=plain(colour),
            gloss=view.gloss,
            sharpness=view.sharpness,
            soft=0.42,
        ),
    ]
    level = bowls.level_of(volume_l)
    if view.other:
        parts.append(
            Part(
                shape=bowls.mixture(volume_l, view.other.surface),
                middle=_MIDDLE,
                reach=1.35,
                colour=plain(_mixed(colour, *view.other.tint)),
                gloss=view.other.gloss,
                sharpness=view.other.sharpness,
                soft=0.3,
            )
        )
    if view.with_whisk:
        whisk = moved(bowls.tilted(bowls.whisk(1.15, 0.36), 0.5, -0.25), -0.15, level - 0.3, 0.1)
        parts.append(Part(shape=whisk, middle=(0.4, 1.6, -0.2), reach=2.2, colour=plain(_STEEL), gloss=0.9, soft=0.0))
    return Scene(parts=tuple(parts), eye=(0.5, 3.6, 3.6), towards=(0.0, 0.6, 0.02), zoom=3.15, table=table, wall=wall)


def _mixed(colour: Colour, other: Colour, weight: float) -> Colour:
    red, green, blue = (a * (1 - weight) + b * weight for a, b in zip(colour, other, strict=True))
    return red, green, blue
