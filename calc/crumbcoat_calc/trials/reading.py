"""Outside data -> Trial. Every value is text, whether it comes from a form or from a file."""

import re
from collections.abc import Mapping

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.ingredients import INGREDIENT_FIELDS
from crumbcoat_calc.recipe.own_food import WHAT_IT_IS, food_from
from crumbcoat_calc.recipe.stages import STEP_FIELDS
from crumbcoat_calc.recipe.trial_words import MOST_TRIALS
from crumbcoat_calc.trials.model import NOT_MADE, VERDICTS, Changed, Place, Trial
from crumbcoat_calc.trials.observed import (
    batch_test_from,
    chilling_from,
    comparison_from,
    mixing_from,
    outcome,
    picture_from,
    reading_from,
    seen_from,
    tasting_from,
)
from crumbcoat_calc.trials.places import step_from
from crumbcoat_calc.values.dates import date
from crumbcoat_calc.values.fields import each, each_named, line, mapping, one_of, only, take, take_or, text
from crumbcoat_calc.values.marks import prose
from crumbcoat_calc.values.units import whole_number

TRIAL_FIELDS = (
    "number", "date", "who", "from", "recipe", "aim", "plan", "code", "changed", "weighed", "readings", "mixing",
    "chilling", "seen", "tests", "tasted", "compared", "pictures", "did", "verdict", "because",
)  # fmt: skip
CHANGED_FIELDS = ("ingredients", "steps")
CHANGED_INGREDIENT_FIELDS = (*INGREDIENT_FIELDS, "add_at")

_ORIGIN = re.compile("v?[1-9][0-9]{0,3}")
_MARK = re.compile("[0-9a-f]{8}")


def trial_from(data: object) -> Trial:
    """Read the fields of a trial file, each by itself; whether it fits its recipe is not checked.

    Raises:
        InputError: at the first field that is missing, unknown or wrong.
    """
    fields = mapping(data)
    only(fields, TRIAL_FIELDS)
    return Trial(
        number=take(fields, "number", whole_number(1, MOST_TRIALS)),
        date=take(fields, "date", date),
        who=take_or(fields, "who", line, None),
        came_from=take_or(fields, "from", _origin, None),
        recipe_mark=take_or(fields, "recipe", _mark, None),
        aim=take_or(fields, "aim", prose, None),
        plan=take_or(fields, "plan", whole_number(1, 999), None),
        code=take_or(fields, "code", line, None),
        changed=take_or(fields, "changed", _changed, Changed(ingredients={}, steps={})),
        weighed=dict(take_or(fields, "weighed", each_named(_weighed), ())),
        readings=take_or(fields, "readings", each(reading_from), ()),
        mixing=take_or(fields, "mixing", each(mixing_from), ()),
        chilling=take_or(fields, "chilling", each(chilling_from), ()),
        seen=take_or(fields, "seen", each(seen_from), ()),
        tests=take_or(fields, "tests", each(batch_test_from), ()),
        tasted=take_or(fields, "tasted", each(tasting_from), ()),
        compared=take_or(fields, "compared", each(comparison_from), ()),
        pictures=take_or(fields, "pictures", each(picture_from), ()),
        did=take_or(fields, "did", outcome, None),
        verdict=take_or(fields, "verdict", one_of(*VERDICTS, also={"go on": VERDICTS[0]}), None),
        because=take_or(fields, "because", prose, None),
    )


def _origin(value: object) -> str:
    """The number of a trial, or an earlier version of the recipe.

    >>> _origin("3"), _origin("V1")
    ('3', 'v1')
    """
    written = text(value).lower()
    if not _ORIGIN.fullmatch(written):
        problem = f"{written[:40]!r} is neither the number of a trial nor a version of the recipe"
        raise InputError(problem, "write a number such as `3`, or a version such as `v1`")
    return written


def _mark(value: object) -> str:
    written = text(value)
    if not _MARK.fullmatch(written):
        raise InputError(f"{written[:40]!r} is not the mark of a recipe", "delete the line, or let new-trial write it")
    return written


def _changed(value: object) -> Changed:
    fields = mapping(value)
    only(fields, CHANGED_FIELDS)
    return Changed(
        ingredients=dict(take_or(fields, "ingredients", each_named(_changed_ingredient), ())),
        steps=take_or(fields, "steps", _changed_steps, {}),
    )


def _changed_ingredient(key: str, change: object) -> tuple[str, Mapping[str, object] | str]:
    """The fields that differ; a text alone is an amount, or says that it was left out."""
    if isinstance(change, str):
        return key, NOT_MADE if line(change).lower() == NOT_MADE else {"amount": line(change)}
    fields = mapping(change)
    only(fields, CHANGED_INGREDIENT_FIELDS)
    if not fields:
        raise InputError("nothing is changed here", "write what differs, such as `amount: 120 g`, or delete the line")
    take_or(fields, "add_at", step_from, None)
    if any(name in fields for name in WHAT_IT_IS):
        food_from(fields, "an ingredient")
    return key, fields


def _changed_steps(value: object) -> Mapping[Place, Mapping[str, object] | str]:
    found: dict[Place, Mapping[str, object] | str] = {}
    for written, change in mapping(value).items():
        try:
            place = step_from(written)
            found[place] = _step_change(change)
        except InputError as error:
            raise error.within(written) from None
    return found


def _step_change(change: object) -> Mapping[str, object] | str:
    """The fields that differ; a text says that it was left out."""
    if not isinstance(change, str):
        fields = mapping(change)
        only(fields, STEP_FIELDS)
        return fields
    if line(change).lower() != NOT_MADE:
        remedy = f"write the fields that differ, such as `{{time: 4 min}}`, or `{NOT_MADE}`"
        raise InputError(f"{line(change)[:60]!r} is not a change of a step", remedy)
    return NOT_MADE


def _weighed(key: str, written: object) -> tuple[str, str]:
    return key, line(written)
