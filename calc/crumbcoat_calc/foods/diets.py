"""Where a kind of ingredient comes from, as far as it is certain: what marks of diet are decided by."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from crumbcoat_calc.foods.table import Food, foods
from crumbcoat_calc.tables import UNKNOWN, load_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodOrigin:
    """What a food is made of; None where it is not certain.

    `of_animal_origin`: anything of an animal is in it, milk, egg and honey too. `meat_or_fish`: anything of a
    slaughtered animal is in it, such as gelatine or lard. `gluten`: a cereal that holds gluten is in it.
    `note` says what it is of, or why it is not certain.
    """

    of_animal_origin: bool | None
    meat_or_fish: bool | None
    gluten: bool | None


UNKNOWN_ORIGIN = FoodOrigin(of_animal_origin=None, meat_or_fish=None, gluten=None)

_ANSWERS = {"yes": True, "no": False, UNKNOWN: None}


def origin_of(food: Food) -> FoodOrigin:
    """Where a food comes from; nothing is certain of a food without a kind of the table under it.

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
    return cells["food"], FoodOrigin(
        of_animal_origin=answers["of_animal_origin"],
        meat_or_fish=answers["meat_or_fish"],
        gluten=answers["gluten"],
    )
