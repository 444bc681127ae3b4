"""The lines of a nutrition label: what is declared, from which component, by which rule."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from math import fsum
from types import MappingProxyType

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.bounds import WITHOUT_FIBRE, Range
from crumbcoat_calc.foods.components import COMPONENTS
from crumbcoat_calc.foods.composition import (
    ENERGY_NEEDS,
    Mixture,
    energy_ranges,
    salt_g,
    says_something,
    with_margin,
)
from crumbcoat_calc.foods.label_rounding import declare
from crumbcoat_calc.tables import load_rows, number_in
from crumbcoat_calc.values.display import NOT_KNOWN
from crumbcoat_calc.values.exact import exact_decimal

_MOST_PER_G = {"kcal": 9.0, "kJ": 37.0, "g": 1.0, "mg": 10.0}
"""About the most of each unit that a g of food has."""


NO_MORE: Mapping[str, float] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Nutrient:
    """A line that a label has: `indent` is 0, 1 or 2; `property` is schema.org's, None where it has none."""

    regime: str
    key: str
    name: str
    indent: int
    component: str
    unit: str
    rule: str
    daily_value: str | None
    property: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelLine:
    """A line of one label, for one amount of food.

    `amount` is the unrounded value in `nutrient.unit`, None where it is not known; `missing` names the ingredients
    that hide it. `percent` is the declared percentage of the daily value, where there is one.
    """

    nutrient: Nutrient
    amount: float | None
    declared: str | None
    percent: str | None
    missing: tuple[str, ...]

    @property
    def text(self) -> str:
        """The declared amount with its unit.

        A line that leans on what is not known says so.
        """
        return NOT_KNOWN if self.declared is None else f"{self.declared} {self.nutrient.unit}"

    @property
    def percent_text(self) -> str:
        """The declared percentage of the daily value; empty where the label has none."""
        return "" if self.percent is None else f"{self.percent} %"


@cache
def nutrients(regime: str) -> tuple[Nutrient, ...]:
    """The lines of the `us` or the `eu` label, in their order."""
    return tuple(
        row for row in load_rows("label_nutrients", _nutrient_from, ("regime", "place")) if row.regime == regime
    )


@cache
def daily_values() -> Mapping[str, float]:
    """The daily value of each nutrient for adults and children of 4 years or more, in its own unit.

    Source:
        cfr-101-9 (c)(8)(iv), (c)(9).

    >>> daily_values()["total fat"]
    78.0
    """
    return dict(
        load_rows(
            "daily_values", lambda cells: (cells["nutrient"], number_in(cells, "amount", 0.1, 5000)), ("nutrient",)
        )
    )


@cache
def us_energy_factors() -> Mapping[str, float]:
    """Energy in kcal per g of each component, by the general factors."""
    return dict(
        load_rows(
            "us_energy_factors",
            lambda cells: (cells["component"], number_in(cells, "kcal_per_g", 0, 10)),
            ("component",),
        )
    )


def us_energy_kcal(mixture: Mixture) -> Range:
    """The least and the most energy by the general factors, fibre counted as carbohydrate.

        kcal = 4 protein + 4 carbohydrate + 9 fat + 7 alcohol

    Source:
        cfr-101-9 (c)(1)(i)(B); alcohol from memory.

    >>> from crumbcoat_calc.foods.composition import mixture_of
    >>> from crumbcoat_calc.foods.table import food
    >>> us_energy_kcal(mixture_of(food("sugar_granulated"), 100))
    (399.92, 399.92)
    """
    kcal = fsum(per_g * mixture.at_least(component) for component, per_g in us_energy_factors().items())
    return with_margin(kcal, mixture, "us_energy_kcal")


def label_lines(
    regime: str, mixture: Mixture, mass_g: float, more: Mapping[str, float] = NO_MORE
) -> tuple[LabelLine, ...]:
    """The label's lines for a mass of the mixture.

    Args:
        regime: `us` or `eu`.
        mass_g: above zero.
        more: what is added to components of the whole mixture, in the unit of their names.

    Raises:
        InputError: if there is no mixture, or `mass_g` is not above zero.
    """
    if mixture.mass_g <= 0:
        raise InputError("there is nothing to declare", "give an ingredient with an amount")
    if mass_g <= 0:
        raise InputError(f"a label for {mass_g:g} g declares nothing", "give more than 0 g")
    share = mass_g / mixture.mass_g
    part = mixture.times(share)
    return tuple(_line(nutrient, part, share * more.get(nutrient.component, 0.0)) for nutrient in nutrients(regime))


def _line(nutrient: Nutrient, part: Mixture, more: float) -> LabelLine:
    span, needs = _range(nutrient, part)
    span = (max(0.0, span[0] + more), max(0.0, span[1] + more))
    hidden = tuple(dict.fromkeys([name for component in needs for name in part.missing.get(component, ())]))
    low, high = span
    amount = low if not hidden or low == high else None
    if low < high and not says_something(low, high, _MOST_PER_G.get(nutrient.unit, 0.0) * part.mass_g):
        return LabelLine(nutrient=nutrient, amount=None, declared=None, percent=None, missing=hidden)
    declared = _declared(nutrient.rule, low, high)
    percent = None
    if nutrient.daily_value:
        percent = _range_of(*[_percent_of_daily_value(nutrient, end) for end in span])
    return LabelLine(
        nutrient=nutrient,
        amount=amount,
        declared=declared,
        percent=percent,
        missing=hidden if amount is None and " to " in declared + (percent or "") else (),
    )


def _declared(rule: str, low: float, high: float) -> str:
    """One figure where the band is narrower than a step of the rounding, else a range.

    A declaration is one average figure: eu-1169-2011, Art. 31(4).

    >>> _declared("eu-energy", 1916.4, 1916.6), _declared("eu-salt", 0.444, 0.446), _declared("eu-energy", 1915, 1918)
    ('1917', '0.45', '1915 to 1918')
    """
    ends = declare(rule, low), declare(rule, high)
    middle = declare(rule, (low + high) / 2)
    if ends[0] != ends[1] and middle in ends:
        steps = [_number(end) for end in ends]
        if None not in steps and high - low < (steps[1] or 0.0) - (steps[0] or 0.0):
            return middle
    return _range_of(*ends)


def _number(declared: str) -> float | None:
    return float(declared) if declared.replace(".", "").isdecimal() else None


def _range_of(low: str, high: str) -> str:
    return low if low == high else f"{low} to {high}"


def _percent_of_daily_value(nutrient: Nutrient, amount: float) -> str:
    assert nutrient.daily_value is not None
    share = 100 * exact_decimal(amount) / Decimal(repr(daily_values()[nutrient.daily_value]))
    return declare("us-vitamin-percent" if nutrient.rule.startswith("us-rdi") else "us-percent", share)


def _range(nutrient: Nutrient, part: Mixture) -> tuple[Range, tuple[str, ...]]:
    component = nutrient.component
    if component in ("energy_kcal", "energy_kj"):
        if nutrient.regime == "us":
            return us_energy_kcal(part), tuple(us_energy_factors())
        return energy_ranges(part)[component == "energy_kj"], ENERGY_NEEDS
    if component == WITHOUT_FIBRE:
        # Carbohydrate is by difference and may come out a little below the fibre that was assayed.
        lowest = max(0.0, part.at_least("carbohydrate_g") - part.at_least("fibre_g"))
        return _not_below_sugars(with_margin(lowest, part, WITHOUT_FIBRE), part), ("carbohydrate_g", "fibre_g")
    if component == "carbohydrate_g":
        return _not_below_sugars((part.at_least(component), part.at_most(component)), part), (component,)
    if component == "salt_g":
        return salt_g(part), ("sodium_mg",)
    return (part.at_least(component), part.at_most(component)), (component,)


def _not_below_sugars(carbohydrate: Range, part: Mixture) -> Range:
    """Carbohydrate is what the other contents leave of 100 g, and may come out below the sugars that were assayed."""
    sugars_g = part.at_least("sugars_g")
    return max(carbohydrate[0], sugars_g), max(carbohydrate[1], sugars_g)


def _nutrient_from(cells: dict[str, str]) -> Nutrient:
    computed = ("energy_kcal", "energy_kj", "carbohydrate_without_fibre_g", "salt_g")
    if cells["component"] not in (*COMPONENTS, *computed):
        raise ValueError(f"there is no component {cells['component']!r}")
    daily_value = None if cells["daily_value"] == "-" else cells["daily_value"]
    if daily_value is not None and daily_value not in daily_values():
        raise ValueError(f"there is no daily value of {daily_value!r}")
    return Nutrient(
        regime=cells["regime"],
        key=cells["key"],
        name=cells["name"],
        indent=int(cells["indent"]),
        component=cells["component"],
        unit=cells["unit"],
        rule=cells["rule"],
        daily_value=daily_value,
        property=None if cells["property"] == "-" else cells["property"],
    )
