"""What a reader tells of their kitchen: temperatures, the mixer, a weighed cup, a chilled bowl, a measured pH."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from calc.errors import InputError
from calc.recipe.model import Recipe
from calc.science.constants import constants
from calc.units import between, celsius, grams, millilitres, number_and_words, unit_name


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """Temperatures in °C; None where the reader tells nothing.

    `bowl_c` is that of the mixture at rest, `room_c` that of ingredients without one of their own, `target_c` the
    wanted one; `tempered` is the key of the ingredient to be made colder or warmer for it, empty for the wettest;
    `looked_at` the stage that is shown in full, from 0, or None for the finished batch. `mixer_w` is what the mixer
    draws beyond its idling. The chilling fields hold one pair of readings in the reader's own bowl.
    """

    bowl_c: float
    room_c: float
    target_c: float
    tempered: str = ""
    looked_at: int | None = None
    mixer_w: float | None = None
    mixer_min: float | None = None
    chilled_from_c: float | None = None
    chilled_to_c: float | None = None
    chilled_min: float | None = None
    cold_c: float
    cup_ml: float | None = None
    cup_g: float | None = None
    ph: float | None = None


def degrees(written: str) -> float:
    """A temperature from a form, where a bare number is °C.

    >>> degrees("21"), degrees("68 °F"), degrees("-18")
    (21.0, 20.0, -18.0)
    """
    bare = written.strip().lstrip("-−–").strip()
    return round(celsius(written if number_and_words(bare, "20 °C")[1] else f"{written} °C"), 6)


def _plain(unit: str, reader: Callable[[object], float]) -> Callable[[str], float]:
    """A quantity from a form, where a bare number is in this unit."""
    return lambda written: reader(written if number_and_words(written)[1] else f"{written} {unit}")


def _number(lowest: int, highest: int) -> Callable[[str], float]:
    reader = between(Fraction(lowest), Fraction(highest))
    return lambda written: reader(written)


def _watts(written: str) -> float:
    count, words = number_and_words(written, "60")
    if words and unit_name(words) != "watt" and words != "W":
        raise InputError(f"{written!r} is not a power", "give watts, such as `60`")
    return _number(0, 5000)(str(float(count)))


def _minutes(written: str) -> float:
    count, words = number_and_words(written, "10")
    if words not in ("", "min"):
        raise InputError(f"{written!r} is not a time in minutes", "give minutes, such as `10`")
    return _number(0, 10000)(str(float(count)))


FIELDS: Mapping[str, tuple[str, Callable[[str], float]]] = {
    "bowl_temperature": ("bowl_c", degrees),
    "room_temperature": ("room_c", degrees),
    "target_temperature": ("target_c", degrees),
    "mixer_watts": ("mixer_w", _watts),
    "mixer_minutes": ("mixer_min", _minutes),
    "chilled_from": ("chilled_from_c", degrees),
    "chilled_to": ("chilled_to_c", degrees),
    "chilled_minutes": ("chilled_min", _minutes),
    "cold_temperature": ("cold_c", degrees),
    "cup": ("cup_ml", _plain("mL", millilitres)),
    "cup_weighs": ("cup_g", _plain("g", grams)),
    "ph": ("ph", _number(0, 14)),
}
"""The fields of a form that hold a number: the field of Conditions, and what reads it; blank is as published."""

WORDS = ("tempered", "looked_at")
"""The fields that choose something."""


def as_published(recipe: Recipe) -> Conditions:
    """The conditions without a reader: the kitchen's temperatures, and the pH measured on the recipe.

    Source:
        assumption, common-practice (the temperatures, in model_constants.csv).
    """
    kitchen = constants("kitchen")
    return Conditions(
        bowl_c=kitchen["room"],
        room_c=kitchen["room"],
        target_c=kitchen["spreading"],
        cold_c=kitchen["refrigerator"],
        ph=recipe.measured.ph,
    )


def with_field(conditions: Conditions, recipe: Recipe, name: str, written: str) -> Conditions:
    """The conditions after one field was filled in; a blank one is as published.

    Raises:
        InputError: for a value that cannot be used.
    """
    if name in FIELDS:
        attribute, reader = FIELDS[name]
        value = reader(written) if written.strip() else getattr(as_published(recipe), attribute)
        changed: dict[str, Any] = {attribute: value}
        return replace(conditions, **changed)
    if name == "tempered":
        if written and written not in [ingredient.key for ingredient in recipe.ingredients]:
            raise InputError(f"the recipe has no {written!r}", "choose one listed")
        return replace(conditions, tempered=written)
    stages = [str(number) for number in range(len(recipe.stages) - 1)]
    if written and written not in stages:
        raise InputError(f"there is no stage {written!r} to look at", "choose one listed")
    return replace(conditions, looked_at=int(written) if written else None)


def condition_fields(conditions: Conditions) -> dict[str, str]:
    """Every field with its text, as the form shows it; empty where nothing is told.

    >>> from calc.recipe.conditions import Conditions
    >>> condition_fields(Conditions(bowl_c=20, room_c=20, target_c=21.5, cold_c=4))["target_temperature"]
    '21.5'
    """
    shown = {name: _shown(getattr(conditions, attribute)) for name, (attribute, _) in FIELDS.items()}
    looked_at = "" if conditions.looked_at is None else str(conditions.looked_at)
    return {**shown, "tempered": conditions.tempered, "looked_at": looked_at}


def changed_fields(conditions: Conditions, recipe: Recipe) -> dict[str, str]:
    """The fields that differ from what is published: their part of the state, each in one way only."""
    published = condition_fields(as_published(recipe))
    return {
        name: written
        for name, written in condition_fields(conditions).items()
        if written and written != published[name]
    }


def _shown(value: float | None) -> str:
    return "" if value is None else f"{value:.6f}".rstrip("0").rstrip(".")
