"""The finished batch of a trial: its state and structure as a card shows them."""

from crumbcoat_calc.forms.conditions import Conditions, as_published
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.science.structure import Structure, structure_of
from crumbcoat_calc.texts.science import treated_parts, vessel_state
from crumbcoat_calc.trials.notebook import MadeTrial


def finished_state(made: MadeTrial) -> MixtureState:
    """The finished batch, at rest at the temperature of the kitchen."""
    return batch_state(made.batch)


def origin_state(made: MadeTrial) -> MixtureState:
    """The same of what the trial came from."""
    return batch_state(made.origin)


def batch_state(batch: Batch) -> MixtureState:
    """A finished batch, at rest at the temperature of the kitchen, as its card shows it."""
    return vessel_state(batch.vessels[-1], conditions_of(batch).bowl_c)


def structure(batch: Batch) -> Structure:
    """What holds a finished batch."""
    return structure_of(treated_parts(batch.vessels[-1]), batch.recipe.family, batch_state(batch))


def conditions_of(batch: Batch) -> Conditions:
    """The conditions of a card as published."""
    return as_published(batch.recipe)
