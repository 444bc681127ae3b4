"""Texts of recipes side by side: a row for each, a chart of their fat, and the change from one to another."""

from collections.abc import Sequence

from crumbcoat_calc.foods.figures import energy_figure_texts, share_text
from crumbcoat_calc.forms.context import PublishedRecipe
from crumbcoat_calc.pictures.bars import Bar, bar_chart
from crumbcoat_calc.science.between import StateBetween
from crumbcoat_calc.science.change import COMPARED_FIGURES, change_sentence, compared_figures
from crumbcoat_calc.science.estimate import Estimate, Estimated
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.estimates import cell_text
from crumbcoat_calc.values.display import number_text

LABELS = {
    "fat_percent": ("Fat", 1, "%"),
    "water_percent": ("Water", 1, "%"),
    "sugar_percent": ("Sugars", 1, "%"),
    "syrup_strength_percent": ("Strength of the syrup", 1, "%"),
    "undissolved_sugar_percent": ("Undissolved sugar", 1, "%"),
    "fat_volume_percent": ("Fat by volume", 0, "%"),
    "density_g_per_ml": ("Density without air", 2, "g/mL"),
    "water_activity": ("Water activity", 2, ""),
}
"""Label, digits and unit of each figure of science/change.py."""


def comparison_texts(recipes: Sequence[PublishedRecipe], states: Sequence[MixtureState]) -> Texts:
    """`rows.compare`: title, family, the figures of LABELS, energy of 100 g; and `picture.compare`."""
    rows: list[list[str]] = []
    bars: list[Bar] = []
    for one, state in zip(recipes, states, strict=True):
        figures = compared_figures(state)
        _, energy_100g = energy_figure_texts(one.batch.total)
        cells = [figure_cell(state, figures[figure], figure) for figure in COMPARED_FIGURES]
        rows.append([one.recipe.title, one.recipe.family, *cells, energy_100g])
        fat = one.batch.total.percent("fat_g")
        name = f"{one.recipe.title} ({one.recipe.family})"
        bars.append(Bar(name=name, size=fat, text=share_text(one.batch.total, "fat_g"), marked=len(bars) == 0))
    chart = bar_chart("compare", "Fat of each recipe with its family, g per 100 g", bars)
    return {"rows.compare": rows, "picture.compare": chart}


def change_texts(recipes: Sequence[PublishedRecipe], states: Sequence[MixtureState]) -> Texts:
    """`change.of`, `change` in a sentence and `rows.change` in figures, from the first recipe to the second."""
    before, after = compared_figures(states[0]), compared_figures(states[1])
    rows = []
    for figure in COMPARED_FIGURES:
        label, digits, unit = LABELS[figure]
        rows.append(
            [
                label,
                figure_cell(states[0], before[figure], figure),
                figure_cell(states[1], after[figure], figure),
                difference_text(before[figure], after[figure], digits, unit),
            ]
        )
    return {
        "change.of": f"From “{recipes[0].recipe.title}” to “{recipes[1].recipe.title}”",
        "change": change_sentence(states[0], states[1]),
        "rows.change": rows,
    }


def figure_cell(state: MixtureState, answer: Estimated, figure: str) -> str:
    """A figure as its value; as a range if not everything in the mixture is known."""
    _, digits, unit = LABELS[figure]
    return cell_text(answer, digits, unit, band=isinstance(state, StateBetween))


def difference_text(before: Estimated, after: Estimated, digits: int, unit: str) -> str:
    """How much more or less the second is, in points for percentages, and whether that is within the bands."""
    if not isinstance(before, Estimate) or not isinstance(after, Estimate):
        return "not given"
    change = after.value - before.value
    shown = number_text(abs(change), digits)
    if float(shown.replace("\u202f", "")) == 0:
        return "the same"
    sure = before.high < after.low or after.high < before.low
    words = f"{shown} {'points' if unit == '%' else unit}".rstrip() + (" more" if change > 0 else " less")
    return words if sure else f"{words}, within the bands"
