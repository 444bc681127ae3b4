"""What a mixture is made of, by mass: the sum of its ingredients, where unknown contents stay unknown."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import fsum
from types import MappingProxyType

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import COMPONENTS, INDEX
from crumbcoat_calc.foods.table import Food

_WATER = INDEX["water_g"]
_ZERO = (0.0,) * len(COMPONENTS)

SALT_PER_SODIUM = 2.5
"""Salt as g per g of sodium. Source: eu-1169-2011, Annex I: salt = sodium x 2.5."""

ENERGY_KCAL = {"protein_g": 4.0, "fat_g": 9.0, "alcohol_g": 7.0}
ENERGY_KJ = {"protein_g": 17.0, "fat_g": 37.0, "alcohol_g": 29.0}
"""Energy per g. Source: eu-1169-2011, Annex XIV; carbohydrate without fibre 4 kcal, 17 kJ and fibre 2 kcal, 8 kJ."""


@dataclass(frozen=True, slots=True)
class Mixture:
    """A mass of mixture, with the amount of each component in it.

    `known` is the known amount of each of COMPONENTS, in the unit of its name. `missing` lists, for a component,
    the ingredients whose content of it is unknown; `known` is then only a lower bound.
    """

    mass_g: float
    known: tuple[float, ...]
    missing: Mapping[str, tuple[str, ...]]

    def at_least(self, component: str) -> float:
        """The known amount of a component, in the unit of its name; zero or more."""
        return self.known[INDEX[component]]

    def amount(self, component: str) -> float | None:
        """The amount of a component; None if an ingredient's content of it is unknown."""
        return None if component in self.missing else self.known[INDEX[component]]

    def percent(self, component: str) -> float | None:
        """A component in g per 100 g of mixture; None if unknown or if the mixture is empty."""
        amount = self.amount(component)
        return None if amount is None or self.mass_g <= 0 else 100 * amount / self.mass_g

    def __add__(self, other: "Mixture") -> "Mixture":
        known = tuple([a + b for a, b in zip(self.known, other.known, strict=True)])
        return Mixture(self.mass_g + other.mass_g, known, _joined(self.missing, other.missing))

    def times(self, factor: float) -> "Mixture":
        """The mixture scaled by `factor`, zero or more."""
        return Mixture(self.mass_g * factor, tuple([factor * amount for amount in self.known]), self.missing)

    def without_water(self, water_g: float) -> "Mixture":
        """The mixture after `water_g` of water has boiled off.

        Raises:
            InputError: if it contains less water than that.
        """
        if water_g > self.known[_WATER] + 1e-9:
            raise InputError(
                f"{water_g:.4g} g of water cannot boil off: there is only {self.known[_WATER]:.4g} g",
                "reduce the loss, or add the liquid in an earlier step",
            )
        known = list(self.known)
        known[_WATER] = max(0.0, known[_WATER] - water_g)
        return Mixture(self.mass_g - water_g, tuple(known), self.missing)


NOTHING = Mixture(0.0, _ZERO, MappingProxyType({}))


def mixture_of(food: Food, mass_g: float, called: str | None = None) -> Mixture:
    """A mass of one kind of ingredient, as a mixture.

    Args:
        mass_g: zero or more.
        called: the name to list where a content is unknown; the food's name by default.

    >>> from crumbcoat_calc.foods.table import food
    >>> mixture_of(food("milk_whole"), 200).amount("water_g")
    176.26
    """
    per_g = mass_g / 100
    missing = _missing(food, called or food.name) if mass_g > 0 else NOTHING.missing
    return Mixture(mass_g, tuple([per_g * content if content else 0.0 for content in food.per_100g]), missing)


@lru_cache(maxsize=1024)
def _missing(food: Food, called: str) -> Mapping[str, tuple[str, ...]]:
    name = (called,)
    return MappingProxyType(
        {component: name for component, content in zip(COMPONENTS, food.per_100g, strict=True) if content is None}
    )


def mixed(mixtures: Iterable[Mixture]) -> Mixture:
    """All the mixtures combined; mass is conserved, component by component."""
    parts = [mixture for mixture in mixtures if mixture.mass_g > 0]
    if not parts:
        return NOTHING
    missing: dict[str, tuple[str, ...]] = {}
    for part in parts:
        if part.missing:
            missing = _joined(missing, part.missing)
    known = tuple(map(fsum, zip(*[part.known for part in parts], strict=True)))
    return Mixture(fsum([part.mass_g for part in parts]), known, missing)


def salt_g(mixture: Mixture) -> float | None:
    """Salt as declared on a label, in g: 2.5 times the sodium from any ingredient; None if unknown.

    Source:
        eu-1169-2011, Annex I.
    """
    sodium = mixture.amount("sodium_mg")
    return None if sodium is None else SALT_PER_SODIUM * sodium / 1000


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
    needed = ("protein_g", "fat_g", "alcohol_g", "carbohydrate_g", "fibre_g")
    if any(component in mixture.missing for component in needed):
        return None
    fibre = mixture.at_least("fibre_g")
    sugars_and_starch = mixture.at_least("carbohydrate_g") - fibre
    kcal = fsum(per_g * mixture.at_least(component) for component, per_g in ENERGY_KCAL.items())
    kilojoules = fsum(per_g * mixture.at_least(component) for component, per_g in ENERGY_KJ.items())
    return kcal + 4 * sugars_and_starch + 2 * fibre, kilojoules + 17 * sugars_and_starch + 8 * fibre


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
