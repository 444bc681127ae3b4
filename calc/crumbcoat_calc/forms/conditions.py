"""What a reader enters about their kitchen: temperatures, the mixer, a chilled bowl, a measured pH."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import partial
from typing import Any

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.our_readings import NO_READINGS, OurReadings
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.values.display import plain_number_text
from crumbcoat_calc.values.fields import did_you_mean
from crumbcoat_calc.values.form_fields import read_field, state_number
from crumbcoat_calc.values.temperatures import celsius
from crumbcoat_calc.values.units import between, number_and_words, unit_name
from crumbcoat_calc.values.written_times import seconds


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """Conditions in the reader's kitchen; temperatures in °C; None for a field left blank.

    `bowl_c` is the temperature of the mixture at rest, `room_c` that of ingredients without a temperature of their
    own, `target_c` the wanted one, `cold_c` that of the refrigerator, `hands_c` that of hands, and `warm_to_c` that to
    which a chilled cake warms. `temperatures_c` has those of ingredients by key, where they differ from the recipe.
    `tempered` is the key of the ingredient to cool or warm to reach the target, empty for the wettest one. `looked_at`
    is the stage shown in full, counted from 0, or None for the finished batch. `mixer_w` is the power that the mixer
    draws beyond idling. The chilling fields are one pair of readings from the reader's own bowl, and `ours` is what the
    author's own batches say.
    """

    bowl_c: float
    room_c: float
    target_c: float | None
    tempered: str = ""
    looked_at: int | None = None
    mixer_w: float | None = None
    mixer_min: float | None = None
    chilled_from_c: float | None = None
    chilled_to_c: float | None = None
    chilled_min: float | None = None
    cold_c: float
    hands_c: float
    warm_to_c: float
    ph: float | None = None
    temperatures_c: Mapping[str, float] = field(default_factory=dict)
    ours: OurReadings = NO_READINGS


def degrees(written: str) -> float:
    """A temperature from a form; a number without a unit is in °C.

    >>> degrees("21"), degrees("68 F"), degrees("-18")
    (21.0, 20.0, -18.0)
    """
    bare = written.strip().lstrip("-−–").strip()
    words = number_and_words(bare, "20 °C")[1]
    return round(celsius(written if words else f"{written} °C"), 6)


def _number(lowest: int, highest: int) -> Callable[[str], float]:
    reader = between(Fraction(lowest), Fraction(highest))
    return lambda written: reader(written)


def _watts(written: str) -> float:
    count, words = number_and_words(written, "60")
    if words and unit_name(words) != "watt" and words != "W":
        raise InputError(f"{written!r} is not a power", "enter watts, such as `60`")
    return _number(0, 5000)(str(float(count)))


def _minutes(written: str) -> float:
    return _number(0, 10000)(state_number(seconds(written, bare="min", clock="min") / 60))


BEATEN_WITH_BUTTER = frozenset(
    (
        "condensed-milk buttercream",
        "cooked-flour buttercream",
        "custard buttercream",
        "egg-yolk buttercream",
        "emulsified milk frosting",
        "meringue buttercream",
        "sugar-and-butter frosting",
    )
)
"""Families that are beaten with butter near one temperature, and again if they were chilled (common practice)."""


NUMBER_FIELDS: Mapping[str, tuple[str, Callable[[str], float]]] = {
    "bowl_temperature": ("bowl_c", degrees),
    "room_temperature": ("room_c", degrees),
    "target_temperature": ("target_c", degrees),
    "mixer_watts": ("mixer_w", _watts),
    "mixer_minutes": ("mixer_min", _minutes),
    "chilled_from": ("chilled_from_c", degrees),
    "chilled_to": ("chilled_to_c", degrees),
    "chilled_minutes": ("chilled_min", _minutes),
    "cold_temperature": ("cold_c", degrees),
    "hands_temperature": ("hands_c", degrees),
    "warm_to": ("warm_to_c", degrees),
    "ph": ("ph", _number(0, 14)),
}
"""The numeric form fields: the field of Conditions and its reader. A blank field means the published value."""


def as_published(recipe: Recipe, ours: OurReadings = NO_READINGS) -> Conditions:
    """The conditions before a reader edits them: default kitchen temperatures, the recipe's measured pH, our mixer.

    The wanted temperature is that of beaten butter, for families that are beaten with it, unless the recipe itself
    says at the end to which temperature everything is brought.

    Source:
        assumption, common-practice (the temperatures, in model_constants.csv).
    """
    kitchen = constants("kitchen")
    brought = any(step.heat_to_c is not None or step.cool_to_c is not None for step in recipe.stages[-1].steps)
    return Conditions(
        bowl_c=kitchen["room"],
        room_c=kitchen["room"],
        target_c=kitchen["spreading"] if recipe.family in BEATEN_WITH_BUTTER and not brought else None,
        cold_c=kitchen["refrigerator"],
        hands_c=kitchen["hands"],
        warm_to_c=kitchen["to_eat"],
        ph=recipe.measured.ph,
        mixer_w=ours.mixer.value if ours.mixer else None,
        ours=ours,
    )


def is_condition(name: str) -> bool:
    """Whether this form field is a condition."""
    return name in NUMBER_FIELDS or name in CHOICE_FIELDS or name.startswith("temperature.")


def conditions_from(recipe: Recipe, state: Mapping[str, str], ours: OurReadings = NO_READINGS) -> Conditions:
    """The conditions in a form state; blank fields keep the published values.

    Raises:
        InputError: at the field that cannot be used.
    """
    if not state:
        return as_published(recipe, ours)
    changed: dict[str, Any] = {}
    temperatures_c: dict[str, float] = {}
    for name, written in state.items():
        if not written.strip():
            continue
        if name in NUMBER_FIELDS:
            attribute, reader = NUMBER_FIELDS[name]
            changed[attribute] = read_field(name, written, reader)
        elif name in CHOICE_FIELDS:
            changed[name] = read_field(name, written, partial(CHOICE_FIELDS[name], recipe))
        else:
            key = read_field(name, name.partition(".")[2], partial(_ingredient, recipe))
            temperatures_c[key] = read_field(name, written, degrees)
    return replace(as_published(recipe, ours), temperatures_c=temperatures_c, **changed)


def _ingredient(recipe: Recipe, key: str) -> str:
    known = [ingredient.key for ingredient in recipe.ingredients]
    if key not in known:
        raise InputError(f"the recipe has no {key!r}", did_you_mean(key, known, "choose one of its ingredients"))
    return key


def _stage(recipe: Recipe, written: str) -> int:
    stages = {str(number): number for number in range(len(recipe.stages) - 1)}
    if written not in stages:
        raise InputError(f"the recipe has no stage {written!r}", "choose one of its stages")
    return stages[written]


CHOICE_FIELDS: Mapping[str, Callable[[Recipe, str], object]] = {"tempered": _ingredient, "looked_at": _stage}
"""The form fields that choose an ingredient or a stage."""


def condition_fields(conditions: Conditions) -> dict[str, str]:
    """Every field with its text, as the form shows it; empty for a blank field.

    >>> from crumbcoat_calc.forms.conditions import Conditions
    >>> kitchen = Conditions(bowl_c=20, room_c=20, target_c=21.5, cold_c=4, hands_c=33, warm_to_c=16)
    >>> condition_fields(kitchen)["target_temperature"]
    '21.5'
    """
    shown = _exact_fields(conditions)
    for name, (attribute, reader) in NUMBER_FIELDS.items():
        if reader is degrees and shown[name]:
            shown[name] = degrees_text(getattr(conditions, attribute))
    return shown


def degrees_text(t_c: float) -> str:
    """A temperature in °C as a field shows it; the form state keeps what was typed exactly.

    >>> degrees_text(degrees("70 F"))
    '21.1'
    """
    return plain_number_text(t_c, 1)


def _exact_fields(conditions: Conditions) -> dict[str, str]:
    """Every field as the form state keeps it, with up to six decimals."""
    shown = {name: _field_text(getattr(conditions, attribute)) for name, (attribute, _) in NUMBER_FIELDS.items()}
    looked_at = "" if conditions.looked_at is None else str(conditions.looked_at)
    return {**shown, "tempered": conditions.tempered, "looked_at": looked_at}


def state_from_conditions(conditions: Conditions, recipe: Recipe) -> dict[str, str]:
    """The differences from the published conditions, with one spelling for each value."""
    published = as_published(recipe, conditions.ours)
    if conditions == published:
        return {}
    as_is = _exact_fields(published)
    state = {name: written for name, written in _exact_fields(conditions).items() if written and written != as_is[name]}
    for ingredient in recipe.ingredients:
        t_c = conditions.temperatures_c.get(ingredient.key)
        if t_c is not None and t_c != ingredient.temperature_c:
            state[f"temperature.{ingredient.key}"] = _field_text(t_c)
    return state


def _field_text(value: float | None) -> str:
    return "" if value is None else f"{value:.6f}".rstrip("0").rstrip(".")
