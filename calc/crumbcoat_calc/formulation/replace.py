"""Replace an ingredient by one to three others, keeping fat, water and sugar as far as they can."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.formulation.formulate import WORDS
from crumbcoat_calc.formulation.linear_program import Program, Row, as_fraction, minimum

KEPT = ("fat_g", "water_g", "sugars_g")
WHERE_POSSIBLE = ("milk_solids_not_fat_g",)
MOST = 3


@dataclass(frozen=True, slots=True)
class Kept:
    """One component before and after, in g; `exactly` if nothing of it was lost or gained."""

    word: str
    before_g: float
    after_g: float

    @property
    def change_g(self) -> float:
        return self.after_g - self.before_g

    @property
    def exactly(self) -> bool:
        return abs(self.change_g) < 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Exchange:
    """Masses of the others in g, in their order, and what was kept and what was not."""

    masses_g: tuple[float, ...]
    mass_change_g: float
    kept: tuple[Kept, ...]

    @property
    def not_kept(self) -> tuple[Kept, ...]:
        """What could not be kept."""
        return tuple([one for one in self.kept if not one.exactly])


def replace(original: Food, mass_g: float, others: Sequence[Food]) -> Exchange:
    """Masses of one to three ingredients that stand for so many g of another.

    The sum of what fat, water and sugar change, in g, is made smallest; among the answers that do so, that of the milk
    solids not fat, where all of them are known; and then that of the mass. Exact on fractions.

    Args:
        mass_g: of the original, above zero.
        others: one to three.

    Raises:
        InputError: at `others`, if there are none or too many, or a content of one is not known; at `original`, if one
            of its is not; at `mass`, if it is not above zero.

    Source:
        derivation (mass balance, linear programming).

    >>> from crumbcoat_calc.foods.table import food
    >>> made = replace(food("milk_whole"), 100, [food("milk_powder_whole"), food("water_tap")])
    >>> [round(mass, 1) for mass in made.masses_g], [one.word for one in made.not_kept]
    ([13.1, 87.9], ['fat', 'milk solids not fat'])
    """
    if mass_g <= 0:
        raise InputError(f"there is nothing of {original.name} to replace", "give more than 0 g", ("mass",))
    if not 1 <= len(others) <= MOST:
        raise InputError(f"{len(others)} ingredients cannot stand for one", f"name one to {MOST}", ("others",))
    mass = as_fraction(mass_g)
    wanted = {component: mass * _content(original, component, ("original",)) for component in KEPT}
    shares = {
        component: [_content(other, component, ("others", number)) for number, other in enumerate(others)]
        for component in KEPT
    }
    for component in WHERE_POSSIBLE:
        contents = [other.content(component) for other in others]
        there = original.content(component)
        if there is not None and None not in contents:
            wanted[component] = mass * as_fraction(there) / 100
            shares[component] = [as_fraction(content or 0.0) / 100 for content in contents]
    wanted["mass"], shares["mass"] = mass, [Fraction(1)] * len(others)
    masses = _nearest(wanted, shares)
    kept = tuple(
        [
            Kept(WORDS[component], float(wanted[component]), float(_sum(shares[component], masses)))
            for component in wanted
            if component != "mass"
        ]
    )
    return Exchange(
        masses_g=tuple([float(one) for one in masses]),
        mass_change_g=float(sum(masses, Fraction(0)) - mass),
        kept=kept,
    )


def _nearest(wanted: dict[str, Fraction], shares: dict[str, list[Fraction]]) -> tuple[Fraction, ...]:
    """Goals in their order of rank: fat, water and sugar together, then each that follows, then the mass.

    Variables are the masses, then for each goal how much it is short and how much it is over.
    """
    goals = list(wanted)
    count = len(shares[goals[0]])
    width = count + 2 * len(goals)
    rows = []
    for number, goal in enumerate(goals):
        slack = [Fraction(0)] * (2 * len(goals))
        slack[2 * number], slack[2 * number + 1] = Fraction(1), Fraction(-1)
        rows.append(Row((*shares[goal], *slack), "=", wanted[goal]))
    ranks = [[goals.index(component) for component in KEPT], *[[number] for number in range(len(KEPT), len(goals))]]
    x: tuple[Fraction, ...] = ()
    for rank in ranks:
        cost = [Fraction(0)] * width
        for number in rank:
            cost[count + 2 * number] = cost[count + 2 * number + 1] = Fraction(1)
        answer = minimum(Program(tuple(cost), tuple(rows), (Fraction(0),) * width, (None,) * width))
        assert answer is not None, "what is short or over makes every wish possible"
        rows.append(Row(tuple(cost), "=", answer.cost))
        x = answer.x[:count]
    return x


def _content(food: Food, component: str, path: tuple[str | int, ...]) -> Fraction:
    content = food.content(component)
    if content is None:
        word = WORDS[component]
        raise InputError(f"the {word} of {food.name} is not known", f"take an ingredient whose {word} is known", path)
    return as_fraction(content) / 100


def _sum(shares: Sequence[Fraction], masses: Sequence[Fraction]) -> Fraction:
    return sum([share * mass for share, mass in zip(shares, masses, strict=True)], Fraction(0))
