"""What a kitchen's own readings say of what is otherwise guessed: mixer, water boiled off, air, chilling."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.recipe.batch import Vessel
from crumbcoat_calc.science.constants import temperatures_c
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.foam import overrun_percent
from crumbcoat_calc.science.heat import combined, heat_content
from crumbcoat_calc.science.solid_fat import melting_heat_j_per_g, solid_percents
from crumbcoat_calc.trials.doubts import state_when_read
from crumbcoat_calc.trials.least_squares import slope_of
from crumbcoat_calc.trials.model import Place, Warming
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.outcomes import HELD, outcome_of
from crumbcoat_calc.trials.vessels import vessel_at
from crumbcoat_calc.values.display import plain_number_text

MIXER, BOILED_OFF, OVERRUN, CHILLING = "mixer", "boiled off", "overrun", "chilling"

UNITS = {MIXER: "W", BOILED_OFF: "g", OVERRUN: "%", CHILLING: "min"}
"""What readings calibrate, and its unit: the power that a mixer leaves in a batch, the water that boils off in a stage,
the air in the finished batch, and the time constant of the bowl in the cold.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibrated:
    """What readings say of one thing, a key of UNITS: its value, and its band if there is one, in that unit.

    `stage`, counted from 0, is where it was read; None for the finished batch. `values` has what each reading alone
    gives, with the number of its trial; `batches` counts the trials.
    """

    what: str
    stage: int | None
    value: float
    band: tuple[float, float] | None
    values: tuple[tuple[int, float], ...]

    @property
    def batches(self) -> int:
        return len({number for number, _ in self.values})


def calibrated(trials: Sequence[MadeTrial]) -> tuple[Calibrated, ...]:
    """Everything that the readings of some trials of one recipe calibrate, in the order of UNITS and of the stages.

    Readings that can hardly be, such as a mass above what went in, or a foam denser than without air, do not count; nor
    does the air in a batch that did not hold.
    """
    found: list[Calibrated] = []
    for what, read in ((MIXER, _mixings), (BOILED_OFF, _losses)):
        for stage in range(max([len(made.recipe.stages) for made in trials], default=0)):
            found += _fitted(
                what, stage, [(made.trial.number, *point) for made in trials for point in read(made, stage)]
            )
    found += _fitted(OVERRUN, None, [(made.trial.number, *point) for made in trials for point in _overruns(made)])
    found += _fitted(CHILLING, None, [(made.trial.number, *point) for made in trials for point in _chillings(made)])
    return tuple(found)


def _fitted(what: str, stage: int | None, readings: Sequence[tuple[int, float, float]]) -> Iterator[Calibrated]:
    """The slope of some readings; of chilling, its inverse, since it is the temperature that has the scatter."""
    if not readings:
        return
    slope = slope_of([(x, y) for _, x, y in readings])
    value, band = slope.value, slope.band
    values = [(number, y / x) for number, x, y in readings]
    if what == CHILLING:
        value, values = 1 / value, [(number, 1 / of_one) for number, of_one in values]
        band = (1 / band[1], 1 / band[0]) if band and band[0] > 0 else None
    yield Calibrated(what=what, stage=stage, value=value, band=band, values=tuple(values))


def _mixings(made: MadeTrial, stage: int) -> Iterator[tuple[float, float]]:
    """Seconds of mixing in a stage, and the heat that the batch took up, J: their slope is a power in W."""
    last, (lowest, _) = len(made.recipe.stages) - 1, temperatures_c("heat-balance")
    for warming in made.trial.mixing:
        place = warming.at or Place(stage=last)
        if place.stage == stage and lowest <= min(warming.from_c, warming.to_c):
            yield warming.time_s, warming_j(vessel_at(made.recipe, place), warming)


def warming_j(vessel: Vessel, warming: Warming) -> float:
    """Heat that the contents of a vessel took up between two temperatures, J, by the typical curves of its fats.

        heat = integral of cp dt + fat * (solid share before - solid share after) * melting heat

    What dissolved meanwhile, and what bowl and room gave or took, is not counted.

    Source:
        choi-okos-1986, versteeg-2016, memory (melting heats); derivation (heat balance).
    """
    content = combined([heat_content(part.food, part.mass_g) for part in vessel.parts if part.mass_g > 0])
    first_c, last_c = warming.from_c, warming.to_c
    melted_j = [
        fat_g * (solid_percents(fat, first_c)[0] - solid_percents(fat, last_c)[0]) / 100 * melting_heat_j_per_g(fat)[0]
        for fat, fat_g in content.fats
    ]
    return content.sensible_j(last_c) - content.sensible_j(first_c) + fsum(melted_j)


def _losses(made: MadeTrial, stage: int) -> Iterator[tuple[float, float]]:
    """1, and the water that boiled off up to a place in a stage that is heated, g: what went in minus what was read."""
    heated = any(step.heat_to_c is not None or step.water_lost_g for step in made.recipe.stages[stage].steps)
    for reading in made.trial.readings if heated else ():
        if reading.at is None or reading.at.stage != stage or reading.mass_g is None:
            continue
        vessel = vessel_at(made.recipe, reading.at)
        went_in_g = fsum([part.mass_g for part in vessel.parts])
        if reading.mass_g <= 1.02 * went_in_g + 1:
            yield 1.0, went_in_g - reading.mass_g


def _overruns(made: MadeTrial) -> Iterator[tuple[float, float]]:
    """1, and the overrun of the finished batch in %, from its last density, if the batch held or nothing is said."""
    if outcome_of(made.trial) not in (HELD, None):
        return
    read = [reading for reading in made.trial.readings if reading.at is None and reading.density_g_per_ml is not None]
    for reading in read[-1:]:
        overrun = overrun_percent(state_when_read(made, reading).density_g_per_ml, reading.density_g_per_ml or 0.0)
        if isinstance(overrun, Estimate):
            yield 1.0, overrun.value


def _chillings(made: MadeTrial) -> Iterator[tuple[float, float]]:
    """Minutes in the cold, and how far the batch cooled, ln((T0 - Ta) / (T - Ta)): their slope is 1 / time constant."""
    for chilling in made.trial.chilling:
        first, last = chilling.from_c - chilling.cold_c, chilling.to_c - chilling.cold_c
        yield chilling.time_s / 60, math.log(first / last)


def for_the_card(trials: Sequence[MadeTrial], last_stage: int) -> dict[str, list[str] | str]:
    """What a card uses, as plain data for the context of its page: by name the value, its band, the batches.

    The mixer's work is that of the last stage with such readings; `mixer_stage` has its number unless it is the last
    stage of the recipe.

    Args:
        last_stage: the position of the last stage of the recipe.
    """
    found: dict[str, list[str] | str] = {}
    for one in calibrated(trials):
        if one.what == BOILED_OFF or one.value <= 0 or (one.band and one.band[0] <= 0):
            continue
        ends = [plain_number_text(end, 1) for end in (one.value, *(one.band or ()))]
        found[one.what] = [*ends, str(one.batches)]
        if one.what == MIXER:
            found["mixer_stage"] = str((one.stage or 0) + 1)
    if found.get("mixer_stage") == str(last_stage + 1):
        del found["mixer_stage"]
    return found
