"""What a trial that is kept on a card begins with: what it changes, and its number."""

from dataclasses import dataclass

from crumbcoat_calc.recipe.trial_words import MOST_TRIALS
from crumbcoat_calc.values.fields import mapping, only, take_or, text
from crumbcoat_calc.values.units import whole_number


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialStart:
    """`mark` is that of the recipe on the card; on the card of a trial, `came_from` is the number of that trial.

    `number` is the first one that no trial of the recipe has.
    """

    mark: str | None = None
    came_from: str | None = None
    number: str = "1"


NO_START = TrialStart()


def trial_start_from(data: object) -> TrialStart:
    """The fields `recipe`, `from` and `number`, as a trial file has them.

    Raises:
        InputError: at the field that cannot be used.
    """
    fields = mapping(data)
    only(fields, ("recipe", "from", "number"))
    return TrialStart(
        mark=take_or(fields, "recipe", text, None),
        came_from=take_or(fields, "from", _number, None),
        number=take_or(fields, "number", _number, "1"),
    )


def trial_start_fields(start: TrialStart) -> dict[str, str]:
    """The plain data that `trial_start_from` reads."""
    fields = {"recipe": start.mark, "from": start.came_from, "number": start.number}
    return {name: value for name, value in fields.items() if value is not None}


def _number(value: object) -> str:
    return str(whole_number(1, MOST_TRIALS)(text(value)))
