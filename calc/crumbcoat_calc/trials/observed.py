"""Outside data -> what was read, seen, tested and tasted in a trial."""

import difflib
import re
from collections.abc import Mapping
from fractions import Fraction

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import written_unit
from crumbcoat_calc.kitchen.density import CUPS, density_of_measure
from crumbcoat_calc.recipe.model import PLACES
from crumbcoat_calc.recipe.other_words import ALSO_PLACES
from crumbcoat_calc.recipe.own_food import density_from
from crumbcoat_calc.recipe.trial_words import SCALES
from crumbcoat_calc.trials.model import (
    COMPARISONS,
    OUTCOMES,
    TESTS,
    BatchTest,
    Chilling,
    Comparison,
    Picture,
    Reading,
    Seen,
    Tasting,
    Warming,
)
from crumbcoat_calc.trials.places import place_from, step_from
from crumbcoat_calc.values.fields import each, line, mapping, nearest_of, one_of, only, take, take_or, text, yes_no
from crumbcoat_calc.values.marks import prose
from crumbcoat_calc.values.temperatures import celsius
from crumbcoat_calc.values.units import between, brix_percent, grams, millimetres, unit_name, whole_number
from crumbcoat_calc.values.written_times import seconds

READING_FIELDS = (
    "at", "temperature", "mass", "density", "cup", "cup_weighs", "ph", "brix", "water_activity", "spread",
    "penetration", "note",
)  # fmt: skip
MIXING_FIELDS = ("at", "from", "to", "time")
CHILLING_FIELDS = ("from", "to", "time", "cold")
SEEN_FIELDS = ("at", "sign", "remedy", "worked")
TEST_FIELDS = ("test", "did", "where", "temperature", "time", "weeping", "height_lost", "rosettes", "note")
TASTED_FIELDS = ("attribute", "scale", "marks", "code")
COMPARED_FIELDS = ("test", "against", "people", "right", "chose", "asked")
PICTURE_FIELDS = ("file", "shot")

_PICTURE = re.compile(r"[^/\\]+\.[A-Za-z0-9]+")


def reading_from(value: object) -> Reading:
    """What was read off instruments at one place, or of the finished batch."""
    fields = mapping(value)
    only(fields, READING_FIELDS)
    if not set(fields) - {"at", "note"}:
        problem = "nothing was read here"
        raise InputError(problem, "add what was read, such as `temperature: 21 °C`, or delete the entry")
    return Reading(
        at=take_or(fields, "at", place_from, None),
        temperature_c=take_or(fields, "temperature", celsius, None),
        mass_g=take_or(fields, "mass", grams, None),
        density_g_per_ml=_density(fields),
        ph=take_or(fields, "ph", between(Fraction(0), Fraction(14)), None),
        brix_percent=take_or(fields, "brix", brix_percent, None),
        water_activity=take_or(fields, "water_activity", between(Fraction(0), Fraction(1)), None),
        spread_mm=take_or(fields, "spread", millimetres, None),
        penetration_mm=take_or(fields, "penetration", millimetres, None),
        note=take_or(fields, "note", prose, None),
    )


def _density(fields: Mapping[str, object]) -> float | None:
    """The density that is written, or that a weighed cup gives."""
    if "density" in fields and "cup_weighs" in fields:
        raise InputError("there are both a `density` and a weighed cup", "keep one of them", ("density",))
    if "cup_weighs" not in fields:
        take_or(fields, "cup", _cup, None)
        return take_or(fields, "density", density_from, None)
    cup = take_or(fields, "cup", _cup, CUPS[0])
    return take(fields, "cup_weighs", lambda written: density_of_measure(grams(written), cup))


def _cup(value: object) -> str:
    """A measure that can be filled level and weighed.

    >>> _cup("US cup"), _cup("1 metric cup")
    ('us_cup', 'metric_cup')
    """
    words = line(value).removeprefix("1 ")
    found = unit_name(words)
    if found not in CUPS:
        names = map(written_unit, CUPS)
        raise InputError(f"{words[:40]!r} is not a measure for this", nearest_of(words, names))
    return found


def _time(value: object) -> float:
    found = seconds(value, example="8 min")
    if not found:
        raise InputError(f"{text(value)!r} is not a time that this can take", "write one such as `8 min`")
    return found


def mixing_from(value: object) -> Warming:
    """What a mixer did to the temperature."""
    fields = mapping(value)
    only(fields, MIXING_FIELDS)
    return Warming(
        at=take_or(fields, "at", step_from, None),
        from_c=take(fields, "from", celsius),
        to_c=take(fields, "to", celsius),
        time_s=take(fields, "time", _time),
    )


def chilling_from(value: object) -> Chilling:
    """How a batch cooled in a cold place."""
    fields = mapping(value)
    only(fields, CHILLING_FIELDS)
    from_c, to_c, cold_c = (take(fields, name, celsius) for name in ("from", "to", "cold"))
    if not cold_c < to_c < from_c:
        problem = f"a batch at {from_c:g} °C does not cool to {to_c:g} °C in a place at {cold_c:g} °C"
        raise InputError(problem, "check the three temperatures: `cold` below `to`, and `to` below `from`", ("to",))
    return Chilling(from_c=from_c, to_c=to_c, cold_c=cold_c, time_s=take(fields, "time", _time))


def seen_from(value: object) -> Seen:
    """What was seen at a checkpoint."""
    fields = mapping(value)
    only(fields, SEEN_FIELDS)
    remedy = take_or(fields, "remedy", prose, None)
    if "worked" in fields and remedy is None:
        raise InputError("`worked` is about a remedy, and none is given", "add `remedy: …`", ("worked",))
    return Seen(
        at=take(fields, "at", step_from),
        sign=take(fields, "sign", prose),
        remedy=remedy,
        worked=take_or(fields, "worked", yes_no, None),
    )


def batch_test_from(value: object) -> BatchTest:
    """A test of the finished batch."""
    fields = mapping(value)
    only(fields, TEST_FIELDS)
    return BatchTest(
        test=take(fields, "test", one_of(*TESTS)),
        did=take(fields, "did", outcome),
        where=take_or(fields, "where", _where, None),
        temperature_c=take_or(fields, "temperature", celsius, None),
        time_s=take_or(fields, "time", _time, None),
        weeping_mm=take_or(fields, "weeping", millimetres, None),
        height_lost_mm=take_or(fields, "height_lost", millimetres, None),
        rosettes=take_or(fields, "rosettes", whole_number(0, 1000), None),
        note=take_or(fields, "note", prose, None),
    )


def outcome(value: object) -> str:
    """What a batch did, a word of OUTCOMES; only a word that is nearly the same is proposed: `melted` is not `held`."""
    try:
        return one_of(*OUTCOMES)(value)
    except InputError as error:
        near = difflib.get_close_matches(text(value).lower(), OUTCOMES, n=1, cutoff=0.75)
        listed = f"use one of: {', '.join(OUTCOMES)}"
        raise InputError(error.problem, f"did you mean {near[0]!r}? Else {listed}" if near else listed) from None


def _where(value: object) -> str:
    """A place where a batch is kept, as a recipe has it; or another one, such as `on a table in the sun`."""
    try:
        return one_of(*PLACES, also=ALSO_PLACES)(value)
    except InputError:
        return line(value)


def tasting_from(value: object) -> Tasting:
    """The marks of a tasting for one attribute."""
    fields = mapping(value)
    only(fields, TASTED_FIELDS)
    scale = take_or(fields, "scale", _scale, SCALES[-1])
    return Tasting(
        attribute=take(fields, "attribute", line),
        scale=scale,
        marks=take(fields, "marks", each(whole_number(1, scale), at_least=1)),
        code=take_or(fields, "code", line, None),
    )


def _scale(value: object) -> int:
    found = whole_number(1, 100)(value)
    if found not in SCALES:
        raise InputError(f"a scale from 1 to {found} is not one of ours", "use `9`, the hedonic scale, or `5`")
    return found


def comparison_from(value: object) -> Comparison:
    """A blind comparison with another trial: `right` of a triangle test, `chose` of a paired one."""
    fields = mapping(value)
    only(fields, COMPARED_FIELDS)
    test = take(fields, "test", one_of(*COMPARISONS))
    triangle, _ = COMPARISONS
    count, other = ("right", "chose") if test == triangle else ("chose", "right")
    if other in fields:
        problem, means = (
            f"`{other}` is not of a {test} test",
            {"right": "found the odd one", "chose": "chose this batch"},
        )
        raise InputError(problem, f"write `{count}`: how many {means[count]}", (other,))
    people = take(fields, "people", whole_number(1, 10000))
    return Comparison(
        test=test,
        against=take(fields, "against", whole_number(1, 9999)),
        people=people,
        count=take(fields, count, whole_number(0, people)),
        asked=take_or(fields, "asked", prose, None),
    )


def picture_from(value: object) -> Picture:
    """A picture beside the trial file."""
    fields = mapping(value)
    only(fields, PICTURE_FIELDS)
    file = take(fields, "file", line)
    if not _PICTURE.fullmatch(file):
        problem = f"{file[:60]!r} is not the name of a file beside this one"
        raise InputError(problem, "write its name with the ending, without folders", ("file",))
    return Picture(file=file, shot=take_or(fields, "shot", line, "finished"))
