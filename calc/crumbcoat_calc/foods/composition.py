"""What a mixture is made of, by mass: the sum of its ingredients, where what is not known has bounds."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from math import fsum, inf
from types import MappingProxyType

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.bounds import Range, margins_of, range_of, ranges_of
from crumbcoat_calc.foods.components import COMPONENTS, INDEX
from crumbcoat_calc.foods.table import Food

_WATER = INDEX["water_g"]
_ZERO = (0.0,) * len(COMPONENTS)
_NONE = (0.0, 0.0)

WIDEST_SHARE, WIDEST_OF_MOST = 0.1, 0.5
"""The widest range that says something: a share of the whole, or of the most (common practice, no source)."""

SALT_PER_SODIUM = 2.5
"""Salt as g per g of sodium. Source: eu-1169-2011, Annex I: salt = sodium x 2.5."""

ENERGY_KCAL = {"protein_g": 4.0, "fat_g": 9.0, "alcohol_g": 7.0}
ENERGY_KJ = {"protein_g": 17.0, "fat_g": 37.0, "alcohol_g": 29.0}
"""Energy per g. Source: eu-1169-2011, Annex XIV; carbohydrate without fibre 4 kcal, 17 kJ and fibre 2 kcal, 8 kJ."""

ENERGY_NEEDS = ("protein_g", "fat_g", "carbohydrate_g", "alcohol_g", "fibre_g")
"""The components that the energy is computed from."""


@dataclass(frozen=True, slots=True)
class Mixture:
    """A mass of mixture, with the amount of each component in it.

    `known` is the amount of each of COMPONENTS, in the unit of its name, that is certain to be in it. `missing` lists,
    for a component, the ingredients whose content of it is not known exactly; `known` is then only a lower bound.
    `margins` says how far such a component can be above that, and energy below and above what `known` gives.
    """

    mass_g: float
    known: tuple[float, ...]
    missing: Mapping[str, tuple[str, ...]]
    margins: Mapping[str, Range] = field(default_factory=dict)

    def at_least(self, component: str) -> float:
        """The amount of a component that is certain, in the unit of its name; zero or more."""
        return self.known[INDEX[component]]

    def at_most(self, component: str) -> float:
        """The largest possible amount of a component, in the unit of its name; infinite if nothing bounds it."""
        known = self.known[INDEX[component]]
        return known + self.margins[component][1] if component in self.margins else known

    def amount(self, component: str) -> float | None:
        """The amount of a component; None if an ingredient's content of it is not known exactly."""
        return None if component in self.missing else self.known[INDEX[component]]

    def percents(self, component: str) -> Range | None:
        """The least and the most of a component in g per 100 g of mixture; None if nothing useful is known."""
        if self.mass_g <= 0:
            return None
        low, high = self.at_least(component), self.at_most(component)
        per_g = 100 / self.mass_g
        return (per_g * low, per_g * high) if says_something(low, high, self.mass_g) else None

    def percent(self, component: str) -> float | None:
        """A component in g per 100 g of mixture, the middle of its range; None if nothing useful is known."""
        if component not in self.missing:
            return None if self.mass_g <= 0 else 100 * self.known[INDEX[component]] / self.mass_g
        span = self.percents(component)
        return span and (span[0] + span[1]) / 2

    def __add__(self, other: "Mixture") -> "Mixture":
        known = tuple([a + b for a, b in zip(self.known, other.known, strict=True)])
        missing, margins = _joined(self.missing, other.missing), _added(self.margins, other.margins)
        return Mixture(self.mass_g + other.mass_g, known, missing, margins)

    def times(self, factor: float) -> "Mixture":
        """The mixture scaled by `factor`, zero or more."""
        known = tuple([factor * amount for amount in self.known])
        return Mixture(self.mass_g * factor, known, self.missing, _scaled(self.margins, factor))

    def without_water(self, water_g: float) -> "Mixture":
        """The mixture after `water_g` of water has boiled off.

        Raises:
            InputError: if it contains less water than that.
        """
        most = self.at_most("water_g")
        if water_g > most + 1e-9:
            problem = f"{water_g:.4g} g of water cannot boil off: there is only {most:.4g} g"
            raise InputError(problem, "reduce the loss, or add the liquid in an earlier step")
        known, margins = list(self.known), self.margins
        known[_WATER] = max(0.0, known[_WATER] - water_g)
        if "water_g" in margins:
            margins = {**margins, "water_g": (0.0, max(0.0, most - water_g - known[_WATER]))}
        return Mixture(self.mass_g - water_g, tuple(known), self.missing, margins)


def says_something(low: float, high: float, whole: float) -> bool:
    """Whether a range is narrow enough to be of use, for an amount of at most `whole`.

    >>> says_something(24.6, 25.1, 100), says_something(0, 41, 100)
    (True, False)
    """
    return high - low <= max(WIDEST_SHARE * whole, WIDEST_OF_MOST * high) and high < inf


NOTHING = Mixture(0.0, _ZERO, MappingProxyType({}), MappingProxyType({}))


def mixture_of(food: Food, mass_g: float, called: str | None = None) -> Mixture:
    """A mass of one kind of ingredient, as a mixture.

    Args:
        mass_g: zero or more.
        called: the name to list where a content is unknown; the food's name by default.

    >>> from crumbcoat_calc.foods.table import food
    >>> mixture_of(food("milk_whole"), 200).amount("water_g")
    176.26
    """
    if mass_g <= 0:
        return NOTHING
    per_g, (lowest, missing, margins) = mass_g / 100, _lowest(food, called or food.name)
    known = tuple([per_g * content if content else 0.0 for content in lowest])
    return Mixture(mass_g, known, missing, _scaled(margins, per_g) if margins else margins)


@lru_cache(maxsize=1024)
def _lowest(food: Food, called: str) -> tuple[tuple[float, ...], Mapping[str, tuple[str, ...]], Mapping[str, Range]]:
    """The lowest contents of 100 g, the contents that are not known exactly, and their margins."""
    name, ranges = (called,), ranges_of(food)
    lowest = tuple([range_of(food, component)[0] for component in COMPONENTS])
    return lowest, MappingProxyType(dict.fromkeys(ranges, name)), margins_of(food)


def mixed(mixtures: Iterable[Mixture]) -> Mixture:
    """All the mixtures combined; mass is conserved, component by component."""
    parts = [mixture for mixture in mixtures if mixture.mass_g > 0]
    if not parts:
        return NOTHING
    missing: Mapping[str, tuple[str, ...]] = NOTHING.missing
    margins: Mapping[str, Range] = NOTHING.margins
    for part in parts:
        if part.missing:
            missing, margins = _joined(missing, part.missing), _added(margins, part.margins)
    known = tuple(map(fsum, zip(*[part.known for part in parts], strict=True)))
    return Mixture(fsum([part.mass_g for part in parts]), known, missing, margins)


def salt_g(mixture: Mixture) -> Range:
    """The least and the most salt as declared on a label, in g: 2.5 times the sodium from any ingredient.

    Source:
        eu-1169-2011, Annex I.
    """
    per_mg = SALT_PER_SODIUM / 1000
    return per_mg * mixture.at_least("sodium_mg"), per_mg * mixture.at_most("sodium_mg")


def energy(mixture: Mixture) -> tuple[float, float] | None:
    """Energy in kcal and in kJ, each computed from grams with its own factors; None if a component is unknown.

    Carbohydrate without fibre counts 4 kcal, 17 kJ per g, fibre 2 and 8, protein 4 and 17, fat 9 and 37,
    alcohol 7 and 29. Polyols and organic acids are not counted separately.

    Source:
        eu-1169-2011, Annex XIV.

    >>> from crumbcoat_calc.foods.table import food
    >>> [round(part) for part in energy(mixture_of(food("sugar_granulated"), 100))]
    [400, 1700]
    """
    if any(component in mixture.missing for component in ENERGY_NEEDS):
        return None
    (kcal, _), (kilojoules, _) = energy_ranges(mixture)
    return kcal, kilojoules


def energy_ranges(mixture: Mixture) -> tuple[Range, Range]:
    """The least and the most energy in kcal and in kJ, see `energy`; both are the same if all contents are known."""
    fibre = mixture.at_least("fibre_g")
    sugars_and_starch = mixture.at_least("carbohydrate_g") - fibre
    kcal = fsum(per_g * mixture.at_least(component) for component, per_g in ENERGY_KCAL.items())
    kilojoules = fsum(per_g * mixture.at_least(component) for component, per_g in ENERGY_KJ.items())
    return (
        with_margin(kcal + 4 * sugars_and_starch + 2 * fibre, mixture, "energy_kcal"),
        with_margin(kilojoules + 17 * sugars_and_starch + 8 * fibre, mixture, "energy_kj"),
    )


def with_margin(value: float, mixture: Mixture, figure: str) -> Range:
    """The least and the most of a figure, from what the lowest contents give."""
    below, above = mixture.margins.get(figure, _NONE)
    return max(0.0, value - below), value + above


def _scaled(margins: Mapping[str, Range], factor: float) -> Mapping[str, Range]:
    if factor <= 0:
        return NOTHING.margins
    return {figure: (factor * below, factor * above) for figure, (below, above) in margins.items()}


def _added(first: Mapping[str, Range], other: Mapping[str, Range]) -> Mapping[str, Range]:
    if not first or not other:
        return first or other
    added = dict(first)
    for figure, (below, above) in other.items():
        before = added.get(figure, _NONE)
        added[figure] = (before[0] + below, before[1] + above)
    return added


def _joined(first: Mapping[str, tuple[str, ...]], other: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    if not first:
        return dict(other)
    joined = dict(first)
    for component, names in other.items():
        before = joined.get(component)
        if before is None:
            joined[component] = names
        elif before != names:
            joined[component] = before + tuple([name for name in names if name not in before])
    return joined
