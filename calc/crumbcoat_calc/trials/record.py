"""What a card says of its own batches: how often it was made, how long it kept, and what changed since earlier ones."""

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.trials.changing import is_same_batch
from crumbcoat_calc.trials.differences import Amounts, amounts_changed, change_in_short
from crumbcoat_calc.trials.model import BatchTest
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.published import published_fields
from crumbcoat_calc.values.display import celsius_text, date_text, duration_text, list_text, mass_text

_MOST_CHANGES = 3
"""Of more changes only the number is given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """Sentences for the card: `made` and `kept` from the batches of the recipe as it is, `versions` of what changed.

    Each is empty where the trials do not say it.
    """

    made: str
    kept: tuple[str, ...]
    versions: tuple[str, ...]


NOTHING_SEEN = Record(made="", kept=(), versions=())


def record_of(
    recipe: Mapping[str, object], versions: Mapping[str, Mapping[str, object]], trials: Sequence[MadeTrial]
) -> Record:
    """The record of a recipe as it is; trials that made another one count only where they became a version.

    A trial of which nothing is noted is only planned, and does not count.

    Args:
        recipe: its fields.
        versions: the fields of earlier versions, by name.
        trials: those that can be used.
    """
    own = [made for made in trials if made.trial.was_made and is_same_batch(published_fields(recipe, made), recipe)]
    names = sorted(versions, key=lambda name: int(name[1:]))
    steps = [*(versions[name] for name in names), recipe]
    changed = [_version_text(before, after, trials) for before, after in itertools.pairwise(steps)]
    return Record(
        made=_made_text(own), kept=_kept_texts(own), versions=tuple([text for text in reversed(changed) if text])
    )


def _made_text(own: Sequence[MadeTrial]) -> str:
    if not own:
        return ""
    last = date_text(max(made.trial.date for made in own))
    return f"Made once, on {last}" if len(own) == 1 else f"Made {len(own)} times, last on {last}"


def _kept_texts(own: Sequence[MadeTrial]) -> tuple[str, ...]:
    """The longest time that a batch held in each place, unless another one did not hold as long there."""
    tests: dict[tuple[str, float | None], list[BatchTest]] = {}
    for test in [test for made in own for test in made.trial.tests if test.test == "keeping" and test.time_s]:
        tests.setdefault((test.where or "", test.temperature_c), []).append(test)
    sentences = []
    for (where, t_c), found in tests.items():
        failed = min([test.time_s or 0.0 for test in found if test.did != "held"], default=None)
        held = [test.time_s or 0.0 for test in found if test.did == "held"]
        longest = max([time_s for time_s in held if failed is None or time_s < failed], default=None)
        if longest is None:
            continue
        at = "" if t_c is None else f" at {celsius_text(t_c)}"
        place = f" {where}" if where else ""
        sentences.append(f"In our test it kept {duration_text(longest)}{at}{place}.")
    return tuple(sentences)


def _version_text(before: Mapping[str, object], after: Mapping[str, object], trials: Sequence[MadeTrial]) -> str:
    """What changed from one version to the next, with the date and the reason of the trial that became it."""
    became = [made for made in trials if made.trial.was_made and is_same_batch(published_fields(after, made), after)]
    changes = _changes(recipe_from(before), recipe_from(after))
    if not became or not changes:
        return ""
    first = min(became, key=lambda made: (made.trial.verdict != "publish", made.trial.date))
    because = f" {first.trial.because}" if first.trial.because else ""
    return f"Since {date_text(first.trial.date)}: {changes}.{because}"


def _changes(before: Recipe, after: Recipe) -> str:
    found = amounts_changed(before, after)
    if len(found) > _MOST_CHANGES:
        return f"{len(found)} amounts changed"
    return list_text([_change_text(change) for change in found]) if found else ""


def _change_text(change: Amounts) -> str:
    """An amount that changed; of what is new, or of another kind, how much there is."""
    if change.after_g is not None and (change.before_g is None or change.other_kind):
        return f"{mass_text(change.after_g)} {change.name}"
    return change_in_short(change)
