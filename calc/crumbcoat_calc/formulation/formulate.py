"""Formulate: the amount of each ingredient for a wanted composition, or which wishes collide."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.formulation.linear_program import Constraint, LinearProgram, Sense, as_fraction
from crumbcoat_calc.formulation.simplex import minimise

FAT = "fat_g"
COMPONENT_WORDS = {
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
class BoundedIngredient:
    """An ingredient of a formulation: its amount in the recipe, and the bounds in which it may move, all in g.

    An ingredient that may not move has both bounds at its mass; with `high_g` None there is no upper bound.
    """

    food: Food
    recipe_g: float
    low_g: float = 0.0
    high_g: float | None = None


@dataclass(frozen=True, slots=True)
class Balance:
    """A wanted content of the whole: a component in g per 100 g, at most, exactly or at least."""

    component: str
    sense: Sense
    percent: float


@dataclass(frozen=True, slots=True)
class Collision:
    """One of several wishes that cannot all be met; without any one of them, the others could be.

    `kind` is `total`, `balance`, `low` or `high`; `of` is the component or the ingredient's position.
    """

    kind: str
    of: str | int


@dataclass(frozen=True, slots=True, kw_only=True)
class Formula:
    """Masses in g in the order of the ingredients, and the recipe's masses scaled to the same total."""

    masses_g: tuple[float, ...]
    before_g: tuple[float, ...]
    total_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Impossible:
    """Why no formula meets the wishes, and the formula nearest in fat content that meets all the others."""

    collisions: tuple[Collision, ...]
    nearest: Formula | None


def formulate(
    ingredients: Sequence[BoundedIngredient], balances: Sequence[Balance], total_g: float | None = None
) -> Formula | Impossible:
    """Masses that meet every balance and bound, as near to the recipe as possible.

    The recipe is scaled to the total first; then the sum of all changes, in g, is minimised:

        minimise sum of |x - recipe|;  sum of (content - wanted) x <=, =, >= 0;  low <= x <= high;  sum of x = total

    The arithmetic is exact, so the result meets the balances to the last digit of the table. If only one formula meets
    them, that is the result. If none does, the collisions are a smallest set of wishes that exclude each other (each
    was left out in turn), and the nearest formula has the fat content that the other wishes allow.

    Args:
        ingredients: at least one; masses zero or more.
        balances: components whose content is known for every ingredient that may be used.
        total_g: above zero; None keeps the recipe's total.

    Raises:
        InputError: at `ingredients`, for a content that is not known; at `total`, for a total that is not above zero.

    Source:
        derivation (mass balance, linear programming).

    >>> from crumbcoat_calc.foods.table import food
    >>> cream, milk = food("cream_heavy_whipping"), food("milk_whole")
    >>> wish = [BoundedIngredient(food=cream, recipe_g=500), BoundedIngredient(food=milk, recipe_g=500)]
    >>> formula = formulate(wish, [Balance("fat_g", "=", 20.0)], 1000)
    >>> [round(mass_g, 1) for mass_g in formula.masses_g]
    [510.2, 489.8]
    """
    problem = _problem(ingredients, balances, total_g)
    masses = problem.nearest_to_recipe()
    if masses is not None:
        return problem.formula(masses)
    nearest = problem.nearest_fat()
    return Impossible(
        collisions=problem.collisions(),
        nearest=None if nearest is None else problem.formula(nearest),
    )


@dataclass(frozen=True, slots=True)
class _Problem:
    """The wishes in fractions; `constraints` are in the order of the balances, the total last."""

    ingredients: Sequence[BoundedIngredient]
    balances: Sequence[Balance]
    constraints: tuple[Constraint, ...]
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

    def nearest_to_recipe(self, constraints: tuple[Constraint, ...] | None = None) -> tuple[Fraction, ...] | None:
        """Each mass is its start plus an addition minus a reduction; the cost counts both."""
        if not self._bounds_are_apart():
            return None
        starts = []
        for mass, low, high in zip(self.before, self.low, self.high, strict=True):
            starts.append(max(low, mass if high is None else min(mass, high)))
        doubled = []
        for constraint in self.constraints if constraints is None else constraints:
            at_start = sum([c * start for c, start in zip(constraint.coefficients, starts, strict=True)], Fraction(0))
            opposite = tuple([-c for c in constraint.coefficients])
            doubled.append(
                Constraint((*constraint.coefficients, *opposite), constraint.sense, constraint.right_side - at_start)
            )
        added = [None if high is None else high - start for start, high in zip(starts, self.high, strict=True)]
        taken = [start - low for start, low in zip(starts, self.low, strict=True)]
        count = len(starts)
        solution = minimise(
            LinearProgram((Fraction(1),) * (2 * count), tuple(doubled), (Fraction(0),) * (2 * count), (*added, *taken))
        )
        if solution is None:
            return None
        return tuple([start + solution.x[i] - solution.x[count + i] for i, start in enumerate(starts)])

    def nearest_fat(self) -> tuple[Fraction, ...] | None:
        """The masses with the fat content that is nearest to the wanted one and that the other wishes allow."""
        fat = [number for number, balance in enumerate(self.balances) if balance.component == FAT]
        if not fat or not self._bounds_are_apart():
            return None
        count = len(self.low)
        wider = []
        for number, constraint in enumerate(self.constraints):
            slack = (Fraction(1), Fraction(-1)) if number in fat else (Fraction(0), Fraction(0))
            wider.append(Constraint((*constraint.coefficients, *slack), constraint.sense, constraint.right_side))
        cost = (*(Fraction(0),) * count, Fraction(1), Fraction(1))
        slack_low = (Fraction(0), Fraction(0))
        solution = minimise(LinearProgram(cost, tuple(wider), (*self.low, *slack_low), (*self.high, None, None)))
        if solution is None:
            return None
        missing = solution.x[count + 1] - solution.x[count]
        moved = [
            replace(constraint, right_side=constraint.right_side + missing) if number in fat else constraint
            for number, constraint in enumerate(self.constraints)
        ]
        return self.nearest_to_recipe(tuple(moved))

    def collisions(self) -> tuple[Collision, ...]:
        """A smallest set of wishes that collide: each is left out in turn, and stays out if it is not needed."""
        constraints, low, high = list(self.constraints), list(self.low), list(self.high)
        collisions: list[Collision] = []
        for number in range(len(self.constraints)):
            without = [constraint for constraint in constraints if constraint is not self.constraints[number]]
            if not _feasible(without, low, high):
                constraints = without
            else:
                collisions.append(self._constraint_collision(number))
        for number in range(len(self.ingredients)):
            lowest, highest = low[number], high[number]
            low[number] = Fraction(0)
            if _feasible(constraints, low, high):
                low[number] = lowest
                collisions.append(Collision("low", number))
            high[number] = None
            if highest is not None and _feasible(constraints, low, high):
                high[number] = highest
                collisions.append(Collision("high", number))
        return tuple(collisions)

    def _constraint_collision(self, number: int) -> Collision:
        if number == len(self.balances):
            return Collision("total", "total")
        return Collision("balance", self.balances[number].component)

    def _bounds_are_apart(self) -> bool:
        return all(high is None or low <= high for low, high in zip(self.low, self.high, strict=True))


def _problem(ingredients: Sequence[BoundedIngredient], balances: Sequence[Balance], total_g: float | None) -> _Problem:
    recipe = [as_fraction(ingredient.recipe_g) for ingredient in ingredients]
    recipe_total = sum(recipe, Fraction(0))
    total = recipe_total if total_g is None else as_fraction(total_g)
    if total <= 0:
        raise InputError(f"a total of {float(total):g} g cannot be formulated", "give more than 0 g", ("total",))
    constraints = [Constraint(tuple(_excess(ingredients, balance)), balance.sense, Fraction(0)) for balance in balances]
    constraints.append(Constraint((Fraction(1),) * len(ingredients), "=", total))
    return _Problem(
        ingredients,
        balances,
        tuple(constraints),
        tuple([as_fraction(ingredient.low_g) for ingredient in ingredients]),
        tuple([None if ingredient.high_g is None else as_fraction(ingredient.high_g) for ingredient in ingredients]),
        tuple([mass * total / recipe_total if recipe_total else Fraction(0) for mass in recipe]),
        total,
    )


def _excess(ingredients: Sequence[BoundedIngredient], balance: Balance) -> Iterator[Fraction]:
    """How much more of a component each g of an ingredient has than the wanted content, in g."""
    for number, ingredient in enumerate(ingredients):
        content = ingredient.food.content(balance.component)
        if content is None:
            if ingredient.high_g == 0:
                content = 0.0
            else:
                word = COMPONENT_WORDS.get(balance.component, balance.component)
                raise InputError(
                    f"the {word} content of {ingredient.food.name} is not known",
                    f"leave the {word} open, or choose an ingredient whose {word} is known",
                    ("ingredients", number),
                )
        yield (as_fraction(content) - as_fraction(balance.percent)) / 100


def _feasible(constraints: Sequence[Constraint], low: Sequence[Fraction], high: Sequence[Fraction | None]) -> bool:
    return minimise(LinearProgram((Fraction(0),) * len(low), tuple(constraints), tuple(low), tuple(high))) is not None
