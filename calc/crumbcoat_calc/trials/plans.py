"""A small plan for two ingredients: which amounts to make, within bounds that the author gives."""

from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_calc.trials.model import Changed
from crumbcoat_calc.values.form_fields import state_number

STAR, SQUARE = "star", "2x2"
PLANS = {
    STAR: ((-1, 0), (1, 0), (0, -1), (0, 1)),
    SQUARE: ((-1, -1), (1, -1), (-1, 1), (1, 1)),
}
"""The points of each plan around the centre: -1 is the lower bound, 1 the upper one.

Source:
    common practice of the design of experiments: the axial points of a central composite design within the bounds, and
    a two-level factorial design.
"""


@dataclass(frozen=True, slots=True)
class Bounds:
    """The least and the most of an ingredient, in g."""

    ingredient: str
    low_g: float
    high_g: float

    def amount_g(self, level: float) -> float:
        """The amount at a level from -1, the least, to 1, the most; to 0.1 g.

        >>> Bounds("butter", 160, 220).amount_g(0)
        190.0
        """
        return round((self.low_g + self.high_g) / 2 + level * (self.high_g - self.low_g) / 2, 1)

    def level(self, mass_g: float) -> float:
        """The level of an amount, the inverse of `amount_g`."""
        return (2 * mass_g - self.low_g - self.high_g) / (self.high_g - self.low_g)


def points_of(plan: str, centres: int) -> list[tuple[int, int]]:
    """The levels of both ingredients in each batch of a plan, the centre as often as is asked for."""
    return [*PLANS[plan], *[(0, 0)] * centres]


def change_at(bounds: Sequence[Bounds], levels: Sequence[float]) -> Changed:
    """The change that makes one point of a plan."""
    amounts = {
        one.ingredient: {"amount": f"{state_number(one.amount_g(level))} g"}
        for one, level in zip(bounds, levels, strict=True)
    }
    return Changed(ingredients=amounts, steps={})
