"""What to try next, in sentences with the figures."""

from collections.abc import Sequence

from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.trials.next_step import Between, batch_with, change_to, disagreeing, edges_of, nearest_pair
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.outcomes import HELD, outcome_of
from crumbcoat_calc.trials.settings import AMOUNT, Setting, settings_of
from crumbcoat_calc.values.display import list_text, number_text

_FIGURES = {"fat_g": "fat", "water_g": "water", "sugars_g": "sugars"}
_SEEN_POINTS = 0.5
"""A change of a percentage that is worth a word (common practice, no source)."""


def next_texts(trials: Sequence[MadeTrial]) -> list[str]:
    """What the trials say about the next one, a sentence for each edge; or what is missing."""
    again = [
        f"Trial {held.trial.number} held, and trial {broke.trial.number} {_did(broke)}, and they are the same batch "
        "as far as is written: make it again, and note what was different."
        for held, broke in disagreeing(trials)
    ]
    return again + [edge_text(edge) for edge in edges_of(trials)] or [_missing_text(trials)]


def edge_text(edge: Between) -> str:
    """One edge between holding and breaking, and what to try.

    Such as "24.0 % fat held (trial 2, butter 200 g), 20.1 % split (trial 4, butter 150 g): try 22.1 % fat, that is
    butter 175 g."
    """
    setting, held = edge.setting, edge.held[1]
    figure = _figure(setting, held.batch, edge.broke[1].batch)
    known = _known_text(edge, figure)
    if edge.contradicts:
        number = edge.broke[1].trial.number
        return f"{known}, though others held on both sides of that: nothing follows. Make trial {number} again."
    if edge.waiting:
        return f"{known}: trial {edge.waiting.trial.number} is between them. Fill in what it did."
    if edge.value is None:
        return f"{known}: the edge is known as closely as a kitchen can set it."
    shown = setting.text(edge.value)
    if not figure:
        return f"{known}: try {shown}."
    percent = batch_with(held.planned, change_to(setting, edge.value)).total.percent(figure)
    return f"{known}: try {number_text(percent or 0.0, 1)} % {_FIGURES[figure]}, that is {shown}."


def _known_text(edge: Between, figure: str) -> str:
    (value, held), (other_value, broke) = edge.held, edge.broke
    shown, other = edge.setting.text(value), edge.setting.text(other_value)
    if not edge.setting.is_same(other_value, settings_of(broke.recipe)[edge.setting]):
        other = f"{other} in a batch of this size"
    numbers, did = (held.trial.number, broke.trial.number), _did(broke)
    if not figure:
        return f"It held with {shown} (trial {numbers[0]}) and {did} with {other} (trial {numbers[1]})"
    percents = [f"{number_text(made.batch.total.percent(figure) or 0.0, 1)} %" for made in (held, broke)]
    return (
        f"{percents[0]} {_FIGURES[figure]} held (trial {numbers[0]}, {shown}), "
        f"{percents[1]} {did} (trial {numbers[1]}, {other})"
    )


def _did(made: MadeTrial) -> str:
    did = outcome_of(made.trial) or ""
    return f"was {did}" if did in _STATES else did


_STATES = ("too soft", "too stiff", "grainy")
"""The outcomes that a sentence says with "was"."""


def _figure(setting: Setting, first: Batch, second: Batch) -> str:
    """The figure that an amount changes most, if that can be seen; empty for any other setting."""
    changes = {}
    for figure in _FIGURES if setting.field == AMOUNT else ():
        one, other = first.total.percent(figure), second.total.percent(figure)
        if one is not None and other is not None:
            changes[figure] = abs(one - other)
    most = max(changes, key=lambda figure: changes[figure], default="")
    return most if most and changes[most] >= _SEEN_POINTS else ""


def _missing_text(trials: Sequence[MadeTrial]) -> str:
    """What is missing before anything can be said about the next trial."""
    outcomes = [outcome_of(made.trial) for made in trials]
    if not trials:
        return "There is no trial yet that can be used. Begin one with `crumbcoat new-trial`."
    if set(outcomes) == {None}:
        return "No trial says what it did. Add `did: held`, or what went wrong, to each."
    if HELD not in outcomes:
        return "No trial held. Begin from one with a larger change, or from the recipe."
    if set(outcomes) <= {HELD, None}:
        return "No trial broke. To find how far it can go, change one thing until it does."
    pair = nearest_pair(trials)
    assert pair
    held, broke, settings = pair
    numbers = f"Trials {held.trial.number} (held) and {broke.trial.number} ({outcome_of(broke.trial)})"
    if settings is None:
        return (
            f"{numbers} differ in more than amounts, temperatures and times. Make one that changes one of these only."
        )
    names = list_text([setting.name for setting in settings])
    return f"{numbers} differ in {names}. Make a trial that changes only one of them."
