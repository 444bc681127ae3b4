"""Estimates as text: the value with its band, or the reason why there is none."""

from crumbcoat_calc.science.estimate import Estimated, Withheld
from crumbcoat_calc.values.display import number_text, plain_number_text, range_text


def estimate_text(estimated: Estimated, digits: int, unit: str) -> str:
    """The value with its band, unless rounding leaves no band.

    >>> from crumbcoat_calc.science.estimate import Estimate, Model
    >>> model = Model("a rule", "everywhere", "definition")
    >>> estimate_text(Estimate(64.12, 63.6, 64.6, model), 1, "%"), estimate_text(Estimate(2, 2, 2, model), 0, "g")
    ('64.1 % (63.6 to 64.6)', '2 g')
    >>> estimate_text(Withheld("there is no fat"), 1, "%")
    'not given: there is no fat'
    """
    if isinstance(estimated, Withheld):
        return f"not given: {estimated.reason}"
    value = number_text(estimated.value, digits)
    shown = f"{value} {unit}" if unit else value
    if estimated.low == estimated.value == estimated.high:
        return shown
    low, high = number_text(estimated.low, digits), number_text(estimated.high, digits)
    return shown if low == value == high else f"{shown} ({low} to {high})"


def mass_estimate_text(estimated: Estimated) -> str:
    """A mass with its band, each number as fine as on a scale: 0.01 g below 1 g, 0.1 g below 10 g, else 1 g.

    From 10 kg it is in kg.

    >>> from crumbcoat_calc.science.estimate import Estimate, Model
    >>> mass_estimate_text(Estimate(214.2, 205, 220, Model("a rule", "everywhere", "definition")))
    '214 g (205 to 220)'
    >>> mass_estimate_text(Estimate(3.71, 0, 16.4, Model("a rule", "everywhere", "definition")))
    '3.7 g (0 to 16)'
    """
    if isinstance(estimated, Withheld):
        return f"not given: {estimated.reason}"
    per, unit = (1000.0, "kg") if estimated.value >= 9999.5 else (1.0, "g")
    ends = (estimated.value / per, estimated.low / per, estimated.high / per)
    shown, low, high = [plain_number_text(end, 2 if end < 0.995 or per > 1 else 1 if end < 9.95 else 0) for end in ends]
    return f"{shown} {unit}" if low == shown == high else f"{shown} {unit} ({low} to {high})"


def cell_text(estimated: Estimated, digits: int, unit: str, *, band: bool = False) -> str:
    """The value alone, for a table that has no room for a band; or the band alone."""
    if isinstance(estimated, Withheld):
        return "not given"
    ends = (estimated.low, estimated.high) if band else (estimated.value, estimated.value)
    low, high = [f"{number_text(end, digits)} {unit}".rstrip() for end in ends]
    return range_text(low, high)
