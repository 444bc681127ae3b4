"""What to try next: half-way between a trial that held and one that broke along a single change."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.trials.changing import planned_from
from crumbcoat_calc.trials.model import Changed
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.outcomes import HELD, outcome_of
from crumbcoat_calc.trials.settings import AMOUNT, TIME, Setting, differing, settings_beside, settings_of
from crumbcoat_calc.values.form_fields import state_number

Point = tuple[float, MadeTrial]


@dataclass(frozen=True, slots=True, kw_only=True)
class Between:
    """The nearest trials along one setting of which one held and the other one broke.

    `value` is half-way; None where the two are the same as far as a kitchen can measure. `waiting` is a trial between
    them that does not say yet what it did. `contradicts`: it broke between two that held, so that nothing follows.
    """

    setting: Setting
    held: Point
    broke: Point
    value: float | None = None
    waiting: MadeTrial | None = None
    contradicts: bool = False


def edges_of(trials: Sequence[MadeTrial]) -> list[Between]:
    """Every edge between holding and breaking that a single change crosses, the latest trials first.

    Trials of the same batch that do not agree take no part: see `disagreeing`.
    """
    doubtful = {made.trial.number for pair in disagreeing(trials) for made in pair}
    trials = [made for made in trials if made.trial.number not in doubtful]
    found: list[Between] = []
    for held in reversed(trials):
        if outcome_of(held.trial) != HELD:
            continue
        for setting, line in _lines(held, trials).items():
            for edge in _edges_along(line, setting):
                if not any(_is_again(edge, other) for other in found):
                    found.append(edge)
    return sorted(found, key=lambda edge: -max(edge.held[1].trial.number, edge.broke[1].trial.number))


def _is_again(edge: Between, other: Between) -> bool:
    """Whether two edges are between the same batches, of which some were made more than once."""
    pairs = ((edge.held[1], other.held[1]), (edge.broke[1], other.broke[1]))
    return edge.setting == other.setting and all(one is two or differing(one, two) == [] for one, two in pairs)


def disagreeing(trials: Sequence[MadeTrial]) -> list[tuple[MadeTrial, MadeTrial]]:
    """Two trials at a time that are the same batch, as far as is written, of which one held and the other one broke."""
    held = [made for made in trials if outcome_of(made.trial) == HELD]
    broke = [made for made in trials if outcome_of(made.trial) not in (HELD, None)]
    return [(one, other) for one in held for other in broke if differing(one, other) == []]


def _lines(held: MadeTrial, trials: Sequence[MadeTrial]) -> dict[Setting, list[Point]]:
    """By each setting the trials that differ from one in nothing else but perhaps the size of the batch, in order."""
    own = settings_of(held.recipe)
    lines: dict[Setting, list[Point]] = {}
    for made in trials:
        differences = None if made is held else differing(held, made)
        if differences and len(differences) == 1:
            (setting,) = differences
            line = lines.setdefault(setting, [(own[setting], held)])
            line.append((settings_beside(held, made)[setting], made))
    return {setting: sorted(line, key=_value) for setting, line in lines.items()}


def _edges_along(line: Sequence[Point], setting: Setting) -> Iterator[Between]:
    held = [point for point in line if outcome_of(point[1].trial) == HELD]
    broke = [point for point in line if outcome_of(point[1].trial) not in (HELD, None)]
    low, high = held[0], held[-1]
    inside = [point for point in broke if low[0] <= point[0] <= high[0]]
    above = [point for point in broke if point[0] > high[0]]
    below = [point for point in broke if point[0] < low[0]]
    if inside:
        nearest = min(held, key=lambda point: abs(point[0] - inside[0][0]))
        yield Between(setting=setting, held=nearest, broke=inside[0], contradicts=True)
        return
    for inner, outer in ((high, min(above, key=_value, default=None)), (low, max(below, key=_value, default=None))):
        if outer is not None:
            yield _edge(setting, inner, outer, line)


def _value(point: Point) -> float:
    return point[0]


def _edge(setting: Setting, held: Point, broke: Point, line: Sequence[Point]) -> Between:
    low, high = sorted((held[0], broke[0]))
    waiting = [made for value, made in line if low < value < high and outcome_of(made.trial) is None]
    middle = rounded_for_the_bench(setting, (low + high) / 2)
    apart = not setting.is_same(low, middle) and not setting.is_same(middle, high)
    return Between(
        setting=setting,
        held=held,
        broke=broke,
        value=middle if apart and not waiting else None,
        waiting=waiting[0] if waiting else None,
    )


def rounded_for_the_bench(setting: Setting, value: float) -> float:
    """A value that can be weighed, read or timed: 1 g from 20 g on, 0.1 g from 2 g, 0.5 °C, 15 s.

    >>> from crumbcoat_calc.trials.settings import Setting
    >>> rounded_for_the_bench(Setting(field="amount"), 174.6), rounded_for_the_bench(Setting(field="amount"), 1.234)
    (175.0, 1.23)
    """
    if setting.field == AMOUNT:
        return round(value, 0 if value >= 20 else 1 if value >= 2 else 2)
    step = 15 if setting.field == TIME else 0.5
    return round(value / step) * step


def change_to(setting: Setting, value: float) -> Changed:
    """The change that sets one thing, as a trial has it."""
    number = state_number(value)
    written = f"{number} g" if setting.field == AMOUNT else f"{number} s" if setting.field == TIME else f"{number} °C"
    if setting.place:
        return Changed(ingredients={}, steps={setting.place: {setting.field: written}})
    return Changed(ingredients={setting.ingredient: {setting.field: written}}, steps={})


def batch_with(base: Mapping[str, object], changed: Changed) -> Batch:
    """The batch that a change makes of a recipe's fields.

    Raises:
        InputError: if it makes no recipe.
    """
    recipe, _ = planned_from(base, changed)
    return batch_of(recipe)


def nearest_pair(trials: Sequence[MadeTrial]) -> tuple[MadeTrial, MadeTrial, list[Setting] | None] | None:
    """A trial that held and one that broke with the fewest differences, and these; None without such two."""
    pairs = [
        (held, broke, differing(held, broke))
        for held in trials
        for broke in trials
        if outcome_of(held.trial) == HELD and outcome_of(broke.trial) not in (HELD, None)
    ]
    return min(pairs, key=lambda pair: 1000 if pair[2] is None else len(pair[2]), default=None)
