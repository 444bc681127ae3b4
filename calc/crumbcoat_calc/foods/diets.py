"""Where a kind of ingredient comes from, where that is certain: the basis for the diet marks."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.foods.table import Food, foods
from crumbcoat_calc.tables import UNKNOWN, load_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodOrigin:
    """Where a food comes from; None where that is uncertain.

    `of_animal_origin`: it contains something from an animal, which includes milk, egg and honey. `meat_or_fish`: it
    contains something from a slaughtered animal, such as gelatine or lard. `gluten`: it contains a cereal with gluten.
    """

    of_animal_origin: bool | None
    meat_or_fish: bool | None
    gluten: bool | None


UNKNOWN_ORIGIN = FoodOrigin(of_animal_origin=None, meat_or_fish=None, gluten=None)

_ANSWERS = {"yes": True, "no": False, UNKNOWN: None}


def origin_of(food: Food) -> FoodOrigin:
    """Where a food comes from; for a food that is not based on a kind of the table, nothing is certain.

    Source:
        definition (what the food is made of).

    >>> from crumbcoat_calc.foods.table import food
    >>> origin_of(food("gelatin_powder")).meat_or_fish, origin_of(food("sour_cream")).gluten
    (True, None)
    """
    return _table().get(food.key, UNKNOWN_ORIGIN)


@cache
def _table() -> Mapping[str, FoodOrigin]:
    return dict(load_rows("diets", _facts_from, ("food",)))


def _facts_from(cells: dict[str, str]) -> tuple[str, FoodOrigin]:
    if cells["food"] not in foods():
        raise ValueError(f"there is no food {cells['food']!r} in foods.csv")
    answers = {}
    for column in ("of_animal_origin", "meat_or_fish", "gluten"):
        if cells[column] not in _ANSWERS:
            raise ValueError(f"{column} is {cells[column]!r}; write yes, no or {UNKNOWN}")
        answers[column] = _ANSWERS[cells[column]]
    return cells["food"], _origin(*answers.values())


@cache
def _origin(of_animal_origin: bool | None, meat_or_fish: bool | None, gluten: bool | None) -> FoodOrigin:
    return FoodOrigin(of_animal_origin=of_animal_origin, meat_or_fish=meat_or_fish, gluten=gluten)
