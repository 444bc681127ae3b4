"""Calculator: a map of a recipe over the amounts of two of its ingredients, with the batch as a point."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache, partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.conditions import degrees, degrees_text
from crumbcoat_calc.forms.context import Context, PublishedRecipe, name_texts, position, with_room
from crumbcoat_calc.forms.written_amounts import in_grams
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.map_regions import region_rows
from crumbcoat_calc.science.mixture_map import MapPoint, Region, map_mixture, map_point
from crumbcoat_calc.science.structure import structure_of
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.mixture_map import drawn_point, ground_texts, point_texts
from crumbcoat_calc.texts.science import treated_parts, vessel_state
from crumbcoat_calc.values.form_fields import read_field, state_number
from crumbcoat_calc.values.units import number

STEPS = 16
"""The number of steps along each side; the axes end at twice the recipe's amount."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    published: PublishedRecipe
    x: int
    y: int
    x_g: float
    y_g: float
    bowl_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    question: Question
    ground: Texts
    point: MapPoint


def read(context: Context, state: Mapping[str, str]) -> Question:
    """The question that the recipe and the reader's choice in the form state ask.

    The form state may hold `x` and `y` (positions of ingredients), `x_g`, `y_g` (g) and `bowl_temperature` (°C).

    Raises:
        InputError: at the field of the form state that cannot be used.
    """
    return _question(with_room(context.published), state)


def apply_edit(question: Question, edit: Mapping[str, str]) -> Question:
    """The question after the reader changed some fields; `x_percent` and `y_percent` are of what the recipe has."""
    published, before = question.published, question
    state = form_state(question)
    for name, value in edit.items():
        if name in ("x_percent", "y_percent"):
            now = _question(published, state)
            at = now.x if name == "x_percent" else now.y
            percent = read_field(name, value, _up_to_200)
            state[f"{name[0]}_g"] = state_number(percent / 100 * published.recipe.ingredients[at].mass_g)
            continue
        state[name] = value
        if name in ("x", "y"):
            state.pop(f"{name}_g", None)
            other = "y" if name == "x" else "x"
            if str(before.x if other == "x" else before.y) == value:
                # The two change places.
                state[other] = str(before.x if name == "x" else before.y)
                state.pop(f"{other}_g", None)
    return _question(published, state)


def form_state(question: Question) -> dict[str, str]:
    ingredients = question.published.recipe.ingredients
    first, second = _largest_two(question.published)
    found = {}
    if question.x != first:
        found["x"] = str(question.x)
    if question.y != second:
        found["y"] = str(question.y)
    for name, at, mass_g in (("x_g", question.x, question.x_g), ("y_g", question.y, question.y_g)):
        if state_number(mass_g) != state_number(ingredients[at].mass_g):
            found[name] = state_number(mass_g)
    if question.bowl_c != constants("kitchen")["room"]:
        found["bowl_temperature"] = degrees_text(question.bowl_c)
    return found


def calculate(question: Question) -> Answer:
    """The map, which is kept for as long as only the point moves, and the mixture at the point."""
    published, x, y, bowl_c = question.published, question.x, question.y, question.bowl_c
    ground = _ground(published, x, y, bowl_c)
    return Answer(
        question=question, ground=ground, point=_point(published, (x, question.x_g), (y, question.y_g), bowl_c)
    )


def texts(answer: Answer) -> Texts:
    question = answer.question
    ingredients = question.published.recipe.ingredients
    x, y = ingredients[question.x], ingredients[question.y]
    found: Texts = {
        **name_texts(question.published),
        "x": str(question.x),
        "y": str(question.y),
        "x_g": state_number(round(question.x_g, 2)),
        "y_g": state_number(round(question.y_g, 2)),
        "x_percent": state_number(round(100 * question.x_g / x.mass_g)),
        "y_percent": state_number(round(100 * question.y_g / y.mass_g)),
        "x_name": x.name,
        "y_name": y.name,
        "bowl_temperature": state_number(question.bowl_c),
        **answer.ground,
        **point_texts(answer.point),
    }
    found["picture.map_point"] = drawn_point(
        (x.name, 2 * x.mass_g, question.x_g), (y.name, 2 * y.mass_g, question.y_g), found
    )
    return found


def _question(published: PublishedRecipe, state: Mapping[str, str]) -> Question:
    if len(published.names) < 2:
        raise InputError("a map needs two ingredients", "choose another recipe", ("recipe",))
    x, y = _largest_two(published)
    grams: dict[str, float] = {}
    bowl_c = constants("kitchen")["room"]
    for name, value in state.items():
        if not value.strip():
            continue
        if name == "x":
            x = read_field(name, value, partial(position, published=published))
        elif name == "y":
            y = read_field(name, value, partial(position, published=published))
        elif name in ("x_g", "y_g"):
            grams[name] = read_field(name, value, in_grams)
        elif name == "bowl_temperature":
            bowl_c = read_field(name, value, degrees)
        else:
            raise InputError(f"there is no field {name!r} here", "leave it out", (name,))
    if x == y:
        raise InputError("both axes show the same ingredient", "choose another ingredient for one of them", ("y",))
    for name, at in (("x_g", x), ("y_g", y)):
        end_g = 2 * published.recipe.ingredients[at].mass_g
        if grams.get(name, 0.0) > end_g:
            raise InputError(f"{grams[name]:g} g is off the map", f"give 0 to {end_g:g} g", (name,))
    return Question(
        published=published,
        x=x,
        y=y,
        x_g=grams.get("x_g", published.recipe.ingredients[x].mass_g),
        y_g=grams.get("y_g", published.recipe.ingredients[y].mass_g),
        bowl_c=bowl_c,
    )


def _lost_g(published: PublishedRecipe) -> float:
    return published.batch.vessels[-1].water_lost_g


def _largest_two(published: PublishedRecipe) -> tuple[int, int]:
    """The wettest and the sweetest ingredient by mass where they differ: milk and sugar, say; else the two largest."""
    ingredients = published.recipe.ingredients
    order = sorted(range(len(ingredients)), key=lambda at: -ingredients[at].mass_g)

    def most(component: str) -> int:
        return max(order, key=lambda at: ingredients[at].mass_g * (ingredients[at].food.content(component) or 0.0))

    wet, sweet = most("water_g"), most("sugars_g")
    return (wet, sweet) if wet != sweet else (order[0], order[1])


@lru_cache(maxsize=8)
def _ground(published: PublishedRecipe, x: int, y: int, bowl_c: float) -> Texts:
    ingredients = published.recipe.ingredients
    others = [(other.food, other.mass_g) for at, other in enumerate(ingredients) if at not in (x, y)]
    x_end_g, y_end_g = 2 * ingredients[x].mass_g, 2 * ingredients[y].mass_g
    plane = map_mixture(
        others,
        (ingredients[x].food, [x_end_g * step / STEPS for step in range(STEPS + 1)]),
        (ingredients[y].food, [y_end_g * step / STEPS for step in range(STEPS + 1)]),
        bowl_c,
        boiled_off_g=_lost_g(published),
        emulsified=_emulsified(published, bowl_c),
    )

    def region(across: float, up: float) -> Region:
        return _point(published, (x, across * x_end_g), (y, up * y_end_g), bowl_c).region

    rows = region_rows([[point.region for point in row] for row in plane.points], region)
    return ground_texts(plane, rows, ingredients[x].name, ingredients[y].name)


def _point(published: PublishedRecipe, x: tuple[int, float], y: tuple[int, float], bowl_c: float) -> MapPoint:
    """The mixture with other masses in g of two ingredients, given with their positions."""
    masses = [ingredient.mass_g for ingredient in published.recipe.ingredients]
    masses[x[0]], masses[y[0]] = x[1], y[1]
    parts = [(one.food, mass_g) for one, mass_g in zip(published.recipe.ingredients, masses, strict=True)]
    return map_point(parts, bowl_c, _lost_g(published), _emulsified(published, bowl_c))


@lru_cache(maxsize=8)
def _emulsified(published: PublishedRecipe, bowl_c: float) -> bool | None:
    """Whether droplets hold the recipe as published: the map has other amounts, but not another way of making it."""
    vessel = published.batch.vessels[-1]
    state = vessel_state(vessel, bowl_c)
    return structure_of(treated_parts(vessel), published.recipe.family, state).held_by_droplets


def _up_to_200(written: str) -> float:
    value = float(number(written))
    if value > 200:
        raise InputError(f"{value:g} % is off the map", "give 0 to 200")
    return value
