"""What a model gives: an estimate with its band, model and range, or the reason why it is withheld."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple


@dataclass(frozen=True, slots=True)
class Model:
    """Where an estimate comes from: the model in plain words, its range of validity, a key of sources.csv."""

    name: str
    validity: str
    source: str


class Estimate(NamedTuple):
    """A value with its band, in the unit that the field's name gives.

    The band covers what the tables, the models and the unknown contents leave open; it is not a confidence interval.
    """

    value: float
    low: float
    high: float
    model: Model


@dataclass(frozen=True, slots=True)
class Withheld:
    """There is no estimate, and why: an ingredient's content is unknown, or the model does not reach that far."""

    reason: str


Estimated = Estimate | Withheld


def outside(what: str, value: float, lowest: float, highest: float, unit: str) -> Withheld | None:
    """The reason to withhold an estimate if a value is outside a model's range.

    >>> outside("the temperature", 120.0, 0.0, 100.0, "°C").reason
    'the temperature, 120 °C, is outside the model: 0 to 100 °C'
    """
    if lowest <= value <= highest:
        return None
    return Withheld(f"{what}, {value:.4g} {unit}, is outside the model: {lowest:g} to {highest:g} {unit}")


def increasing_root(function: Callable[[float], float], low: float, high: float) -> float | None:
    """The zero of an increasing function between two points, to 1e-6 of the argument; None if there is none.

    False position (Illinois form), with halving where that is slow; it never leaves the bracket.

    >>> increasing_root(lambda x: x * x - 2, 0, 2)
    1.414214
    """
    at_low, at_high = function(low), function(high)
    rounding = 1e-9 * (at_high - at_low)
    if at_low > rounding or at_high < -rounding:
        return None
    side = 0
    for turn in range(200):
        if high - low < 1e-6 or at_high == at_low:
            break
        middle = (low + high) / 2 if turn % 4 == 3 else (low * at_high - high * at_low) / (at_high - at_low)
        value = function(middle)
        if value == 0:
            return round(middle, 6)
        if value > 0:
            high, at_high = middle, value
            if side == 1:
                at_low /= 2
            side = 1
        else:
            low, at_low = middle, value
            if side == -1:
                at_high /= 2
            side = -1
    return round((low + high) / 2, 6)
