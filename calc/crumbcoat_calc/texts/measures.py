"""A mass as the reader wants it shown: in g to the step of a scale, in ounces, or in cups and spoons of a system."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from crumbcoat_calc.foods.table import AS_IT_COMES, Food
from crumbcoat_calc.kitchen.household import SYSTEMS, in_cups_and_spoons, in_pieces
from crumbcoat_calc.kitchen.rounding import exact_fraction, fraction_text, round_to_fraction
from crumbcoat_calc.recipe.weighing import StepFor, scale_step, shown_step
from crumbcoat_calc.values.display import mass_text, plain_number_text, volume_text
from crumbcoat_calc.values.units import factor, is_volume

_OZ_STEP, _OZ_FINE_STEP = 0.05, 0.01
_OZ_FROM, _OZ_FINE_FROM = 1.0, 0.1
"""Ounces are shown to 0.05 from 1 oz on and to 0.01 below; what is less than 0.1 oz is shown in g (common practice)."""

_PIECES_WITHIN = 0.03
"""The error with which pieces, such as sticks of butter, may take the place of cups: that of cups themselves."""


_FEWEST_CUPS = Fraction(9, 40)
"""As many cups are a quarter cup; what is less is spoons (common practice)."""


@dataclass(frozen=True, slots=True)
class Measures:
    """How amounts are shown: the units, one of `forms.changes.UNITS`, and what the reader's scale resolves."""

    units: str
    step_g: float | None = None

    def step_for(self) -> StepFor:
        """To which step a batch is rounded, so that parts that are weighed alike add up."""
        if self.step_g is not None:
            return scale_step(self.step_g)
        return _ounce_step if self.units == "ounces" else shown_step

    def weighed(self, mass_g: float) -> str:
        """In g, to the step of the scale if there is one.

        >>> Measures("grams", 0.1).weighed(226.8), Measures("grams").weighed(226.8)
        ('226.8 g', '227 g')
        """
        if self.step_g is None or not _is_multiple(mass_g, self.step_g):
            return mass_text(mass_g)
        if mass_g >= 9999.5:
            return f"{plain_number_text(mass_g / 1000, 5)} kg"
        return f"{plain_number_text(mass_g, 2)} g"

    def mass(self, mass_g: float) -> str:
        """Of a mixture, which no cup is known for: in g or in ounces."""
        return ounces_text(mass_g) if self.units == "ounces" else self.weighed(mass_g)

    def mixture(self, mass_g: float) -> str:
        """Of what was mixed: where amounts are in US cups, in ounces with g behind, for a scale of either kind.

        >>> Measures("us").mixture(339), Measures("us").mixture(1.5), Measures("grams").mixture(339)
        ('11.95 oz (339 g)', '1.5 g', '339 g')
        """
        shown, grams = self.mass(mass_g), self.weighed(mass_g)
        ounces = ounces_text(mass_g) if self.units == "us" else shown
        return shown if ounces.endswith(" g") or ounces == shown else f"{ounces} ({grams})"

    def amount(self, kind: Food, mass_g: float, how: str = AS_IT_COMES, unit: str = "") -> str:
        """Of a food: as chosen, in g where the food has no weight for a cup or spoon, or there is less than one holds.

        Cups and spoons give way to pieces, such as sticks of butter, if the recipe has the food in this `unit` and they
        come within 3 % of the mass.

        >>> from crumbcoat_calc.foods.table import food
        >>> Measures("us").amount(food("butter_unsalted"), 255), Measures("us").amount(food("soy_lecithin"), 0.02)
        ('1 US cup + 2 US tbsp', '0.02 g')
        """
        if self.units in SYSTEMS and mass_g > 0:
            counted = in_pieces(kind, mass_g, unit, within=_PIECES_WITHIN) if unit and not is_volume(unit) else None
            return counted or measured_text(kind, mass_g, self.units, how) or self.weighed(mass_g)
        return self.mass(mass_g)


def measured_text(kind: Food, mass_g: float, system: str, how: str = AS_IT_COMES) -> str:
    """A mass in cups and spoons of a system, in the given state or as it comes; empty if no weight is known."""
    measured = in_cups_and_spoons(kind, mass_g, system, how)
    if measured is None and how != AS_IT_COMES:
        measured = in_cups_and_spoons(kind, mass_g, system)
    return measured or ""


def cups_text(volume_ml: float) -> str:
    """A volume in US cups to a quarter or a third, below a quarter cup in tablespoons to a half; in mL below one.

    >>> cups_text(816), cups_text(240), cups_text(30), cups_text(5)
    ('3½ US cups', '1 US cup', '2 US tbsp', '5 mL')
    """
    cups = exact_fraction(volume_ml / factor("us_cup", "millilitre"))
    if cups >= _FEWEST_CUPS:
        number = round_to_fraction(cups, (3, 4))
        return f"{fraction_text(number)} US cup{'s' if number > 1 else ''}"
    spoons = round_to_fraction(16 * cups, (2,))
    return f"{fraction_text(spoons)} US tbsp" if spoons >= 1 else volume_text(volume_ml)


def household_text(kind: Food, mass_g: float, system: str, unit: str, how: str) -> str:
    """A mass in the pieces of a unit, if the food is weighed by them, else in cups and spoons; empty if in neither."""
    if mass_g <= 0:
        return ""
    if not is_volume(unit):
        counted = in_pieces(kind, mass_g, unit)
        if counted is not None:
            return counted
    return measured_text(kind, mass_g, system, how)


def ounces_text(mass_g: float) -> str:
    """A mass in ounces, from one pound on in pounds and ounces; in g below 0.1 oz.

    Source:
        nist-hb44 (ounce and pound, exact).

    >>> ounces_text(113.4), ounces_text(500), ounces_text(1.5), ounces_text(4)
    ('4 oz', '1 lb 1.65 oz', '1.5 g', '0.14 oz')
    """
    mass_oz = mass_g / _ounce_g()
    if mass_oz < _OZ_FINE_FROM:
        return mass_text(mass_g)
    step = _OZ_STEP if mass_oz >= _OZ_FROM else _OZ_FINE_STEP
    hundredths = round(math.floor(mass_oz / step + 0.5 + 1e-9) * step * 100)
    pounds, rest = divmod(hundredths, 1600)
    shown = f"{rest / 100:.2f}".rstrip("0").rstrip(".")
    return " ".join([part for part in (f"{pounds} lb" if pounds else "", f"{shown} oz" if rest else "") if part])


def _ounce_step(parts_g: Sequence[float]) -> float | None:
    least = min([part_g for part_g in parts_g if part_g > 0], default=0.0) / _ounce_g()
    if least < _OZ_FINE_FROM:
        return None
    return (_OZ_STEP if least >= _OZ_FROM else _OZ_FINE_STEP) * _ounce_g()


@cache
def _ounce_g() -> float:
    return factor("ounce", "gram")


def _is_multiple(mass_g: float, step_g: float) -> bool:
    steps = mass_g / step_g
    return abs(steps - round(steps)) < 1e-6
