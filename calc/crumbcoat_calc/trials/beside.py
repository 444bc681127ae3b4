"""Predictions and readings side by side, with the difference; silent where there is no prediction."""

from collections.abc import Iterator
from dataclasses import dataclass

from crumbcoat_calc.science.estimate import Estimate, Estimated
from crumbcoat_calc.science.foam import overrun_percent
from crumbcoat_calc.texts.estimates import estimate_text
from crumbcoat_calc.texts.temperature import mixed_temperature
from crumbcoat_calc.trials.doubts import state_when_read, vessel_when_read
from crumbcoat_calc.trials.finished import conditions_of
from crumbcoat_calc.trials.model import Reading
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.display import mass_text, number_text, plain_number_text

NO_PREDICTION = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What was read, with what was worked out, and the difference; empty texts where nothing was worked out."""

    where: str
    what: str
    predicted: str
    read: str
    difference: str
    note: str = ""

    @property
    def cells(self) -> list[str]:
        """The row of a table."""
        return [self.where, self.what, self.predicted, self.read, self.difference]


def readings_beside(made: MadeTrial) -> list[Beside]:
    """All readings of a trial, in the order of its file."""
    return [row for reading in made.trial.readings for row in _rows(made, reading)]


def mixed_before(made: MadeTrial, reading: Reading) -> Estimated | None:
    """The temperature that mixing gives at the stage of a reading, without the mixer's work.

    None where the stage itself heats or cools, or the reading is at a step before its last one.
    """
    stages = made.recipe.stages
    number = len(stages) - 1 if reading.at is None else reading.at.stage
    steps = stages[number].steps
    if reading.at is not None and reading.at.step not in (None, len(steps) - 1):
        return None
    if any(step.heat_to_c is not None or step.cool_to_c is not None for step in steps):
        return None
    return mixed_temperature(made.batch.vessels[number], conditions_of(made.batch))


def _rows(made: MadeTrial, reading: Reading) -> Iterator[Beside]:
    where, state = _where(made, reading), state_when_read(made, reading)
    note = reading.note or ""

    def row(what: str, predicted: Estimated | None, read: float, digits: int, unit: str, of: str = "") -> Beside:
        return Beside(
            where=where,
            what=what,
            predicted=NO_PREDICTION if predicted is None else estimate_text(predicted, digits, unit) + of,
            read=f"{number_text(read, digits)} {unit}".rstrip(),
            difference=signed_text(predicted, read, digits, unit),
            note=note,
        )

    if reading.temperature_c is not None:
        of = ", before the mixer warms it"
        mixed = mixed_before(made, reading)
        yield row("temperature", mixed, reading.temperature_c, 1, "°C", of if isinstance(mixed, Estimate) else "")
    if reading.mass_g is not None:
        held_g = vessel_when_read(made, reading).mixture.mass_g
        yield Beside(
            where=where,
            what="mass",
            predicted=mass_text(held_g),
            read=mass_text(reading.mass_g),
            difference=f"{_sign(reading.mass_g - held_g)}{mass_text(abs(reading.mass_g - held_g))}",
            note=note,
        )
    if reading.density_g_per_ml is not None:
        density = state.density_g_per_ml
        yield row("density", density, reading.density_g_per_ml, 2, "g/mL", " without air")
        overrun = overrun_percent(density, reading.density_g_per_ml)
        if isinstance(overrun, Estimate):
            shown = estimate_text(overrun, 0, "%")
            yield Beside(where=where, what="overrun", predicted="", read=shown, difference="", note=note)
    if reading.brix_percent is not None:
        yield row("°Brix", state.syrup_strength_percent, reading.brix_percent, 1, "%", " sugar in the syrup")
    if reading.water_activity is not None:
        yield row("water activity", state.water_activity, reading.water_activity, 2, "")
    if reading.ph is not None:
        yield row("pH", None, reading.ph, 1, "")
    if reading.spread_mm is not None:
        yield row("spread", None, reading.spread_mm, 0, "mm")
    if reading.penetration_mm is not None:
        yield row("penetration", None, reading.penetration_mm, 0, "mm")


def signed_text(predicted: Estimated | None, read: float, digits: int, unit: str) -> str:
    """What was read minus what was worked out, with its sign; and whether that is within the band.

    >>> from crumbcoat_calc.science.estimate import Model
    >>> signed_text(Estimate(19.4, 18.9, 19.9, Model("a rule", "everywhere", "definition")), 21.0, 1, "°C")
    '+1.6 °C'
    """
    if not isinstance(predicted, Estimate):
        return ""
    unit = "points" if unit == "%" else unit
    difference = read - predicted.value
    shown = number_text(abs(difference), digits)
    text = f"{_sign(difference) if float(shown.replace(chr(0x202F), '')) else ''}{shown} {unit}".rstrip()
    within = predicted.low < predicted.high and predicted.low <= read <= predicted.high
    return f"{text}, within the band" if within else text


def warmed_texts(made: MadeTrial) -> list[str]:
    """What mixing and chilling did to the temperature, a sentence for each time that it was read before and after."""
    found = []
    for warming in made.trial.mixing:
        where = f"At step {warming.at.written}: " if warming.at else ""
        change = warming.to_c - warming.from_c
        by = f"{_sign(change)}{number_text(abs(change), 1)} °C"
        minutes = number_text(warming.time_s / 60, 1).removesuffix(".0")
        found.append(
            f"{where}{_degrees(warming.from_c)} °C, {_degrees(warming.to_c)} °C after {minutes} min of mixing ({by})."
        )
    for chilling in made.trial.chilling:
        minutes = number_text(chilling.time_s / 60, 1).removesuffix(".0")
        where = f"in a place at {_degrees(chilling.cold_c)} °C"
        found.append(f"From {_degrees(chilling.from_c)} to {_degrees(chilling.to_c)} °C in {minutes} min {where}.")
    return found


def _degrees(t_c: float) -> str:
    return plain_number_text(t_c, 1)


def _where(made: MadeTrial, reading: Reading) -> str:
    if reading.at is None:
        return "finished batch"
    stage = made.recipe.stages[reading.at.stage].title
    if reading.at.step is None:
        return f"after stage {reading.at.stage + 1}, {stage}"
    return f"step {reading.at.written}"


def _sign(difference: float) -> str:
    return "+" if difference > 0 else "−" if difference < 0 else ""
