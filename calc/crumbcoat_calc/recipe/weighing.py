"""A batch in weighable amounts: every mass is a multiple of the scale's step, and the parts still add up."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from crumbcoat_calc.kitchen.rounding import step_counts
from crumbcoat_calc.recipe.batch import Batch

StepFor = Callable[[Sequence[float]], float | None]
"""The step in g to which the parts of one total are rounded together; None leaves them exact."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """Masses in g: by key, by key and portion, and by stage, step and use; `finished_g` is the finished batch.

    `too_little` lists the ingredients with a part smaller than one step of the scale: they stay exact.
    """

    amounts_g: Mapping[str, float]
    portions_g: Mapping[tuple[str, str], float]
    uses_g: tuple[tuple[tuple[float, ...], ...], ...]
    finished_g: float
    too_little: tuple[str, ...]


def scale_step(step_g: float) -> StepFor:
    """The step of a scale, the same for everything that is weighed."""
    return lambda parts_g: step_g


def shown_step(parts_g: Sequence[float]) -> float | None:
    """The step to which a page rounds the masses it shows, so that displayed parts add up to the displayed total."""
    parts = [part_g for part_g in parts_g if part_g > 0]
    if len(parts) < 2 or fsum(parts) >= 9999.5:
        return None
    if min(parts) >= 9.95:
        return 1.0
    return 0.1 if min(parts) >= 0.995 and fsum(parts) < 9.95 else None


def weighing_of(batch: Batch, step_for: StepFor) -> Weighing:
    """The batch with every ingredient rounded to a step, and with the portions and shares rounded to match.

    The portions of an ingredient, and the shares of what a stage makes, are rounded together by the largest remainder
    (see `step_counts`), so they add up to the rounded total and none changes by a step or more. An ingredient stays
    exact if one of its parts is smaller than one step.

    Source:
        definition (method of the largest remainder); derivation (mass balance).
    """
    amounts: dict[str, float] = {}
    portions: dict[tuple[str, str], float] = {}
    too_little = []
    store: dict[tuple[str, str | None], float] = {}
    for ingredient in batch.weighed:
        parts = list(ingredient.portions_g.values()) or [ingredient.mass_g]
        rounded = _to_step(parts, step_for)
        if rounded is None:
            too_little.append(ingredient.key)
            rounded = parts
        amounts[ingredient.key] = fsum(rounded) if rounded is not parts else ingredient.mass_g
        store[ingredient.key, None] = amounts[ingredient.key]
        for key, mass_g in zip(ingredient.portions_g, rounded, strict=False):
            portions[ingredient.key, key] = store[ingredient.key, key] = mass_g
    lost_g = fsum([ingredient.mass_g for ingredient in batch.weighed]) - batch.total.mass_g
    return Weighing(
        amounts_g=amounts,
        portions_g=portions,
        uses_g=_through_stages(batch, store, step_for),
        finished_g=fsum(amounts.values()) - lost_g,
        too_little=tuple(too_little),
    )


def _to_step(parts_g: list[float], step_for: StepFor) -> list[float] | None:
    """The parts rounded to the step; None if a part is smaller than one step, the same list if there is no step."""
    step_g = step_for(parts_g)
    if step_g is None:
        return parts_g
    if any(0 < part_g < step_g * (1 - 1e-9) for part_g in parts_g):
        return None
    return [count * step_g for count in step_counts(parts_g, step_g)]


def _through_stages(
    batch: Batch, store: dict[tuple[str, str | None], float], step_for: StepFor
) -> tuple[tuple[tuple[float, ...], ...], ...]:
    """What goes in at each step. What a stage makes, minus what boils off, is divided by its shares."""
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
