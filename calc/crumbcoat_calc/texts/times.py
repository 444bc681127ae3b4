"""Texts about the time a batch takes."""

import math

from crumbcoat_calc.forms.changes import Changes
from crumbcoat_calc.recipe.batch import steps_left_out
from crumbcoat_calc.recipe.model import Recipe, Time
from crumbcoat_calc.recipe.times import times_of
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.display import duration_text

_MINUTE_S = 60.0
_STEPS = ((10 * 3600.0, 15 * _MINUTE_S), (2 * 3600.0, 5 * _MINUTE_S), (600.0, _MINUTE_S))
"""From each length on, a sum of times is rounded to the step beside it (common practice, no source)."""


def time_texts(recipe: Recipe, changes: Changes) -> Texts:
    """`time` of the steps that are not left out; `time.attended` of those that need somebody, if that is less."""
    times = times_of(recipe, steps_left_out(recipe, changes.options))
    total, attended = about_text(times.total), about_text(times.attended)
    return {"time": total, "time.attended": f"{attended} of it hands-on" if attended != total else ""}


def about_text(time: Time) -> str:
    """A sum of times, no finer than it is known; empty if there is none.

    >>> about_text(Time(shortest_s=33_480, longest_s=90_300)), about_text(Time(shortest_s=1440, longest_s=1800))
    ('9 h 20 min to 25 h', '24 to 30 min')
    """
    if not time.longest_s:
        return ""
    return duration_text(_to_step(time.shortest_s), _to_step(time.longest_s))


def _to_step(time_s: float) -> float:
    step_s = next((step_s for from_s, step_s in _STEPS if time_s >= from_s), 1.0)
    return math.floor(time_s / step_s + 0.5) * step_s
