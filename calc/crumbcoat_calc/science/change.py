"""The change from one mixture to another: figures before and after, and a sentence."""

from dataclasses import dataclass

from crumbcoat_calc.science.estimate import Estimate, Estimated, Withheld
from crumbcoat_calc.science.state import MixtureState


@dataclass(frozen=True, slots=True)
class FigureChange:
    """A figure before and after; `beyond_doubt` if the two bands do not overlap."""

    figure: str
    before: float
    after: float
    beyond_doubt: bool

    @property
    def difference(self) -> float:
        return self.after - self.before


COMPARED_FIGURES = (
    "fat_percent",
    "water_percent",
    "sugar_percent",
    "syrup_strength_percent",
    "undissolved_sugar_percent",
    "fat_volume_percent",
    "density_g_per_ml",
    "water_activity",
)
"""What is compared, in this order; percent is of the whole mass unless the name says otherwise."""

_WORDS = {
    "fat_percent": ("richer in fat", "leaner"),
    "syrup_strength_percent": ("has a stronger syrup", "has a weaker syrup"),
    "undissolved_sugar_percent": ("leaves more sugar undissolved", "leaves less sugar undissolved"),
    "fat_volume_percent": ("packs its fat more closely", "packs its fat more loosely"),
}


def compared_figures(state: MixtureState) -> dict[str, Estimated]:
    """The figures by which mixtures are compared, in the order of COMPARED_FIGURES."""
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


def figure_changes(before: MixtureState, after: MixtureState) -> tuple[FigureChange, ...]:
    """The figures that are known for both and differ, in the order of COMPARED_FIGURES."""
    figures_before, figures_after = compared_figures(before), compared_figures(after)
    found = []
    for figure in COMPARED_FIGURES:
        old, new = figures_before[figure], figures_after[figure]
        if isinstance(old, Withheld) or isinstance(new, Withheld):
            continue
        if abs(old.value - new.value) > 1e-9 * abs(old.value):
            found.append(FigureChange(figure, old.value, new.value, old.high < new.low or new.high < old.low))
    return tuple(found)


def change_sentence(before: MixtureState, after: MixtureState) -> str:
    """What the change does in one sentence, from the figures whose bands do not overlap.

    >>> from crumbcoat_calc.foods.table import food
    >>> from crumbcoat_calc.science.state import mixture_state
    >>> butter, sugar, milk = food("butter_unsalted"), food("sugar_granulated"), food("milk_whole")
    >>> before = mixture_state([(butter, 300), (sugar, 200), (milk, 200)], 20)
    >>> change_sentence(before, mixture_state([(butter, 300), (sugar, 260), (milk, 200)], 20))
    'It becomes leaner, has a stronger syrup and packs its fat more loosely.'
    """
    words = [
        _WORDS[change.figure][0 if change.difference > 0 else 1]
        for change in figure_changes(before, after)
        if change.beyond_doubt and change.figure in _WORDS
    ]
    if not words:
        return "Nothing changes by more than the models leave open."
    joined = f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]
    return f"It {'becomes ' if words[0] in _WORDS['fat_percent'] else ''}{joined}."


def _share(amount: Estimated, mass_g: float) -> Estimated:
    if not isinstance(amount, Estimate) or mass_g <= 0:
        return amount
    per_g = 100 / mass_g
    return Estimate(per_g * amount.value, per_g * amount.low, per_g * amount.high, amount.model)


def _sum(dissolved: Estimated, undissolved: Estimated) -> Estimated:
    """All sugar: one is what the other is not, so their sum has no band."""
    if not isinstance(dissolved, Estimate):
        return dissolved
    if not isinstance(undissolved, Estimate):
        return undissolved
    total = dissolved.value + undissolved.value
    return Estimate(total, total, total, dissolved.model)
