"""The rounding rules of nutrition labels: bands chosen by the unrounded value, exact halves up, in decimals."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from functools import cache

from crumbcoat_calc.tables import load_rows
from crumbcoat_calc.values.exact import exact_decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundingBand:
    """Values up to a bound, and what is declared of them: the nearest step, or a fixed text."""

    rule: str
    up_to: Decimal
    closed: bool
    step: Decimal | None
    declared: str | None


def declare(rule: str, value: float | Decimal) -> str:
    """The value as the rule has it declared: a number, or words such as `less than 5`.

    The band is chosen by the unrounded value (this reading of the rules is ours); an exact half goes up:

        declared = step * floor(value / step + 1/2)

    Args:
        rule: a rule of label_rounding.csv.
        value: zero or more, in the rule's unit.

    Raises:
        ValueError: for a negative value; a mixture has none.

    Source:
        cfr-101-9 (c), (d)(7)(ii); fda-rounding-2019; ec-tolerances-2012.

    >>> declare("us-fat", 4.75), declare("us-cholesterol", 3), declare("eu-salt", 0.456)
    ('5', 'less than 5', '0.46')
    """
    unrounded = value if isinstance(value, Decimal) else exact_decimal(value)
    if unrounded < 0:
        raise ValueError(f"{rule} cannot declare {value}")
    band = next(band for band in _rules()[rule] if unrounded < band.up_to or (band.closed and unrounded == band.up_to))
    if band.step is None:
        return band.declared or ""
    return _plain((unrounded / band.step).quantize(Decimal(1), rounding=ROUND_HALF_UP) * band.step)


def declared_range(rule: str, declared: Decimal, decimals: int) -> tuple[float, float]:
    """The lowest and the highest value that a label prints as this number.

    Half a unit of its last decimal, or half the step of the rule if that is larger, to either side. Zero may be
    anything that the rule has declared as zero or as less than a bound.

    Args:
        rule: a rule of label_rounding.csv.
        declared: zero or more, in the rule's unit.
        decimals: how many the label shows, such as 1 for `5.0`.

    Source:
        derivation (the inverse of the rule).

    >>> declared_range("us-fat", Decimal(4), 0), declared_range("eu-nutrient", Decimal("61.2"), 1)
    ((3.5, 4.5), (61.15, 61.25))
    >>> declared_range("eu-salt", Decimal(0), 0)
    (0.0, 0.0125)
    """
    bands = _rules()[rule]
    if declared == 0:
        small = [band.up_to for band in bands if band.step is None]
        return 0.0, float(max(small)) if small else float((bands[0].step or 0) / 2)
    half = Decimal(5).scaleb(-decimals - 1)
    if rule.startswith("us-"):  # The steps of the EU are advice: many labels show a decimal more.
        half = max([half, *[band.step / 2 for band in bands if band.step and _within(band, bands, declared)]])
    return float(max(Decimal(0), declared - half)), float(declared + half)


def _within(band: RoundingBand, bands: tuple[RoundingBand, ...], declared: Decimal) -> bool:
    at = bands.index(band)
    return (at == 0 or declared >= bands[at - 1].up_to) and declared <= band.up_to


def _plain(number: Decimal) -> str:
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


@cache
def _rules() -> Mapping[str, tuple[RoundingBand, ...]]:
    rules: dict[str, tuple[RoundingBand, ...]] = {}
    for band in load_rows("label_rounding", _band_from, ("rule", "band")):
        before = rules.get(band.rule, ())
        if before and band.up_to <= before[-1].up_to:
            raise ValueError(f"the bands of {band.rule} do not rise")
        rules[band.rule] = (*before, band)
    for rule, bands in rules.items():
        if bands[-1].up_to.is_finite():
            raise ValueError(f"the bands of {rule} end at {bands[-1].up_to}")
    return rules


def _band_from(cells: dict[str, str]) -> RoundingBand:
    step = None if cells["step"] == "-" else Decimal(cells["step"])
    declared = None if cells["declared"] == "-" else cells["declared"]
    if (step is None) == (declared is None):
        raise ValueError("a band needs a step or a text, and not both")
    if cells["closed"] not in ("yes", "no"):
        raise ValueError(f"closed is {cells['closed']!r}, neither yes nor no")
    return RoundingBand(
        rule=cells["rule"],
        up_to=Decimal(cells["up_to"]),
        closed=cells["closed"] == "yes",
        step=step,
        declared=declared,
    )
