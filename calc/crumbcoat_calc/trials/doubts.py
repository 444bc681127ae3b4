"""What is written in a trial and can hardly be: it is shown with the doubt, and never dropped."""

from collections.abc import Iterator

from crumbcoat_calc.errors import Path
from crumbcoat_calc.recipe.batch import Vessel
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.state import MixtureState
from crumbcoat_calc.texts.science import vessel_state
from crumbcoat_calc.trials.model import Reading, Trial
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.display import celsius_text, mass_text, number_text

Doubt = tuple[Path, str, str]
"""Where it is in the trial file, what is doubtful, and what to look at."""


def doubts_of(made: MadeTrial, recipe_mark: str) -> list[Doubt]:
    """The doubts about a trial, in the order of its file.

    Args:
        recipe_mark: the mark of the recipe as it is now.
    """
    return [*_moved_on(made, recipe_mark), *_dates(made), *_readings(made), *_seen(made)]


def state_when_read(made: MadeTrial, reading: Reading) -> MixtureState:
    """The contents of the bowl at the stage of a reading, at rest at the temperature that was read, or of a kitchen."""
    t_c = constants("kitchen")["room"] if reading.temperature_c is None else reading.temperature_c
    return vessel_state(vessel_when_read(made, reading), t_c)


def vessel_when_read(made: MadeTrial, reading: Reading) -> Vessel:
    """The bowl at the stage of a reading."""
    return made.batch.vessels[-1 if reading.at is None else reading.at.stage]


def is_of_an_older_recipe(trial: Trial, recipe_mark: str) -> bool:
    """Whether a trial changes the recipe, and the recipe has changed since the trial was begun."""
    return trial.came_from is None and trial.recipe_mark not in (None, recipe_mark)


def _moved_on(made: MadeTrial, recipe_mark: str) -> Iterator[Doubt]:
    if is_of_an_older_recipe(made.trial, recipe_mark):
        yield (
            ("recipe",),
            "the recipe has changed since this trial was begun, and what the trial does not say is taken from it",
            "write what was different then under `changed`, and the new mark "
            f"`{recipe_mark}` here; `publish-trial` keeps the recipe as it was",
        )


def _dates(made: MadeTrial) -> Iterator[Doubt]:
    if made.before and made.before.trial.date > made.trial.date:
        yield (
            ("date",),
            f"trial {made.trial.number} came from trial {made.before.trial.number}, which is later "
            f"({made.before.trial.date})",
            "check both dates, and `from`",
        )


def _seen(made: MadeTrial) -> Iterator[Doubt]:
    for number, seen in enumerate(made.trial.seen):
        step = made.recipe.stages[seen.at.stage].steps[seen.at.step or 0]
        if not step.checkpoint:
            yield (
                ("seen", number, "at"),
                f"step {seen.at.written} has no checkpoint that says what to look for",
                "check the number of the step, or give the step a checkpoint in the recipe",
            )


def _readings(made: MadeTrial) -> Iterator[Doubt]:
    for place, reading in enumerate(made.trial.readings):
        state = state_when_read(made, reading)
        density, read = state.density_g_per_ml, reading.density_g_per_ml
        if read is not None and isinstance(density, Estimate) and read > 1.01 * density.high:
            yield (
                ("readings", place, "density"),
                f"{number_text(read, 2)} g/mL is more than without any air ({number_text(density.high, 2)} g/mL)",
                "weigh the empty cup again, and fill it level",
            )
        most = state.sucrose_saturation_percent
        if reading.brix_percent is not None and isinstance(most, Estimate) and reading.brix_percent > most.high + 2:
            yield (
                ("readings", place, "brix"),
                f"{number_text(reading.brix_percent, 1)} °Brix is more than a syrup of sucrose can hold at "
                f"{celsius_text(state.at_c)} ({number_text(most.high, 1)} %)",
                "read it again on a clear drop, without crystals and fat",
            )
        held_g = vessel_when_read(made, reading).mixture.mass_g
        if reading.mass_g is not None and reading.mass_g > 1.02 * held_g + 1:
            yield (
                ("readings", place, "mass"),
                f"{mass_text(reading.mass_g)} is more than went in up to there ({mass_text(held_g)})",
                "take the weight of the bowl off",
            )
