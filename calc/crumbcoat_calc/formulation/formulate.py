"""Formulate: what to weigh of each ingredient for a wanted composition, or which wishes collide."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.formulation.linear_program import Program, Row, Sense, as_fraction, minimum

FAT = "fat_g"
WORDS = {
    "fat_g": "fat",
    "water_g": "water",
    "sugars_g": "sugar",
    "sucrose_g": "sucrose",
    "lactose_g": "lactose",
    "protein_g": "protein",
    "milk_fat_g": "milk fat",
    "milk_solids_not_fat_g": "milk solids not fat",
    "milk_protein_g": "milk protein",
    "alcohol_g": "alcohol",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient:
    """An ingredient of a formulation: what the recipe has of it, and the bounds that it may move in, all in g.

    An ingredient that may not move has both bounds at its mass; `high_g` None is no bound.
    """

    food: Food
    given_g: float
    low_g: float = 0.0
    high_g: float | None = None


@dataclass(frozen=True, slots=True)
class Balance:
    """A wanted content of the whole: so many g per 100 g of a component in g, at most, exactly or at least."""

    component: str
    sense: Sense
    percent: float


@dataclass(frozen=True, slots=True)
class Collision:
    """One of the wishes that cannot all be met; without any one of them the others could.

    `kind` is `total`, `balance`, `low` or `high`; `of` the component or the ingredient's position.
    """

    kind: str
    of: str | int


@dataclass(frozen=True, slots=True, kw_only=True)
class Formula:
    """Masses in g in the order of the ingredients, and what they came from, brought to the same total."""

    masses_g: tuple[float, ...]
    before_g: tuple[float, ...]
    total_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Impossible:
    """Why no formula meets the wishes, and the formula nearest in fat content that meets all the others."""

    collisions: tuple[Collision, ...]
    nearest: Formula | None


def formulate(
    ingredients: Sequence[Ingredient], balances: Sequence[Balance], total_g: float | None = None
) -> Formula | Impossible:
    """Masses that meet every balance and bound, as near to the given recipe as can be.

    The given recipe is brought to the total first; then the sum of all changes, in g, is made smallest:

        minimise sum of |x - given|;  sum of (content - wanted) x <=, =, >= 0;  low <= x <= high;  sum of x = total

    Exact on fractions, so what comes out meets the balances to the last digit of the table. Where the balances leave
    one answer, that is it. If there is none, the collisions are a smallest set of wishes that cannot be together
    (each was left out in turn), and the nearest fat content is the one that the other wishes allow.

    Args:
        ingredients: at least one; masses zero or more.
        balances: components whose content every ingredient that may be there must tell.
        total_g: above zero; None keeps the given total.

    Raises:
        InputError: at `ingredients`, for a content that is not known; at `total`, for a total that is not above zero.

    Source:
        derivation (mass balance, linear programming).

    >>> from crumbcoat_calc.foods.table import food
    >>> cream, milk = food("cream_heavy_whipping"), food("milk_whole")
    >>> wish = [Ingredient(food=cream, given_g=500), Ingredient(food=milk, given_g=500)]
    >>> made = formulate(wish, [Balance("fat_g", "=", 20.0)], 1000)
    >>> [round(mass_g, 1) for mass_g in made.masses_g]
    [510.2, 489.8]
    """
    problem = _problem(ingredients, balances, total_g)
    masses = problem.nearest_to_given()
    if masses is not None:
        return problem.formula(masses)
    nearest = problem.nearest_fat()
    return Impossible(
        collisions=problem.collisions(),
        nearest=None if nearest is None else problem.formula(nearest),
    )


@dataclass(frozen=True, slots=True)
class _Problem:
    """The wishes on fractions; `rows` stand in the order of the balances, the total last."""

    ingredients: Sequence[Ingredient]
    balances: Sequence[Balance]
    rows: tuple[Row, ...]
    low: tuple[Fraction, ...]
    high: tuple[Fraction | None, ...]
    before: tuple[Fraction, ...]
    total: Fraction

    def formula(self, masses: tuple[Fraction, ...]) -> Formula:
        return Formula(
            masses_g=tuple([float(mass) for mass in masses]),
            before_g=tuple([float(mass) for mass in self.before]),
            total_g=float(self.total),
        )

    def nearest_to_given(self, rows: tuple[Row, ...] | None = None) -> tuple[Fraction, ...] | None:
        """Every mass is where it starts plus what is added less what is taken away; the cost counts both."""
        if not self._bounds_are_apart():
            return None
        starts = []
        for mass, low, high in zip(self.before, self.low, self.high, strict=True):
            starts.append(max(low, mass if high is None else min(mass, high)))
        doubled = []
        for row in self.rows if rows is None else rows:
            there = sum([c * start for c, start in zip(row.coefficients, starts, strict=True)], Fraction(0))
            opposite = tuple([-c for c in row.coefficients])
            doubled.append(Row((*row.coefficients, *opposite), row.sense, row.right - there))
        added = [None if high is None else high - start for start, high in zip(starts, self.high, strict=True)]
        taken = [start - low for start, low in zip(starts, self.low, strict=True)]
        count = len(starts)
        answer = minimum(
            Program((Fraction(1),) * (2 * count), tuple(doubled), (Fraction(0),) * (2 * count), (*added, *taken))
        )
        if answer is None:
            return None
        return tuple([start + answer.x[i] - answer.x[count + i] for i, start in enumerate(starts)])

    def nearest_fat(self) -> tuple[Fraction, ...] | None:
        """The masses with the fat content nearest to the wanted one that the other wishes allow."""
        fat = [number for number, balance in enumerate(self.balances) if balance.component == FAT]
        if not fat or not self._bounds_are_apart():
            return None
        count = len(self.low)
        wider = []
        for number, row in enumerate(self.rows):
            slack = (Fraction(1), Fraction(-1)) if number in fat else (Fraction(0), Fraction(0))
            wider.append(Row((*row.coefficients, *slack), row.sense, row.right))
        cost = (*(Fraction(0),) * count, Fraction(1), Fraction(1))
        two = (Fraction(0), Fraction(0))
        answer = minimum(Program(cost, tuple(wider), (*self.low, *two), (*self.high, None, None)))
        if answer is None:
            return None
        missing = answer.x[count + 1] - answer.x[count]
        moved = [
            replace(row, right=row.right + missing) if number in fat else row for number, row in enumerate(self.rows)
        ]
        return self.nearest_to_given(tuple(moved))

    def collisions(self) -> tuple[Collision, ...]:
        """A smallest set of wishes that collide: leave each out in turn, and keep out what is not needed."""
        rows, low, high = list(self.rows), list(self.low), list(self.high)
        kept: list[Collision] = []
        for number in range(len(self.rows)):
            without = [row for row in rows if row is not self.rows[number]]
            if not _feasible(without, low, high):
                rows = without
            else:
                kept.append(self._row_collision(number))
        for number in range(len(self.ingredients)):
            lowest, highest = low[number], high[number]
            low[number] = Fraction(0)
            if _feasible(rows, low, high):
                low[number] = lowest
                kept.append(Collision("low", number))
            high[number] = None
            if highest is not None and _feasible(rows, low, high):
                high[number] = highest
                kept.append(Collision("high", number))
        return tuple(kept)

    def _row_collision(self, number: int) -> Collision:
        if number == len(self.balances):
            return Collision("total", "total")
        return Collision("balance", self.balances[number].component)

    def _bounds_are_apart(self) -> bool:
        return all(high is None or low <= high for low, high in zip(self.low, self.high, strict=True))


def _problem(ingredients: Sequence[Ingredient], balances: Sequence[Balance], total_g: float | None) -> _Problem:
    given = [as_fraction(one.given_g) for one in ingredients]
    there = sum(given, Fraction(0))
    total = there if total_g is None else as_fraction(total_g)
    if total <= 0:
        raise InputError(f"a total of {float(total):g} g cannot be formulated", "give more than 0 g", ("total",))
    rows = [Row(tuple(_beyond(ingredients, balance)), balance.sense, Fraction(0)) for balance in balances]
    rows.append(Row((Fraction(1),) * len(ingredients), "=", total))
    return _Problem(
        ingredients,
        balances,
        tuple(rows),
        tuple([as_fraction(one.low_g) for one in ingredients]),
        tuple([None if one.high_g is None else as_fraction(one.high_g) for one in ingredients]),
        tuple([mass * total / there if there else Fraction(0) for mass in given]),
        total,
    )


def _beyond(ingredients: Sequence[Ingredient], balance: Balance) -> Iterator[Fraction]:
    """What each g of an ingredient has of a component beyond the wanted content, in g."""
    for number, one in enumerate(ingredients):
        content = one.food.content(balance.component)
        if content is None:
            if one.high_g == 0:
                content = 0.0
            else:
                word = WORDS.get(balance.component, balance.component)
                raise InputError(
                    f"the {word} of {one.food.name} is not known",
                    f"leave the {word} open, or take an ingredient whose {word} is known",
                    ("ingredients", number),
                )
        yield (as_fraction(content) - as_fraction(balance.percent)) / 100


def _feasible(rows: Sequence[Row], low: Sequence[Fraction], high: Sequence[Fraction | None]) -> bool:
    return minimum(Program((Fraction(0),) * len(low), tuple(rows), tuple(low), tuple(high))) is not None
