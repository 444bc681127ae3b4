"""What is noted at the bench about a batch, for its trial file: the fields of the card's form, and their readers.

The form state holds each with one spelling, without its unit: °C, g, mm and minutes.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.conditions import degrees
from crumbcoat_calc.forms.written_amounts import in_grams
from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.recipe.trial_words import MOST_TRIALS, OUTCOMES, SCALES, VERDICTS
from crumbcoat_calc.values.dates import date
from crumbcoat_calc.values.fields import line, one_of
from crumbcoat_calc.values.form_fields import read_field, state_number
from crumbcoat_calc.values.marks import prose
from crumbcoat_calc.values.units import between, brix_percent, millimetres, number_and_words, whole_number
from crumbcoat_calc.values.written_times import seconds

PREFIX = "trial."
"""What the names of the fields begin with, so that none is one of the batch."""

SEEN, WORKED, FAILED = "seen", "worked", "did not work"
"""What can be said of a sign of trouble: it was seen; and its remedy worked, or did not."""

TEST_FIELDS: Mapping[str, tuple[str, ...]] = {
    "keeping": ("where", "t_c", "time", "weeping", "height_lost", "note"),
    "piping": ("t_c", "rosettes", "note"),
    "holding": ("where", "t_c", "time", "height_lost", "note"),
    "freezing": ("time", "weeping", "note"),
    "smoothing": ("t_c", "note"),
    "colouring": ("note",),
}
"""The fields of each test, beside what it did."""

ATTRIBUTES = 3
"""How many attributes of a tasting the form has room for."""

Reader = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Notes:
    """What is noted, by the name of its field without the prefix, with one spelling for each value."""

    values: Mapping[str, str]

    def get(self, name: str, unit: str = "") -> str | None:
        """What is noted in a field, with its unit; None if nothing is."""
        value = self.values.get(name)
        return f"{value} {unit}" if value and unit else value


def is_note(name: str) -> bool:
    """Whether a field of a form state is one of these."""
    return name.startswith(PREFIX)


def notes_from(recipe: Recipe, state: Mapping[str, str]) -> Notes:
    """The notes in a form state.

    Raises:
        InputError: at the field that cannot be used.
    """
    fields, values = note_fields(recipe), {}
    for name, written in state.items():
        if name.removeprefix(PREFIX) not in fields:
            raise InputError("the recipe has no such place to note anything", "leave it out", tuple(name.split(".")))
        reader = fields[name.removeprefix(PREFIX)]
        if written.strip():
            is_words = reader is line or reader is prose
            values[name.removeprefix(PREFIX)] = read_field(name, written, reader, has_numbers=not is_words)
    for at in range(ATTRIBUTES):
        scale = int(values.get(f"tasted.{at}.scale", SCALES[-1]))
        name = f"tasted.{at}.marks"
        read_field(f"{PREFIX}{name}", values.get(name, ""), partial(_check_marks, scale))
    return Notes({name: values[name] for name in fields if name in values})


def note_fields(recipe: Recipe) -> dict[str, Reader]:
    """The reader of each field of the form, by its name without the prefix, in the order of the form."""
    found: dict[str, Reader] = {
        "number": lambda written: str(whole_number(1, MOST_TRIALS)(written)), "date": date, "letters": _letters,
        "who": line, "aim": prose,
    }  # fmt: skip
    found |= {f"weighed.{ingredient.key}": _more_than_no_mass for ingredient in recipe.ingredients}
    for at in range(len(recipe.stages) - 1):
        found |= {f"after.{at}.t_c": _t_c, f"after.{at}.mass": _mass_g}
    found |= {
        "finished.t_c": _t_c, "finished.mass": _mass_g, "finished.brix": _brix, "finished.water_activity": _activity,
        "finished.spread": _mm, "finished.penetration": _mm, "finished.note": prose,
    }  # fmt: skip
    for place, step in _steps(recipe):
        if is_mixed(step):
            found |= {f"mixed.{place}.from_c": _t_c, f"mixed.{place}.to_c": _t_c, f"mixed.{place}.time": _minutes}
        if step.checkpoint:
            found[f"right.{place}"] = _yes
            found |= {f"seen.{place}.{at}": _SEEN for at in range(len(step.checkpoint.troubles))}
    for test, names in TEST_FIELDS.items():
        found |= {f"{test}.did": _OUTCOME, **{f"{test}.{name}": _OF_A_TEST[name] for name in names}}
    for at in range(ATTRIBUTES):
        found |= {f"tasted.{at}.attribute": line, f"tasted.{at}.scale": _SCALE}
        found |= {f"tasted.{at}.marks": line, f"tasted.{at}.code": line}
    return found | {"did": _OUTCOME, "verdict": _VERDICT, "because": prose}


def is_mixed(step: Step) -> bool:
    """Whether a machine mixes at a step, so that it may warm the batch."""
    return step.speed is not None and step.speed != "by hand"


def marks_of(written: str) -> list[str]:
    """The marks of a tasting, one for each person.

    >>> marks_of("7, 8  6;9")
    ['7', '8', '6', '9']
    """
    return [mark for mark in re.split(r"[\s,;]+", written) if mark]


def _steps(recipe: Recipe) -> list[tuple[str, Step]]:
    return [
        (f"{stage_number}.{step_number}", step)
        for stage_number, stage in enumerate(recipe.stages)
        for step_number, step in enumerate(stage.steps)
    ]


def _letters(written: str) -> str:
    if not re.fullmatch("[a-z]{4}", written):
        raise InputError(f"{written[:20]!r} is not four letters", "use small letters from a to z")
    return written


def _yes(written: str) -> str:
    return one_of("yes")(written)


def _t_c(written: str) -> str:
    return state_number(degrees(written))


def _mass_g(written: str) -> str:
    return state_number(in_grams(written))


def _more_than_no_mass(written: str) -> str:
    mass_g = in_grams(written)
    if mass_g <= 0:
        raise InputError("nothing was weighed here", "leave the ingredient out of the batch, or empty the field")
    return state_number(mass_g)


def _mm(written: str) -> str:
    return state_number(millimetres(written if number_and_words(written, "2 mm")[1] else f"{written} mm"))


def _minutes(written: str) -> str:
    time_s = seconds(written, bare="min", clock="min", example="8 min")
    if not time_s:
        raise InputError("the mixer did not run", "write how long it ran, such as `8 min`, or empty the field")
    return state_number(time_s / 60)


def _time(written: str) -> str:
    if not seconds(written, example="3 days"):
        raise InputError(f"{written!r} is not a time", "write one such as `3 days`, or empty the field")
    return line(written)


def _brix(written: str) -> str:
    return state_number(brix_percent(written))


def _activity(written: str) -> str:
    return state_number(between(Fraction(0), Fraction(1))(written))


def _rosettes(written: str) -> str:
    return str(whole_number(0, 1000)(written))


def _check_marks(scale: int, written: str) -> None:
    for mark in marks_of(written):
        whole_number(1, scale)(mark)


_SEEN, _OUTCOME, _VERDICT = one_of(SEEN, WORKED, FAILED), one_of(*OUTCOMES), one_of(*VERDICTS)
_SCALE = one_of(*map(str, SCALES))
_OF_A_TEST: Mapping[str, Reader] = {
    "where": line, "t_c": _t_c, "time": _time, "weeping": _mm, "height_lost": _mm, "rosettes": _rosettes, "note": prose,
}  # fmt: skip
