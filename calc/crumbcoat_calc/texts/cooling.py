"""Text about how quickly cooked food cools, beside the times that codes allow; silent where it is quick enough."""

from crumbcoat_calc.forms.conditions import Conditions
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.science.chilling import time_constant_min
from crumbcoat_calc.science.cooling_limits import cooling_limits, exceeded
from crumbcoat_calc.science.estimate import Withheld
from crumbcoat_calc.values.display import celsius_text, duration_text
from crumbcoat_calc.values.region import REGIONS


def slow_cooling_text(batch: Batch, conditions: Conditions, region: str | None) -> str:
    """What the reader's two readings mean for a recipe that is cooked and has water in it, if that is too slow.

    Only for food that is cooked, and only where a time of the region's codes would be exceeded at that rate. Begins
    with a space, to follow another text.
    """
    first, later, after = conditions.chilled_from_c, conditions.chilled_to_c, conditions.chilled_min
    if first is None or later is None or after is None or batch.total.at_most("water_g") <= 0:
        return ""
    tau = time_constant_min(first, later, after, conditions.cold_c)
    if isinstance(tau, Withheld):
        return ""
    steps = [step for stage in batch.recipe.stages for step in stage.steps]
    hottest_c = max((step.heat_to_c for step in steps if step.heat_to_c is not None), default=0.0)
    limits = [limit for limit in cooling_limits(region or REGIONS[0]) if hottest_c >= limit.from_c]
    over = exceeded(limits, conditions.cold_c, tau.value)
    if not over:
        return ""
    limit, minutes = over[0]
    start, to = celsius_text(limit.from_c), celsius_text(limit.to_c or 0.0)
    if minutes is None:
        return (
            f" Where it is {celsius_text(conditions.cold_c)}, cooked food never gets to {to}, the mark of {limit.who}."
        )
    needed, allowed = duration_text(300 * round(minutes / 5)), duration_text(60 * limit.minutes)
    return (
        f" At that rate it would take about {needed} from {start} to {to}, longer than the {allowed} of {limit.who}: "
        "make the layer shallower, or use an ice bath."
    )
