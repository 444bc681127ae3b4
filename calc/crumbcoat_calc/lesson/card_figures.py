"""What the card of a recipe says of a finished batch, as far as exercises use it: they never contradict it."""

from dataclasses import dataclass

from crumbcoat_calc.recipe.model import Recipe, Step
from crumbcoat_calc.science.estimate import Estimate, Estimated
from crumbcoat_calc.science.structure import Structure

_EXPECTED_OFF = 0.1
"""By which share a density that was worked out may be off (an assumption; that of texts/air.py)."""

_LEAST_OVERRUN = 0.05
"""From this overrun on, taken at its lowest, there is an exercise about it (our choice)."""

_DISSOLVED_G = 0.01
"""Up to this much undissolved sugar in 100 g, all of it is dissolved, as why_sentences.csv has it."""

_BEATS = ("mixer", "beater", "whisk")


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFigures:
    """Figures of a finished batch at rest; `fat_percent` is None if it is not known.

    `air` has the densities in g/mL without and with the air that was beaten in; None if no density is stated, if
    nothing was beaten in, or if that is not certain. `worked_out` says that nobody measured the density yet.
    `structure` is what holds it, and `slumps_c` the temperature in °C from which it slumps by its card, where the card
    says so.
    """

    fat_percent: float | None
    air: tuple[float, float] | None
    worked_out: bool
    all_dissolved: bool
    structure: Structure
    slumps_c: float | None = None


def air_of(recipe: Recipe, mix: Estimated, structure: Structure) -> tuple[float, float] | None:
    """The densities in g/mL without the air and with it, where it is certain that air was beaten in.

    Args:
        mix: the density without air.
    """
    finished = recipe.measured.density_g_per_ml
    beaten = any(beats(step) for stage in recipe.stages for step in stage.steps)
    if finished is None or not beaten or structure.nothing_holds or not isinstance(mix, Estimate):
        return None
    return (mix.value, finished) if mix.low >= (1 + _LEAST_OVERRUN) * (1 + _EXPECTED_OFF) * finished else None


def dissolves(undissolved_g: Estimated, mass_g: float) -> bool:
    """Whether all the sugar of a batch is dissolved, by the card."""
    return isinstance(undissolved_g, Estimate) and 100 * undissolved_g.high <= _DISSOLVED_G * mass_g


def beats(step: Step) -> bool:
    """Whether a step beats air in: with a mixer, a beater or a whisk at a speed.

    A blender is not one of them (common practice, no source).
    """
    tool = (step.tool or "").lower()
    return step.speed not in (None, "by hand") and any(word in tool for word in _BEATS)
