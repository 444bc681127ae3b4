"""Texts about what the author's own batches say of mixer and bowl."""

from crumbcoat_calc.forms.our_readings import OurReading, OurReadings
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.display import number_text


def our_texts(ours: OurReadings) -> Texts:
    """`ours.mixer` and `ours.chilling`, if there are such readings.

    >>> our_texts(OurReadings(mixer=OurReading(63.0, 55.2, 71.0, 6)))
    {'ours.mixer': 'The watts are from 6 of our batches: our mixer leaves 63 W in them (55 to 71).'}
    """
    texts: Texts = {}
    if ours.mixer:
        shown = _text(ours.mixer, "W", f"in them in stage {ours.mixer_stage}" if ours.mixer_stage else "in them")
        texts["ours.mixer"] = f"The watts are {ours.mixer.source}: our mixer leaves {shown}."
    if ours.chilling:
        shown = _text(ours.chilling, "min", "")
        texts["ours.chilling"] = (
            f"Until you give yours, our bowl counts: its time constant is {shown}, {ours.chilling.source}."
        )
    return texts


def _text(reading: OurReading, unit: str, where: str) -> str:
    value, low, high = [number_text(end, 0) for end in (reading.value, reading.low, reading.high)]
    parts = [f"{value} {unit}", where, f"({low} to {high})" if low != high else ""]
    return " ".join([part for part in parts if part])
