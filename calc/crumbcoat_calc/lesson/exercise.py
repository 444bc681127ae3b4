"""An exercise with its working, and the numbers of a batch as a student calculates with them."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.values.exact import exact_decimal

TENTH = Decimal("0.1")
_FACTORS = tuple(Decimal(quarters) / 4 for quarters in range(2, 13))


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """A question, its answer, and the lines of `working` that lead to it: `what: sum = result`, each result rounded.

    An open question has no working, and some questions have `choices`: the answer is one of them, after
    its letter.
    """

    topic: str
    question: str
    choices: tuple[str, ...] = ()
    working: tuple[str, ...] = ()
    answer: str


class NoNumbers(Exception):
    """The recipe has no numbers for an exercise; the text is the reason."""


@dataclass(frozen=True, slots=True)
class Item:
    """An ingredient in whole numbers; `mass_g` is above zero."""

    name: str
    mass_g: Decimal
    food: Food

    def percent(self, component: str) -> Decimal | None:
        """The content in g per 100 g, to a tenth."""
        content = self.food.content(component)
        return None if content is None else to(exact_decimal(content), TENTH)


@dataclass(frozen=True, slots=True)
class Bowl:
    """The ingredients of a batch in whole numbers, and the water that boils off, in g."""

    items: tuple[Item, ...]
    lost_g: Decimal

    @property
    def weighed_g(self) -> Decimal:
        return sum((item.mass_g for item in self.items), Decimal(0))

    @property
    def finished_g(self) -> Decimal:
        return self.weighed_g - self.lost_g

    def finished_line(self) -> str:
        """The line of working for the mass of the finished batch."""
        minus = f" − {g(self.lost_g)}" if self.lost_g else ""
        return f"batch: {' + '.join(g(item.mass_g) for item in self.items)}{minus} = {g(self.finished_g)}"

    @property
    def boiled_text(self) -> str:
        """The sentence about the water that boils off, with a space before it; empty without any."""
        return f" {g(self.lost_g)} of water boils off." if self.lost_g else ""

    def parts(self, component: str, what: str) -> tuple[list[str], Decimal]:
        """The lines of working for the content of each ingredient and their sum, and that sum.

        Raises:
            NoNumbers: if a content is not known, or there is nothing of it.
        """
        working, found = [], []
        for item in self.items:
            percent = item.percent(component)
            if percent is None:
                raise NoNumbers(f"the amount of {what} in {item.name} is not known")
            if percent > 0:
                part = to(item.mass_g * percent / 100, TENTH)
                found.append(part)
                working.append(f"{what} of {item.name}: {g(item.mass_g)} × {plain(percent)} / 100 = {g(part)}")
        total = sum(found, Decimal(0))
        if total == 0:
            raise NoNumbers(f"it contains no {what}")
        working.append(f"{what} in total: {' + '.join(g(part) for part in found)} = {g(total)}")
        return working, total


def bowl_of(batch: Batch, draws: Draws | None = None) -> Bowl:
    """The ingredients in whole numbers, for a batch of a drawn size, or for this batch."""
    factor = draws.one_of(_FACTORS) if draws else Decimal(1)
    listed = [
        Item(ingredient.name, mass(exact_decimal(ingredient.mass_g) * factor), ingredient.food)
        for ingredient in batch.weighed
    ]
    items = tuple([item for item in listed if item.mass_g > 0])
    return Bowl(items, mass(exact_decimal(batch.vessels[-1].water_lost_g) * factor))


def to(value: Decimal, step: Decimal) -> Decimal:
    """Rounded to this step, halves up."""
    return value.quantize(step, rounding=ROUND_HALF_UP)


def mass(value: Decimal) -> Decimal:
    """A mass in g as a student weighs it: whole from 10 g on, else to a tenth."""
    return to(value, Decimal(1) if value >= 10 else TENTH)


def plain(value: Decimal) -> str:
    """All digits of the rounded number, including trailing zeros: they show how it was rounded."""
    return f"{value:f}"


def g(value: Decimal) -> str:
    """A mass with its unit."""
    return f"{plain(value)} g"


def masses(items: Sequence[Item]) -> list[str]:
    """Each ingredient with its mass."""
    return [f"{g(item.mass_g)} {item.name}" for item in items]
