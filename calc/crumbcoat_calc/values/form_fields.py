"""Form state: texts by field name, with exactly one spelling for each value."""

from collections.abc import Callable
from typing import TypeVar

from crumbcoat_calc.errors import EmptyFieldError, InputError
from crumbcoat_calc.values.fields import nearest_of
from crumbcoat_calc.values.units import number
from crumbcoat_calc.values.written_numbers import plain_numbers

T = TypeVar("T")


def read_field(name: str, value: str, reader: Callable[[str], T], *, has_numbers: bool = True) -> T:
    """Read a field's value with `reader`; an error gets the field's path, `amount.milk` as ("amount", "milk").

    Numbers in it may be written as people write them, in any script; a text that only looks like one stays as it is.
    """
    try:
        return reader(plain_numbers(value) if has_numbers else value)
    except InputError as error:
        # What else it says of an empty value is for those who write recipe files.
        remedy = "fill it in, or undo" if isinstance(error, EmptyFieldError) else error.remedy
        raise InputError(error.problem, remedy, tuple(name.split(".")), error.choices) from None


def state_number(value: float) -> str:
    """A number as a form state holds it.

    >>> state_number(2.50), state_number(0), state_number(1 / 3)
    ('2.5', '0', '0.333333333')
    """
    shown = f"{value:.9f}".rstrip("0").rstrip(".")
    return shown or "0"


def number_from(written: str) -> float:
    """A number without a unit, zero or more."""
    return float(number(written))


def choice_from(written: str, known: tuple[str, ...], what: str) -> str:
    """One of the known words; `what` is the noun for them in the error."""
    if written not in known:
        raise InputError(f"unknown {what} {written!r}", nearest_of(written, known))
    return written
