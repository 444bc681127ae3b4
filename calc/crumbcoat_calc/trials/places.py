"""Places in a method as a card numbers them, such as `2.3` -> Place."""

import re

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.trials.model import Place
from crumbcoat_calc.values.fields import text

_PLACE = re.compile(r"([0-9]{1,3})(?:\.([0-9]{1,3}))?")


def place_from(value: object) -> Place:
    """Read a place in the method: a stage, or a stage and a step, as the card numbers them.

    >>> place_from("2.3"), place_from("1").written
    (Place(stage=1, step=2), '1')
    """
    written = text(value)
    found = _PLACE.fullmatch(written)
    if not found or "0" in (found[1], found[2]):
        raise InputError(f"{written[:40]!r} is not a place in the method", "write a stage and a step, such as `2.3`")
    return Place(stage=int(found[1]) - 1, step=int(found[2]) - 1 if found[2] else None)


def step_from(value: object) -> Place:
    """Read a place that must be a step."""
    found = place_from(value)
    if found.step is None:
        problem = f"{found.written!r} is a stage, and a step is needed here"
        raise InputError(problem, f"name one of its steps, such as `{found.written}.1`")
    return found
