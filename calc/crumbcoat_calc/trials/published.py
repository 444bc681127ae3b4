"""The fields of a recipe that a trial becomes."""

from collections.abc import Mapping
from typing import Any

from crumbcoat_calc.recipe.own_food import density_from
from crumbcoat_calc.trials.changing import LEFT_OUT_WORDS
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.display import plain_number_text
from crumbcoat_calc.values.fields import mapping

_OF_THE_BATCH_BEFORE = ("measured", "tried")


def published_fields(recipe: Mapping[str, object], made: MadeTrial) -> dict[str, Any]:
    """The recipe with the ingredients and the stages of a trial as it was planned, and with what it measured.

    Steps that were left out are gone, and so are stages that have no other.

    Args:
        recipe: the fields of the recipe as it is.
        made: a trial of it.
    """
    fields = {name: value for name, value in recipe.items() if name not in _OF_THE_BATCH_BEFORE}
    fields |= {"ingredients": made.planned["ingredients"], "stages": _stages(made.planned["stages"])}
    if "measured" in made.fields:
        fields["measured"] = _measured(mapping(made.fields["measured"]))
    return fields


def _measured(fields: Mapping[str, object]) -> dict[str, object]:
    """What a trial measured, with its density to 0.01 g/mL: a level cup is not weighed more closely.

    >>> _measured({"density": "0.970594061 g/mL", "ph": "6.3"})
    {'density': '0.97 g/mL', 'ph': '6.3'}
    """
    if "density" not in fields:
        return dict(fields)
    return {**fields, "density": f"{plain_number_text(density_from(fields['density']), 2)} g/mL"}


def _stages(stages: Any) -> list[dict[str, Any]]:
    kept = []
    for stage in stages:
        steps = [step for step in stage["steps"] if not _is_left_out(step)]
        if steps:
            kept.append({**stage, "steps": steps})
    return kept


def _is_left_out(step: Mapping[str, object]) -> bool:
    return set(step) == {"do"} and str(step["do"]).startswith(LEFT_OUT_WORDS)
