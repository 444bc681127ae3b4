"""Dates as people write them: year first."""

import datetime
import re

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.values.fields import text

_DATE = re.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}")


def date(value: object) -> str:
    """Read a date, year first.

    >>> date("2026-03-31")
    '2026-03-31'
    """
    written = text(value)
    try:
        if not _DATE.fullmatch(written):
            raise ValueError(written)
        return datetime.date.fromisoformat(written).isoformat()
    except ValueError:
        raise InputError(f"{written!r} is not a date", "write it like `2026-03-31` (ISO 8601)") from None
