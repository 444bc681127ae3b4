"""A batch as it is weighed: every mass a multiple of what the scale shows, and the parts still add up."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.kitchen.rounding import step_counts
from crumbcoat_calc.recipe.batch import Batch

StepFor = Callable[[Sequence[float]], float | None]
"""The step in g to which parts of one whole are rounded together; None if they stay as they are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """Masses in g by key, by key and portion, and by stage, step and use; `finished_g` is what comes out.

    `too_little` names the ingredients of which some part is less than one step of the scale: they stay exact.
    """

    amounts_g: Mapping[str, float]
    portions_g: Mapping[tuple[str, str], float]
    uses_g: tuple[tuple[tuple[float, ...], ...], ...]
    finished_g: float
    too_little: tuple[str, ...]


def scale_step(step_g: float) -> StepFor:
    """The step of a scale, whatever is weighed."""
    return lambda parts_g: step_g


def shown_step(parts_g: Sequence[float]) -> float | None:
    """The step to which a page shows masses, so that parts of one whole that it shows alike add up on it too."""
    parts = [part_g for part_g in parts_g if part_g > 0]
    if len(parts) < 2 or fsum(parts) >= 9999.5:
        return None
    if min(parts) >= 9.95:
        return 1.0
    return 0.1 if min(parts) >= 0.995 and fsum(parts) < 9.95 else None


def weighing_of(batch: Batch, step_for: StepFor) -> Weighing:
    """The batch with each ingredient rounded to a step, its portions adding up to it, and what is made of it divided.

    The portions of an ingredient, and the shares of what a stage makes, are rounded together by the largest remainder
    (see `parts_to_step`): so they add up to the rounded whole, and none moves by a step or more. An ingredient is
    left as it is where there is less of a part of it than one step.

    Source:
        definition (method of the largest remainder); derivation (mass balance).
    """
    amounts: dict[str, float] = {}
    portions: dict[tuple[str, str], float] = {}
    too_little = []
    store: dict[tuple[str, str | None], float] = {}
    for one in batch.weighed:
        parts = list(one.portions_g.values()) or [one.mass_g]
        weighed = _to_step(parts, step_for)
        if weighed is None:
            too_little.append(one.key)
            weighed = parts
        amounts[one.key] = fsum(weighed) if weighed is not parts else one.mass_g
        store[one.key, None] = amounts[one.key]
        for key, mass_g in zip(one.portions_g, weighed, strict=False):
            portions[one.key, key] = store[one.key, key] = mass_g
    lost_g = fsum([one.mass_g for one in batch.weighed]) - batch.total.mass_g
    return Weighing(
        amounts_g=amounts,
        portions_g=portions,
        uses_g=_through_stages(batch, store, step_for),
        finished_g=fsum(amounts.values()) - lost_g,
        too_little=tuple(too_little),
    )


def _to_step(parts_g: list[float], step_for: StepFor) -> list[float] | None:
    """None where there is less of a part than one step; the very same list where there is no step."""
    step_g = step_for(parts_g)
    if step_g is None:
        return parts_g
    if any(0 < part_g < step_g * (1 - 1e-9) for part_g in parts_g):
        return None
    return [count * step_g for count in step_counts(parts_g, step_g)]


def _through_stages(
    batch: Batch, store: dict[tuple[str, str | None], float], step_for: StepFor
) -> tuple[tuple[tuple[float, ...], ...], ...]:
    """What goes in at each step; what a stage makes, less what boils off, is divided by its shares."""
    all_uses = []
    for stage, exact, vessel in zip(batch.recipe.stages, batch.uses_g, batch.vessels, strict=True):
        stage_uses = []
        for step, masses in zip(stage.steps, exact, strict=True):
            uses = zip(step.uses, masses, strict=True)
            stage_uses.append(tuple([store[use.what, use.portion] if mass_g > 0 else 0.0 for use, mass_g in uses]))
        all_uses.append(tuple(stage_uses))
        if stage.makes is not None:
            lost_g = fsum([mass_g for masses in exact for mass_g in masses]) - vessel.mixture.mass_g
            made_g = max(0.0, fsum([mass_g for masses in stage_uses for mass_g in masses]) - lost_g)
            store[stage.makes, None] = made_g
            shares = [share * made_g for _, share in stage.shares]
            for (key, _), mass_g in zip(stage.shares, _to_step(shares, step_for) or shares, strict=True):
                store[stage.makes, key] = mass_g
    return tuple(all_uses)
