"""What the readings of a recipe's trials calibrate, for the terminal."""

from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.science.chilling import chilling_min
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.texts.estimates import estimate_text
from crumbcoat_calc.trials.calibration import BOILED_OFF, CHILLING, MIXER, OVERRUN, UNITS, Calibrated, calibrated
from crumbcoat_calc.values.display import celsius_text, number_text

from crumbcoat_site.command.trial_book import TrialBook

_WHAT = {
    MIXER: "The mixer leaves {} in the batch",
    BOILED_OFF: "{} of water boils off",
    OVERRUN: "The overrun is {}",
    CHILLING: "The bowl cools in your refrigerator with a time constant of {}",
}
_DIGITS = {MIXER: 0, BOILED_OFF: 0, OVERRUN: 0, CHILLING: 1}

_NOTHING = """\
The trials have no readings that calibrate anything yet. These would:
    mixing: [{at: 2.1, from: 18 °C, to: 21 °C, time: 8 min}]            what the mixer leaves in the batch
    readings: [{at: 1, mass: 480 g}]                                    after a heated stage: the water boiled off
    readings: [{temperature: 20 °C, cup: US cup, cup_weighs: 200 g}]    of the finished batch: the air in it
    chilling: [{from: 30 °C, to: 20 °C, cold: 4 °C, time: 25 min}]      how fast the bowl cools"""

_HOW = """\
Bands: least squares over the readings, with 95 % confidence by Student's t, from nothing but their scatter.
One reading gives no band."""


def readings_text(book: TrialBook) -> str:
    """What the readings of the trials say, each with its band and what each trial alone gives."""
    found = calibrated(book.made)
    if not found:
        return "\n".join([_NOTHING, *book.notes])
    return "\n\n".join(["\n".join([_sentence(book, one), _each(one)]) for one in found] + [_HOW, *book.notes])


def _sentence(book: TrialBook, found: Calibrated) -> str:
    unit, digits = f" {UNITS[found.what]}", _DIGITS[found.what]
    value = f"{number_text(found.value, digits)}{unit}"
    band = (
        f"{number_text(found.band[0], digits)} to {number_text(found.band[1], digits)}{unit}"
        if found.band
        else "no band"
    )
    count = len(found.values)
    readings = "1 reading" if count == 1 else f"{count} readings"
    batches = "1 batch" if found.batches == 1 else f"{found.batches} batches"
    stage = "" if found.stage is None else f", stage {found.stage + 1}"
    planned = _planned(book, found)
    return f"{_WHAT[found.what].format(value)} ({band}){stage}: from {readings} of {batches}.{planned}"


def _planned(book: TrialBook, found: Calibrated) -> str:
    """What the recipe says of the same, or what that means."""
    if found.what == CHILLING:
        cold_c = constants("kitchen")["refrigerator"]
        needed = chilling_min(30, 20, cold_c, found.value)
        return f" At {celsius_text(cold_c)}, from 30 to 20 °C, that is {estimate_text(needed, 0, 'min')}."
    if found.what != BOILED_OFF or found.stage is None or found.stage >= len(book.recipe.stages):
        return ""
    lost_g = batch_of(book.recipe).vessels[found.stage].water_lost_g
    return f" The recipe says {number_text(lost_g, 0)} g." if lost_g else " The recipe has no `water_lost` there."


def _each(found: Calibrated) -> str:
    unit, digits = f" {UNITS[found.what]}", _DIGITS[found.what]
    shown = [f"trial {number} {number_text(value, digits)}{unit}" for number, value in found.values]
    return f"    {', '.join(shown)}"
