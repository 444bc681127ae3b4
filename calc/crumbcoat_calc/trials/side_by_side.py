"""Trials side by side: every figure of a card for each of them, and what it costs where prices are shown."""

from collections.abc import Sequence

from crumbcoat_calc.purchasing.cost import cost_of
from crumbcoat_calc.purchasing.prices import Prices
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.science.change import compared_figures
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.texts.comparison import LABELS, figure_cell
from crumbcoat_calc.texts.cost import cost_texts
from crumbcoat_calc.texts.explained import EXPLAINED
from crumbcoat_calc.texts.science import figure_texts
from crumbcoat_calc.texts.warming import warming_texts
from crumbcoat_calc.trials.finished import batch_state, conditions_of, structure
from crumbcoat_calc.values.display import mass_text

Group = tuple[str, list[list[str]]]
"""A heading, and rows of a label and a cell for each batch."""

_IN_100_G = ("fat_percent", "water_percent", "sugar_percent", "undissolved_sugar_percent")

_SENTENCES = ("headroom", "packing", "inside", "lactose_supersaturation")
"""Figures that are sentences on a card, too long for a column."""


def side_by_side(batches: Sequence[Batch], prices: Prices | None) -> list[Group]:
    """The batches as columns: their ingredients, what 100 g are made of, the figures of the science, and the cost."""
    states = [batch_state(batch) for batch in batches]
    groups: list[Group] = [("Ingredients", _ingredients(batches)), ("In 100 g", _compared(states))]
    shown = [figure_texts(state, structure(batch)) for batch, state in zip(batches, states, strict=True)]
    by_group: dict[str, list[list[str]]] = {}
    for one in EXPLAINED:
        if one.key not in _SENTENCES and all(f"science.{one.key}" in texts for texts in shown):
            cells = [str(texts[f"science.{one.key}"]) for texts in shown]
            if any(not cell.startswith("not given") for cell in cells):
                by_group.setdefault(one.group, []).append([one.label, *cells])
    groups += by_group.items()
    warming = _warming(batches, states)
    groups += [("Solid fat in 100 g as it warms", warming)] if warming else []
    if prices:
        costs = [[list(row) for row in cost_texts(batch, cost_of(batch, prices))["cost.sums"]] for batch in batches]
        rows = [[costs[0][at][0], *(cost[at][1] for cost in costs)] for at in range(2)]
        groups.append(("Cost", rows))
    return groups


def _ingredients(batches: Sequence[Batch]) -> list[list[str]]:
    names: dict[str, str] = {}
    for batch in batches:
        for one in batch.recipe.ingredients:
            names.setdefault(one.key, one.name)
    masses = [{one.key: one.mass_g for one in batch.recipe.ingredients} for batch in batches]
    rows = [[name, *(mass_text(of[key]) if of.get(key) else "none" for of in masses)] for key, name in names.items()]
    return [*rows, ["Finished batch", *(mass_text(batch.total.mass_g) for batch in batches)]]


def _warming(batches: Sequence[Batch], states: Sequence[MixtureState]) -> list[list[str]]:
    """Solid fat at the temperatures of a card; none where it is not given for any of them."""
    found = []
    for batch, state in zip(batches, states, strict=True):
        texts = warming_texts(batch, conditions_of(batch), state, batch.recipe.measured.density_g_per_ml, by_fat=None)
        found.append({row[0]: row[1] for row in map(list, texts["rows.warming"])})
    degrees = dict.fromkeys([t_c for cells in found for t_c in cells])
    return [[t_c, *(cells.get(t_c, "not given") for cells in found)] for t_c in degrees]


def _compared(states: Sequence[MixtureState]) -> list[list[str]]:
    figures = [compared_figures(state) for state in states]
    return [
        [
            LABELS[figure][0],
            *(figure_cell(state, of[figure], figure) for state, of in zip(states, figures, strict=True)),
        ]
        for figure in _IN_100_G
    ]
