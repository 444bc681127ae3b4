"""How long a batch takes: all its steps one after another, and the steps that need attention."""

from collections.abc import Container, Sequence
from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.recipe.model import Recipe, Time


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """The shortest and longest total times; `attended` counts only the steps that somebody must stay with."""

    total: Time
    attended: Time


def times_of(recipe: Recipe, skipped: Container[tuple[int, int]] = frozenset()) -> Times:
    """The sum of all stated step times, without the steps that are left out.

    Args:
        skipped: the steps left out, as stage and step counted from 0.

    Source:
        definition.
    """
    steps = [
        step
        for stage_number, stage in enumerate(recipe.stages)
        for step_number, step in enumerate(stage.steps)
        if (stage_number, step_number) not in skipped
    ]
    return Times(
        total=_sum([step.time for step in steps if step.time]),
        attended=_sum([step.time for step in steps if step.time and not step.unattended]),
    )


def _sum(times: Sequence[Time]) -> Time:
    return Time(
        shortest_s=fsum([time.shortest_s for time in times]), longest_s=fsum([time.longest_s for time in times])
    )
