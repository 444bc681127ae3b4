"""Calculator: a map of a recipe over the amounts of two of its ingredients, with the batch as a point."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache, partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.conditions import degrees
from crumbcoat_calc.forms.given import Given, given_recipe, name_texts, position
from crumbcoat_calc.forms.written_amounts import in_grams
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.plane import Plane, Point, plane_of, point_of
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.mixture_map import drawn_map, ground_of, point_texts, table_rows
from crumbcoat_calc.texts.science import EMULSIFIED
from crumbcoat_calc.values.form_fields import read_field, state_number
from crumbcoat_calc.values.units import number

STEPS = 14
"""So many steps a side has; the axes end at twice what the recipe has."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    given_text: str
    given: Given
    x: int
    y: int
    x_g: float
    y_g: float
    bowl_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    question: Question
    plane: Plane
    ground: tuple[str, float]
    point: Point


def read(given: str, state: Mapping[str, str]) -> Question:
    """The question that the recipe in `given` and the reader's choice in `state` ask.

    The state may hold `x` and `y` (positions of ingredients), `x_g`, `y_g` (g) and `bowl_temperature` (°C).

    Raises:
        InputError: at the field of the state that cannot be used.
    """
    recipe = given_recipe(given)
    if len(recipe.names) < 2:
        raise InputError("a map needs two ingredients", "choose another recipe", ("recipe",))
    x, y = _largest_two(recipe)
    grams: dict[str, float] = {}
    bowl_c = constants("kitchen")["room"]
    for name, value in state.items():
        if not value.strip():
            continue
        if name == "x":
            x = read_field(name, value, partial(position, given=recipe))
        elif name == "y":
            y = read_field(name, value, partial(position, given=recipe))
        elif name in ("x_g", "y_g"):
            grams[name] = read_field(name, value, in_grams)
        elif name == "bowl_temperature":
            bowl_c = read_field(name, value, degrees)
        else:
            raise InputError(f"there is no field {name!r} here", "reload the page", (name,))
    if x == y:
        raise InputError("both axes have the same ingredient", "choose another one", ("y",))
    for name, at in (("x_g", x), ("y_g", y)):
        end_g = 2 * recipe.recipe.ingredients[at].mass_g
        if grams.get(name, 0.0) > end_g:
            raise InputError(f"{grams[name]:g} g is off the map", f"give 0 to {end_g:g} g", (name,))
    return Question(
        given_text=given,
        given=recipe,
        x=x,
        y=y,
        x_g=grams.get("x_g", recipe.recipe.ingredients[x].mass_g),
        y_g=grams.get("y_g", recipe.recipe.ingredients[y].mass_g),
        bowl_c=bowl_c,
    )


def keep(given: str, state: Mapping[str, str], edit: Mapping[str, str]) -> dict[str, str]:
    """The state after the reader touched some fields; `x_percent` and `y_percent` are of what the recipe has."""
    kept = dict(state)
    for name, value in edit.items():
        if name in ("x_percent", "y_percent"):
            question = read(given, kept)
            at = question.x if name == "x_percent" else question.y
            percent = read_field(name, value, _up_to_200)
            kept[f"{name[0]}_g"] = state_number(percent / 100 * question.given.recipe.ingredients[at].mass_g)
            continue
        kept[name] = value
        if name in ("x", "y"):
            kept.pop(f"{name}_g", None)
            other = "y" if name == "x" else "x"
            before = read(given, state)
            if str(before.x if other == "x" else before.y) == value:
                # The two change places.
                kept[other] = str(before.x if name == "x" else before.y)
                kept.pop(f"{other}_g", None)
    question = read(given, kept)
    first, second = _largest_two(question.given)
    found = {}
    if question.x != first:
        found["x"] = str(question.x)
    if question.y != second:
        found["y"] = str(question.y)
    for name, at, mass_g in (("x_g", question.x, question.x_g), ("y_g", question.y, question.y_g)):
        if state_number(mass_g) != state_number(question.given.recipe.ingredients[at].mass_g):
            found[name] = state_number(mass_g)
    if question.bowl_c != constants("kitchen")["room"]:
        found["bowl_temperature"] = state_number(question.bowl_c)
    return found


def calculate(question: Question) -> Answer:
    """The map, which is kept for as long as only the point moves, and the mixture at the point."""
    plane, ground = _map(question.given_text, question.x, question.y, question.bowl_c)
    masses = [ingredient.mass_g for ingredient in question.given.recipe.ingredients]
    masses[question.x], masses[question.y] = question.x_g, question.y_g
    parts = [(one.food, mass_g) for one, mass_g in zip(question.given.recipe.ingredients, masses, strict=True)]
    point = point_of(parts, question.bowl_c, _lost_g(question.given), EMULSIFIED.get(question.given.recipe.family))
    return Answer(question=question, plane=plane, ground=ground, point=point)


def show(answer: Answer) -> Texts:
    question = answer.question
    ingredients = question.given.recipe.ingredients
    x, y = ingredients[question.x], ingredients[question.y]
    texts: Texts = {
        **name_texts(question.given),
        "x": str(question.x),
        "y": str(question.y),
        "x_g": state_number(round(question.x_g, 2)),
        "y_g": state_number(round(question.y_g, 2)),
        "x_percent": state_number(round(100 * question.x_g / x.mass_g)),
        "y_percent": state_number(round(100 * question.y_g / y.mass_g)),
        "x_name": x.name,
        "y_name": y.name,
        "bowl_temperature": state_number(question.bowl_c),
        "rows.map": table_rows(answer.plane),
    }
    texts |= point_texts(answer.point)
    texts["picture.map"] = drawn_map(
        answer.ground, (x.name, 2 * x.mass_g, question.x_g), (y.name, 2 * y.mass_g, question.y_g), texts
    )
    return texts


def _lost_g(given: Given) -> float:
    return given.batch.vessels[-1].water_lost_g


def _largest_two(given: Given) -> tuple[int, int]:
    """The wettest and the sweetest ingredient by mass where they differ: milk and sugar, say; else the two largest."""
    ingredients = given.recipe.ingredients
    order = sorted(range(len(ingredients)), key=lambda at: -ingredients[at].mass_g)

    def most(component: str) -> int:
        return max(order, key=lambda at: ingredients[at].mass_g * (ingredients[at].food.content(component) or 0.0))

    wet, sweet = most("water_g"), most("sugars_g")
    return (wet, sweet) if wet != sweet else (order[0], order[1])


@lru_cache(maxsize=8)
def _map(given_text: str, x: int, y: int, bowl_c: float) -> tuple[Plane, tuple[str, float]]:
    given = given_recipe(given_text)
    ingredients = given.recipe.ingredients
    others = [(one.food, one.mass_g) for at, one in enumerate(ingredients) if at not in (x, y)]
    axes = [
        (ingredients[at].food, [2 * ingredients[at].mass_g * step / STEPS for step in range(STEPS + 1)])
        for at in (x, y)
    ]
    made = plane_of(
        others,
        axes[0],
        axes[1],
        bowl_c,
        boiled_off_g=_lost_g(given),
        emulsified=EMULSIFIED.get(given.recipe.family),
    )
    return made, ground_of(made, ingredients[x].name, ingredients[y].name)


def _up_to_200(written: str) -> float:
    value = float(number(written))
    if value > 200:
        raise InputError(f"{value:g} % is off the map", "give 0 to 200")
    return value
