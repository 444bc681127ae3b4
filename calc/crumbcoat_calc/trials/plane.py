"""The map of two ingredients with the trials on it, each with the sign of what it did."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.pictures.drawing import XMLNS, element, label, number, sentence, words
from crumbcoat_calc.pictures.mixture_map import Axis, percent_of
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.science.map_regions import region_rows
from crumbcoat_calc.science.mixture_map import Region, map_mixture, map_point
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.mixture_map import ground_texts
from crumbcoat_calc.trials.finished import conditions_of, structure
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.outcomes import HELD, outcome_of
from crumbcoat_calc.trials.signs import NOT_SAID, sign
from crumbcoat_calc.values.display import list_text, mass_text, range_text

_KEY = "trials"
_STEPS = 12
_AROUND = 0.35
"""How far the map reaches beyond the trials, as a share of what they span."""
_LEAST = 0.1
"""The least that an axis spans, as a share of its largest amount."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A trial on the map: its masses of both ingredients in g, and whether it differs from the recipe in others too."""

    made: MadeTrial
    x_g: float
    y_g: float
    other_too: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """The map: `texts` has the ground and its key; the trials over it, in a table, and in sentences."""

    texts: Texts
    points: str
    rows: list[list[str]]
    heads: list[str]
    says: list[str]
    has_outline: bool


def plane_of(recipe: Batch, trials: Sequence[MadeTrial], axes: tuple[str, str] | None) -> Plane | None:
    """The map of a notebook; None where no two ingredients differ among the trials, or the trials are fewer than two.

    Args:
        recipe: the batch of the recipe as it is, which gives everything else.
        axes: the ingredients that the author chose, across and upward; None for those that vary most, by mass.
    """
    listed = {one.key for one in recipe.recipe.ingredients if one.mass_g > 0}
    chosen = axes or most_varied(recipe.recipe, trials)
    if chosen is None or len(trials) < 2 or not set(chosen) <= listed:
        return None
    placed = [_placed(recipe.recipe, made, chosen) for made in trials]
    ingredients = {one.key: one for one in recipe.recipe.ingredients}
    x, y = ingredients[chosen[0]], ingredients[chosen[1]]
    x_axis = _axis(x.name, [x.mass_g, *(one.x_g for one in placed)])
    y_axis = _axis(y.name, [y.mass_g, *(one.y_g for one in placed)])
    return Plane(
        texts=_ground(recipe, (x.food, x_axis), (y.food, y_axis), chosen),
        points=_points(x_axis, y_axis, placed),
        rows=[
            [
                f"Trial {one.made.trial.number}",
                mass_text(one.x_g),
                mass_text(one.y_g),
                outcome_of(one.made.trial) or NOT_SAID,
            ]
            for one in placed
        ],
        heads=["Trial", x.name, y.name, "It"],
        says=_says(placed, x.name, y.name),
        has_outline=bool(_around(placed, x_axis, y_axis)),
    )


def most_varied(recipe: Recipe, trials: Sequence[MadeTrial]) -> tuple[str, str] | None:
    """The two ingredients of the recipe whose mass differs most among the trials, the larger difference first."""
    spans = []
    for ingredient in recipe.ingredients:
        masses = [_mass_g(made.recipe, ingredient.key) / _size(recipe, made.recipe) for made in trials]
        span = max(masses, default=0.0) - min(masses, default=0.0)
        if ingredient.mass_g > 0 and span > 0.01 * ingredient.mass_g:
            spans.append((-span, ingredient.key))
    return (sorted(spans)[0][1], sorted(spans)[1][1]) if len(spans) > 1 else None


def _size(recipe: Recipe, other: Recipe) -> float:
    """How many times the recipe another batch of it is; 1 unless it is clearly of another size."""
    ratio = fsum(one.mass_g for one in other.ingredients) / fsum(one.mass_g for one in recipe.ingredients)
    return ratio if ratio > 1.5 or ratio < 1 / 1.5 else 1.0


def _placed(recipe: Recipe, made: MadeTrial, axes: tuple[str, str]) -> Placed:
    size = _size(recipe, made.recipe)
    others = {one.key for one in (*recipe.ingredients, *made.recipe.ingredients)} - {*axes}
    gaps = [abs(_mass_g(made.recipe, key) / size - _mass_g(recipe, key)) for key in others]
    whole = fsum(one.mass_g for one in recipe.ingredients)
    return Placed(
        made=made,
        x_g=_mass_g(made.recipe, axes[0]) / size,
        y_g=_mass_g(made.recipe, axes[1]) / size,
        other_too=max(gaps, default=0.0) > 0.01 * whole or _keys(recipe) != _keys(made.recipe),
    )


def _keys(recipe: Recipe) -> set[str]:
    return {one.key for one in recipe.ingredients if one.mass_g > 0}


def _mass_g(recipe: Recipe, key: str) -> float:
    return fsum(one.mass_g for one in recipe.ingredients if one.key == key)


def _axis(name: str, masses: Sequence[float]) -> Axis:
    low, high = min(masses), max(masses)
    beyond = max(_AROUND * (high - low), _LEAST * high / 2)
    return Axis(name=name, start_g=max(0.0, low - beyond), end_g=high + beyond)


def _ground(recipe: Batch, x: tuple[Food, Axis], y: tuple[Food, Axis], axes: tuple[str, str]) -> Texts:
    """The regions and lines around the trials, with everything else as in the recipe."""
    others = [(one.food, one.mass_g) for one in recipe.recipe.ingredients if one.key not in axes]
    lost_g, t_c = recipe.vessels[-1].water_lost_g, conditions_of(recipe).bowl_c
    emulsified = structure(recipe).held_by_droplets

    def at(axis: Axis, share: float) -> float:
        return axis.start_g + share * (axis.end_g - axis.start_g)

    def region(across: float, up: float) -> Region:
        parts = [*others, (x[0], at(x[1], across)), (y[0], at(y[1], up))]
        return map_point(parts, t_c, lost_g, emulsified).region

    shares = [step / _STEPS for step in range(_STEPS + 1)]
    plane = map_mixture(
        others,
        (x[0], [at(x[1], share) for share in shares]),
        (y[0], [at(y[1], share) for share in shares]),
        t_c,
        boiled_off_g=lost_g,
        emulsified=emulsified,
    )
    rows = region_rows([[point.region for point in row] for row in plane.points], region)
    return ground_texts(plane, rows, x[1].name, y[1].name)


def _points(x: Axis, y: Axis, placed: Sequence[Placed]) -> str:
    """The trials, to lie over the ground; those at one place are beside each other."""
    groups: dict[tuple[int, int], list[Placed]] = {}
    for one in placed:
        place = (round(40 * x.share(one.x_g)), round(28 * y.share(one.y_g)))
        groups.setdefault(place, []).append(one)
    drawn = [_around(placed, x, y)]
    for group in groups.values():
        at = element(
            "svg",
            *_group(group),
            x=percent_of(x.share(group[0].x_g)),
            y=percent_of(1 - y.share(group[0].y_g)),
            overflow="visible",
        )
        drawn.append(at)
    facts = [
        f"trial {one.made.trial.number}, {mass_text(one.x_g)} of {x.name} and {mass_text(one.y_g)} of {y.name}: "
        f"{outcome_of(one.made.trial) or NOT_SAID}"
        for one in placed
    ]
    title = f"Map of {x.name} and {y.name} with the trials"
    return element(
        "svg",
        element("title", words(title), id=f"cc-{_KEY}-title"),
        element("desc", words(sentence(title, facts)), id=f"cc-{_KEY}-desc"),
        *drawn,
        xmlns=XMLNS,
        class_="cc-map-point",
        role="img",
        aria_labelledby=f"cc-{_KEY}-title cc-{_KEY}-desc",
    )


def _group(group: Sequence[Placed]) -> list[str]:
    """The signs of trials at one place in a row, each with its number under it."""
    left = -16.0 * (len(group) - 1) / 2
    drawn = []
    for at, one in enumerate(group):
        dx = left + 16 * at
        if one.other_too:
            drawn.append(element("circle", cx=dx, cy=0, r=10, class_="cc-other-too"))
        drawn.append(sign(outcome_of(one.made.trial), dx, 0))
    numbers = ", ".join([str(one.made.trial.number) for one in group])
    drawn.append(label(left + 16 * (len(group) - 1) + 12, 4, numbers, kind="cc-text cc-marked cc-level"))
    return drawn


def _around(placed: Sequence[Placed], x: Axis, y: Axis) -> str:
    """A line around the trials that held, if there are three or more that are not in one line."""
    held = [one for one in placed if outcome_of(one.made.trial) == HELD]
    hull = hull_of([(x.share(one.x_g), 1 - y.share(one.y_g)) for one in held])
    if len(hull) < 3:
        return ""
    points = " ".join([f"{number(1000 * across)},{number(1000 * down)}" for across, down in hull])
    shape = element("polygon", points=points, class_="cc-held")
    return element("svg", shape, viewBox="0 0 1000 1000", width="100%", height="100%", preserveAspectRatio="none")


def hull_of(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The corners of the smallest convex shape around points.

    Source:
        derivation (the chain of right turns around sorted points).

    >>> hull_of([(0, 0), (2, 0), (1, 1), (1, 3), (1, 1)])
    [(0, 0), (2, 0), (1, 3)]
    """
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return list(ordered)

    def chain(way: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        found: list[tuple[float, float]] = []
        for point in way:
            while len(found) > 1 and _turn(found[-2], found[-1], point) <= 0:
                found.pop()
            found.append(point)
        return found[:-1]

    return chain(ordered) + chain(ordered[::-1])


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _says(placed: Sequence[Placed], x_name: str, y_name: str) -> list[str]:
    """What the trials at hand show, a sentence for each thing that they did."""
    found = []
    for did in dict.fromkeys(outcome_of(one.made.trial) for one in placed):
        if did is None:
            continue
        of = [one for one in placed if outcome_of(one.made.trial) == did]
        numbers = list_text([str(one.made.trial.number) for one in of])
        x, y = _range([one.x_g for one in of]), _range([one.y_g for one in of])
        trial = "Trial" if len(of) == 1 else "Trials"
        found.append(f"{did.capitalize()}: {trial.lower()} {numbers}, with {x} of {x_name} and {y} of {y_name}.")
    others = [str(one.made.trial.number) for one in placed if one.other_too]
    if others:
        which = f"Trial {others[0]} differs" if len(others) == 1 else f"Trials {list_text(others)} differ"
        found.append(f"{which} from the recipe in other things too (ringed).")
    return found


def _range(masses: Sequence[float]) -> str:
    return range_text(mass_text(min(masses)), mass_text(max(masses)))
