"""Estimates as text: the value, its band behind it, or the reason why there is none."""

from crumbcoat_calc.science.estimate import Estimated, Withheld
from crumbcoat_calc.values.display import number_text, plain_number_text


def estimate_text(answer: Estimated, digits: int, unit: str) -> str:
    """The value with its band, where rounding leaves one.

    >>> from crumbcoat_calc.science.estimate import Estimate, Model
    >>> model = Model("a rule", "everywhere", "definition")
    >>> estimate_text(Estimate(64.12, 63.6, 64.6, model), 1, "%"), estimate_text(Estimate(2, 2, 2, model), 0, "g")
    ('64.1 % (63.6 to 64.6)', '2 g')
    >>> estimate_text(Withheld("there is no fat"), 1, "%")
    'not given: there is no fat'
    """
    if isinstance(answer, Withheld):
        return f"not given: {answer.reason}"
    value, low = number_text(answer.value, digits), number_text(answer.low, digits)
    high = number_text(answer.high, digits)
    shown = f"{value} {unit}" if unit else value
    return shown if low == value == high else f"{shown} ({low} to {high})"


def mass_estimate_text(answer: Estimated) -> str:
    """A mass with its band, as fine as a scale shows it: 0.01 g below 1 g, 0.1 g below 10 g, else 1 g; kg from 10 kg.

    >>> from crumbcoat_calc.science.estimate import Estimate, Model
    >>> mass_estimate_text(Estimate(214.2, 205, 220, Model("a rule", "everywhere", "definition")))
    '214 g (205 to 220)'
    """
    if isinstance(answer, Withheld):
        return f"not given: {answer.reason}"
    per, unit = (1000.0, "kg") if answer.value >= 9999.5 else (1.0, "g")
    value = answer.value / per
    digits = 2 if value < 0.995 or per > 1 else 1 if value < 9.95 else 0
    shown, low, high = [plain_number_text(part / per, digits) for part in (answer.value, answer.low, answer.high)]
    return f"{shown} {unit}" if low == shown == high else f"{shown} {unit} ({low} to {high})"


def cell_text(answer: Estimated, digits: int, unit: str) -> str:
    """The value alone, for a table that has no room for a band."""
    return "not given" if isinstance(answer, Withheld) else f"{number_text(answer.value, digits)} {unit}"
