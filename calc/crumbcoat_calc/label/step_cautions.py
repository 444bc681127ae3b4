"""The cautions of single steps: what can scald there, and where raw egg goes in."""

from collections.abc import Mapping, Sequence

from crumbcoat_calc.label.caution_facts import hazards_of_foods
from crumbcoat_calc.label.caution_table import READERS, Readers, cautions_of, limits
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.model import Step


def titles_by_step(
    batch: Batch, heat: Mapping[str, float | None], readers: Readers = READERS
) -> Mapping[tuple[int, int], tuple[str, ...]]:
    """The titles of the cautions that a step calls for by itself, by stage and step counted from 0.

    Every step is there, most of them without a caution.

    Args:
        heat: what `highest_temperatures` gives for the recipe.

    Source:
        those of the cautions, see cautions.csv.
    """
    titles = {caution.key: caution.title for caution in cautions_of(readers)}
    limit = limits(readers.region)
    eggs = {
        weighed.key: heat[weighed.key]
        for weighed in batch.weighed
        if weighed.needed_g > 0 and "raw egg" in hazards_of_foods().get(weighed.food.key, ())
    }
    return {
        (stage_number, step_number): tuple(titles[key] for key in _keys(step, eggs, limit))
        for stage_number, stage in enumerate(batch.recipe.stages)
        for step_number, step in enumerate(stage.steps)
    }


def _keys(step: Step, eggs: Mapping[str, float | None], limit: Mapping[str, float]) -> Sequence[str]:
    keys = []
    hot_c = step.heat_to_c if step.heat_to_c is not None else 0.0
    if hot_c > limit["syrup_from_c"]:
        keys.append("hot_syrup")
    elif hot_c >= limit["scalds_from_c"]:
        keys.append("hot_liquid")
    rescue = step.checkpoint.adds if step.checkpoint else ()
    heated = [eggs[use.what] for use in (*step.uses, *rescue) if use.what in eggs]
    if None in heated:
        keys.append("raw_egg")
    elif any(t_c < limit["egg_mixture_c"] for t_c in heated if t_c is not None):
        keys.append("lightly_heated_egg")
    return keys
