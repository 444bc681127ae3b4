"""The time of day, for plans by the clock."""

from crumbcoat_calc.values.display import number_text


def clock_text(begin_s: float, after_s: float) -> str:
    """The time of day `after_s` seconds after `begin_s`, which is in s since midnight; minutes are rounded down.

    >>> clock_text(9 * 3600, 5400), clock_text(23 * 3600, 7200)
    ('10:30', '01:00 (next day)')
    """
    days, rest = divmod(int(begin_s + after_s), 86400)
    clock = f"{rest // 3600:02}:{rest % 3600 // 60:02}"
    later = "" if not days else " (next day)" if days == 1 else f" ({number_text(days, 0)} days later)"
    return clock + later
