"""What the readings of an author's own batches say of mixer, air and bowl: the page gives it beside the recipe."""

from dataclasses import dataclass

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import mapping, only, take_or, text

_NAMES = ("mixer", "overrun", "chilling")


@dataclass(frozen=True, slots=True)
class OurReading:
    """A value, its band, and from how many batches; without a band both ends are the value."""

    value: float
    low: float
    high: float
    batches: int

    @property
    def source(self) -> str:
        """Where it comes from, in words."""
        return f"from {self.batches} of our batches" if self.batches > 1 else "from one of our batches"


@dataclass(frozen=True, slots=True, kw_only=True)
class OurReadings:
    """The power that the mixer leaves in a batch, W; the overrun, %; the time constant of the bowl in the cold, min.

    `mixer_stage` is the number of the stage in which that was read, if it was not the last one.
    """

    mixer: OurReading | None = None
    mixer_stage: str = ""
    overrun: OurReading | None = None
    chilling: OurReading | None = None


NO_READINGS = OurReadings()


def our_readings_from(data: object) -> OurReadings:
    """Read by name the value, the two ends of its band if it has one, and the number of batches.

    >>> our_readings_from({"mixer": ["63", "55", "71", "6"]}).mixer
    OurReading(value=63.0, low=55.0, high=71.0, batches=6)
    """
    fields = mapping(data)
    only(fields, (*_NAMES, "mixer_stage"))
    readings = {name: take_or(fields, name, _reading, None) for name in _NAMES}
    return OurReadings(**readings, mixer_stage=take_or(fields, "mixer_stage", text, ""))


def _reading(written: object) -> OurReading:
    if not isinstance(written, list) or len(written) not in (2, 4):
        raise InputError("this is not a reading with its number of batches", "build the site again")
    value, *band = [float(number) for number in written[:-1]]
    low, high = band or (value, value)
    return OurReading(value, low, high, int(written[-1]))
