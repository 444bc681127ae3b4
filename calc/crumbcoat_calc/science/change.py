"""The change between two states of a mixture: figures before and after, and a sentence."""

from dataclasses import dataclass

from crumbcoat_calc.science.estimate import Answer, Estimate
from crumbcoat_calc.science.state import State


@dataclass(frozen=True, slots=True)
class Change:
    """One figure before and after; `beyond_doubt` if the two bands do not overlap."""

    figure: str
    before: float
    after: float
    beyond_doubt: bool

    @property
    def difference(self) -> float:
        return self.after - self.before


FIGURES = (
    "fat_percent",
    "water_percent",
    "sugar_percent",
    "syrup_strength_percent",
    "undissolved_sugar_percent",
    "fat_volume_percent",
    "density_g_per_ml",
    "water_activity",
)
"""What is compared, in this order; percent of the whole mass unless the name says otherwise."""

_WORDS = {
    "fat_percent": ("richer in fat", "leaner"),
    "syrup_strength_percent": ("has a stronger syrup", "has a weaker syrup"),
    "undissolved_sugar_percent": ("leaves more sugar undissolved", "leaves less sugar undissolved"),
    "fat_volume_percent": ("packs its fat closer", "packs its fat looser"),
}


def figures_of(state: State) -> dict[str, Answer]:
    """The figures of one state that recipes are compared by, in the order of FIGURES."""
    return {
        "fat_percent": _share(state.fat_g, state.mass_g),
        "water_percent": _share(state.water_g, state.mass_g),
        "sugar_percent": _share(_sum(state.dissolved_sugar_g, state.undissolved_sugar_g), state.mass_g),
        "syrup_strength_percent": state.syrup_strength_percent,
        "undissolved_sugar_percent": _share(state.undissolved_sugar_g, state.mass_g),
        "fat_volume_percent": state.fat_volume_percent,
        "density_g_per_ml": state.density_g_per_ml,
        "water_activity": state.water_activity,
    }


def changes(before: State, after: State) -> tuple[Change, ...]:
    """The figures that are known of both and differ, in the order of FIGURES."""
    one, other = figures_of(before), figures_of(after)
    found = []
    for figure in FIGURES:
        a, b = one[figure], other[figure]
        if isinstance(a, Estimate) and isinstance(b, Estimate) and abs(a.value - b.value) > 1e-9 * abs(a.value):
            found.append(Change(figure, a.value, b.value, a.high < b.low or b.high < a.low))
    return tuple(found)


def change_sentence(before: State, after: State) -> str:
    """One sentence on what the change does, of the figures whose bands do not overlap.

    >>> from crumbcoat_calc.foods.table import food
    >>> from crumbcoat_calc.science.state import state_of
    >>> butter, sugar, milk = food("butter_unsalted"), food("sugar_granulated"), food("milk_whole")
    >>> one = state_of([(butter, 300), (sugar, 200), (milk, 200)], 20)
    >>> change_sentence(one, state_of([(butter, 300), (sugar, 260), (milk, 200)], 20))
    'It becomes leaner, has a stronger syrup and packs its fat looser.'
    """
    words = [
        _WORDS[change.figure][0 if change.difference > 0 else 1]
        for change in changes(before, after)
        if change.beyond_doubt and change.figure in _WORDS
    ]
    if not words:
        return "Nothing changes beyond what the models leave open."
    joined = f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]
    return f"It {'becomes ' if words[0] in _WORDS['fat_percent'] else ''}{joined}."


def _share(amount: Answer, mass_g: float) -> Answer:
    if not isinstance(amount, Estimate) or mass_g <= 0:
        return amount
    part = 100 / mass_g
    return Estimate(part * amount.value, part * amount.low, part * amount.high, amount.model)


def _sum(one: Answer, other: Answer) -> Answer:
    """All sugar, dissolved or not: what the one loses the other gains, so the sum is sure."""
    if not isinstance(one, Estimate):
        return one
    if not isinstance(other, Estimate):
        return other
    total = one.value + other.value
    return Estimate(total, total, total, one.model)
