"""Quantities as text for people. All rounding for display happens here; halves go up."""

from decimal import ROUND_HALF_UP, Decimal
from functools import cache, lru_cache

NOT_KNOWN = "not known"

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip


def rounded(value: float, digits: int) -> Decimal:
    """The number rounded to `digits` decimals, halves away from zero, going by its decimal form, not its binary one.

    It is first rounded to nine decimals, which removes float noise, so that every Python rounds the same way.

    >>> rounded(0.285, 2), rounded(2.5, 0), rounded(0.1 + 0.15, 1)
    (Decimal('0.29'), Decimal('3'), Decimal('0.3'))
    """
    return Decimal(repr(round(float(value), 9))).quantize(_quantum(digits), rounding=ROUND_HALF_UP) + 0


@cache
def _quantum(digits: int) -> Decimal:
    return Decimal(1).scaleb(-digits)


def number_text(value: float, digits: int) -> str:
    """The rounded number, with a thin space between thousands.

    >>> number_text(1234.5, 0), number_text(-0.01, 1), number_text(0.5, 1)
    ('1\\u202f235', '0.0', '0.5')
    """
    shown = _fixed(value, digits)
    if len(shown) <= (digits + 4 if digits else 3):
        return shown
    whole, point, decimals = shown.partition(".")
    return f"{int(whole):,}{point}{decimals}".replace(",", "\u202f")


def significant_text(value: float) -> str:
    """The number with two figures that count, and no more decimals than three.

    >>> significant_text(0.1549), significant_text(3.14), significant_text(236.0), significant_text(0.0)
    ('0.15', '3.1', '240', '0')
    """
    digits = next((digits for digits, mark in enumerate((9.95, 0.995, 0.0995)) if abs(value) >= mark), 3)
    if abs(value) < 99.5:
        return number_text(value, digits if value else 0)
    tens = 10.0 ** (len(_fixed(abs(value), 0)) - 2)
    return number_text(tens * float(rounded(value / tens, 0)), 0)


def plain_number_text(value: float, digits: int = 3) -> str:
    """The rounded number without trailing zeros, as a form field holds it.

    >>> plain_number_text(2.50), plain_number_text(1200), plain_number_text(1 / 3)
    ('2.5', '1200', '0.333')
    """
    shown = _fixed(value, digits)
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


_SCALES = tuple(10.0**digits for digits in range(10))


@lru_cache(maxsize=1024)
def _fixed(value: float, digits: int) -> str:
    """The text of `rounded`; computed with floats unless a half is so close that binary fractions could tip it."""
    scaled = abs(value) * _SCALES[digits]
    if digits > 3 or not scaled < 1e9:
        return f"{rounded(value, digits):f}"
    whole = int(scaled)
    rest = scaled - whole
    if 0.499999 < rest < 0.500001:
        return f"{rounded(value, digits):f}"
    if rest > 0.5:
        whole += 1
    shown = f"{whole / _SCALES[digits]:.{digits}f}" if digits else str(whole)
    return f"-{shown}" if value < 0 and whole else shown


def times_text(factor: float) -> str:
    """A number of batches, or how many times as much: whole from 1 on, with up to six decimals below.

    >>> times_text(4166.6), times_text(0.00004)
    ('4\\u202f167', '0.00004')
    """
    return number_text(factor, 0) if factor >= 1 else plain_number_text(factor, 6)


def mass_text(mass_g: float) -> str:
    """A mass as a kitchen scale shows it: 0.01 g below 1 g, 0.1 g below 10 g, else 1 g; kg from 10 kg.

    >>> mass_text(0.25), mass_text(7.24), mass_text(1249.6), mass_text(12345)
    ('0.25 g', '7.2 g', '1250 g', '12.35 kg')
    """
    if mass_g >= 9999.5:
        return f"{plain_number_text(mass_g / 1000, 2)} kg"
    if mass_g >= 9.95:
        return f"{_fixed(mass_g, 0)} g"
    return f"{plain_number_text(mass_g, 2 if mass_g < 0.995 else 1)} g"


def percent_text(percent: float | None) -> str:
    """A percentage with one decimal.

    >>> percent_text(25.05), percent_text(None)
    ('25.1 %', 'not known')
    """
    return NOT_KNOWN if percent is None else f"{number_text(percent, 1)} %"


def range_text(low: str, high: str) -> str:
    """Two quantities as a range, with their unit once; a single one if both are shown alike.

    >>> range_text("24.6 %", "25.1 %"), range_text("0.9 g", "12.35 kg"), range_text("3 g", "3 g")
    ('24.6 to 25.1 %', '0.9 g to 12.35 kg', '3 g')
    """
    if low == high:
        return low
    (start, _, unit), (_, _, other) = low.rpartition(" "), high.rpartition(" ")
    return f"{start} to {high}" if start and unit == other else f"{low} to {high}"


def volume_text(volume_ml: float) -> str:
    """A volume in mL, or in L from 10 L.

    >>> volume_text(1499.6), volume_text(4.25), volume_text(12500)
    ('1500 mL', '4.3 mL', '12.5 L')
    """
    if volume_ml >= 9999.5:
        return f"{plain_number_text(volume_ml / 1000, 2)} L"
    return f"{plain_number_text(volume_ml, 1 if volume_ml < 9.95 else 0)} mL"


def celsius_text(t_c: float) -> str:
    """A temperature in °C, followed by °F to the nearest degree.

    >>> celsius_text(18), celsius_text(-18)
    ('18 °C (64 °F)', '-18 °C (0 °F)')
    """
    return f"{plain_number_text(t_c, 1)} °C ({plain_number_text(t_c * 9 / 5 + 32, 0)} °F)"


def date_text(written: str) -> str:
    """A date, year first, in words.

    >>> date_text("2026-05-03")
    '3 May 2026'
    """
    year, month, day = written.split("-")
    return f"{int(day)} {MONTHS[int(month) - 1]} {year}"


def duration_text(shortest_s: float, longest_s: float | None = None) -> str:
    """A time, or a range of times, in suitable units.

    >>> duration_text(180), duration_text(180, 240), duration_text(5400), duration_text(30, 90), duration_text(259200)
    ('3 min', '3 to 4 min', '1 h 30 min', '30 s to 1 min 30 s', '3 days')
    """
    if longest_s is None or longest_s == shortest_s:
        return _time_text(shortest_s)
    low, high = _time_text(shortest_s), _time_text(longest_s)
    if low.count(" ") == high.count(" ") == 1 and low.split()[1].rstrip("s") == high.split()[1].rstrip("s"):
        return f"{low.split()[0]} to {high}"
    return f"{low} to {high}"


def _time_text(time_s: float) -> str:
    total_s = int(rounded(time_s, 0))
    days, rest = divmod(total_s, 86400)
    if days and not rest:
        return f"{days} day{'s' if days > 1 else ''}"
    hours, rest = divmod(total_s, 3600)
    minutes, left = divmod(rest, 60)
    parts = [f"{count} {unit}" for count, unit in ((hours, "h"), (minutes, "min"), (left, "s")) if count]
    return " ".join(parts) or "0 s"


def iso_duration(time_s: float) -> str:
    """A time in ISO 8601 format.

    >>> iso_duration(5400), iso_duration(45), iso_duration(259200)
    ('PT1H30M', 'PT45S', 'P3D')
    """
    total_s = int(rounded(time_s, 0))
    days, rest = divmod(total_s, 86400)
    hours, rest = divmod(rest, 3600)
    minutes, left = divmod(rest, 60)
    clock = "".join(f"{count}{mark}" for count, mark in ((hours, "H"), (minutes, "M"), (left, "S")) if count)
    return f"P{f'{days}D' if days else ''}{f'T{clock}' if clock else ''}" if total_s else "PT0S"


def list_text(names: tuple[str, ...] | list[str], last: str = "and") -> str:
    """Names joined with commas and a final "and".

    >>> list_text(["milk"]), list_text(["milk", "butter", "salt"])
    ('milk', 'milk, butter and salt')
    """
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {last} {names[-1]}" if names else ""
