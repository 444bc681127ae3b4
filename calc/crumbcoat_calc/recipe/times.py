"""How long a batch takes: all its steps one after the other, and those of them that need somebody."""

from collections.abc import Container, Iterable
from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.recipe.model import Recipe, Time


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """From the shortest that every step says to the longest; `attended` are the steps that somebody stays with."""

    total: Time
    attended: Time


def times_of(recipe: Recipe, skipped: Container[tuple[int, int]] = frozenset()) -> Times:
    """The times of all steps that tell one, added up, without those that are left out.

    Args:
        skipped: stage and step of those left out, counted from 0.

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


def _sum(times: Iterable[Time]) -> Time:
    told = list(times)
    return Time(shortest_s=fsum([time.shortest_s for time in told]), longest_s=fsum([time.longest_s for time in told]))
