"""Exchange an ingredient for one to three others, keeping fat, water and sugar as far as possible."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.formulation.formulate import COMPONENT_WORDS
from crumbcoat_calc.formulation.linear_program import Constraint, LinearProgram, as_fraction
from crumbcoat_calc.formulation.simplex import minimise

COMPONENTS_KEPT = ("fat_g", "water_g", "sugars_g")
COMPONENTS_KEPT_IF_KNOWN = ("milk_solids_not_fat_g",)
MOST_OTHERS = 3


@dataclass(frozen=True, slots=True)
class ComponentChange:
    """A component before and after, in g; `kept` if nothing of it was lost or gained."""

    word: str
    before_g: float
    after_g: float

    @property
    def change_g(self) -> float:
        return self.after_g - self.before_g

    @property
    def kept(self) -> bool:
        return abs(self.change_g) < 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Exchange:
    """Masses of the others in g, in their order, and how each component changed."""

    masses_g: tuple[float, ...]
    mass_change_g: float
    changes: tuple[ComponentChange, ...]

    @property
    def not_kept(self) -> tuple[ComponentChange, ...]:
        """The components that could not be kept."""
        return tuple([change for change in self.changes if not change.kept])


def find_exchange(original: Food, mass_g: float, others: Sequence[Food]) -> Exchange:
    """Masses of one to three ingredients that replace a mass of another.

    First the sum of the changes in fat, water and sugar, in g, is minimised; then the change in milk solids not fat, if
    they are known for all; then the change in mass. The arithmetic is exact.

    Args:
        mass_g: mass of the original, above zero.
        others: one to three.

    Raises:
        InputError: at `others`, if there are none or too many, or a content is unknown; at `original`, if a content is
            unknown; at `mass`, if it is not above zero.

    Source:
        derivation (mass balance, linear programming).

    >>> from crumbcoat_calc.foods.table import food
    >>> exchanged = find_exchange(food("milk_whole"), 100, [food("milk_powder_whole"), food("water_tap")])
    >>> [round(mass, 1) for mass in exchanged.masses_g], [change.word for change in exchanged.not_kept]
    ([13.1, 87.9], ['fat', 'milk solids not fat'])
    """
    if mass_g <= 0:
        raise InputError(f"there is nothing of {original.name} to replace", "give more than 0 g", ("mass",))
    if not 1 <= len(others) <= MOST_OTHERS:
        problem = f"{len(others)} replacements are too many" if others else "no replacement is chosen"
        raise InputError(problem, f"choose one to {MOST_OTHERS} ingredients", ("others",))
    mass = as_fraction(mass_g)
    wanted = {component: mass * _content(original, component, ("original",)) for component in COMPONENTS_KEPT}
    shares = {
        component: [_content(other, component, ("others", number)) for number, other in enumerate(others)]
        for component in COMPONENTS_KEPT
    }
    for component in COMPONENTS_KEPT_IF_KNOWN:
        contents = [other.content(component) for other in others]
        original_content = original.content(component)
        if original_content is not None and None not in contents:
            wanted[component] = mass * as_fraction(original_content) / 100
            shares[component] = [as_fraction(content or 0.0) / 100 for content in contents]
    wanted["mass"], shares["mass"] = mass, [Fraction(1)] * len(others)
    masses = _nearest(wanted, shares)
    changes = tuple(
        [
            ComponentChange(
                COMPONENT_WORDS[component], float(wanted[component]), float(_sum(shares[component], masses))
            )
            for component in wanted
            if component != "mass"
        ]
    )
    return Exchange(
        masses_g=tuple([float(mass) for mass in masses]),
        mass_change_g=float(sum(masses, Fraction(0)) - mass),
        changes=changes,
    )


def _nearest(wanted: dict[str, Fraction], shares: dict[str, list[Fraction]]) -> tuple[Fraction, ...]:
    """Meet the goals by rank: fat, water and sugar together, then each that follows, then the mass.

    The variables are the masses, then for each goal how much is missing and how much is too much.
    """
    goals = list(wanted)
    count = len(shares[goals[0]])
    width = count + 2 * len(goals)
    rows = []
    for number, goal in enumerate(goals):
        slack = [Fraction(0)] * (2 * len(goals))
        slack[2 * number], slack[2 * number + 1] = Fraction(1), Fraction(-1)
        rows.append(Constraint((*shares[goal], *slack), "=", wanted[goal]))
    ranks = [
        [goals.index(component) for component in COMPONENTS_KEPT],
        *[[number] for number in range(len(COMPONENTS_KEPT), len(goals))],
    ]
    x: tuple[Fraction, ...] = ()
    for rank in ranks:
        cost = [Fraction(0)] * width
        for number in rank:
            cost[count + 2 * number] = cost[count + 2 * number + 1] = Fraction(1)
        solution = minimise(LinearProgram(tuple(cost), tuple(rows), (Fraction(0),) * width, (None,) * width))
        assert solution is not None, "with shortage and excess, every goal can be met"
        rows.append(Constraint(tuple(cost), "=", solution.cost))
        x = solution.x[:count]
    return x


def _content(food: Food, component: str, path: tuple[str | int, ...]) -> Fraction:
    content = food.content(component)
    if content is None:
        word = COMPONENT_WORDS[component]
        raise InputError(
            f"the {word} content of {food.name} is not known", f"choose an ingredient whose {word} is known", path
        )
    return as_fraction(content) / 100


def _sum(shares: Sequence[Fraction], masses: Sequence[Fraction]) -> Fraction:
    return sum([share * mass for share, mass in zip(shares, masses, strict=True)], Fraction(0))
