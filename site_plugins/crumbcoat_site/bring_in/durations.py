"""Durations as web pages write them: ISO 8601, or words such as `1 hour 20 minutes`."""

import re
from math import fsum

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.written_times import seconds

_NUMBER = r"([0-9]+(?:[.,][0-9]+)?)"
_ISO = re.compile(
    rf"P(?:{_NUMBER}Y)?(?:{_NUMBER}M)?(?:{_NUMBER}W)?(?:{_NUMBER}D)?"
    rf"(?:T(?=[0-9])(?:{_NUMBER}H)?(?:{_NUMBER}M)?(?:{_NUMBER}S)?)?"
)
_SECONDS = (0.0, 0.0, 604800.0, 86400.0, 3600.0, 60.0, 1.0)
_LONGEST = 4e7


def seconds_of(written: str) -> float | None:
    """A duration in s; None if it is none, longer than a year, or counts years or months, whose length differs.

    Source:
        ISO 8601 (durations): `PnW`, or `PnDTnHnMnS` with `.` or `,` in the last number; small letters are common.

    >>> seconds_of("PT1H20M"), seconds_of("P0DT0H45M"), seconds_of("pt90m"), seconds_of("1 hour 20 minutes")
    (4800.0, 2700.0, 5400.0, 4800.0)
    >>> seconds_of("PT"), seconds_of("20"), seconds_of("P1M"), seconds_of("soon")
    (None, None, None, None)
    """
    shown = "".join(written.split()).upper()
    found = _ISO.fullmatch(shown)
    if not found:
        return _in_words(written)
    counts = [float(part.replace(",", ".")) if part else 0.0 for part in found.groups()]
    named = [part for part in found.groups() if part is not None]
    if not named or counts[0] or counts[1] or any("." in part or "," in part for part in named[:-1]):
        return None
    total = fsum([count * each for count, each in zip(counts, _SECONDS, strict=True)])
    return total if total <= _LONGEST else None


def _in_words(written: str) -> float | None:
    try:
        return seconds(written) if re.match(r"\s*[0-9]", written) else None
    except InputError:
        return None
