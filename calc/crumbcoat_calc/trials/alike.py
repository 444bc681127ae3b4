"""The same batch made more than once, as by the groups of a class: every number of it, with mean and spread."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import mean, stdev

from crumbcoat_calc.trials.changing import is_same_batch
from crumbcoat_calc.trials.model import Trial
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.outcomes import HELD, outcome_of
from crumbcoat_calc.trials.responses import Response, responses_of
from crumbcoat_calc.values.display import list_text, number_text, plain_number_text

_NOT_READ = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """Batches that were meant to be the same: what is compared, in words, and a table of it.

    A row has as many cells as there are `heads`: what was read, the number of each batch, mean, standard deviation, n.
    """

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def alike_of(trials: Sequence[MadeTrial]) -> list[Alike]:
    """A table for each batch that was planned the same way in at least two trials and made, if a number was read twice.

    Of a number that a single batch has there is no mean and no spread. A time after which a batch still held is a
    lower limit, so where there is one there is no mean of that time either.
    """
    groups: list[list[MadeTrial]] = []
    for made in [made for made in trials if made.trial.was_made]:
        group = next((group for group in groups if is_same_batch(group[0].planned, made.planned)), None)
        if group is None:
            groups.append([made])
        else:
            group.append(made)
    tables = [_table(group) for group in groups if len(group) > 1]
    return [table for table in tables if any(row[-1] != "1" for row in table.rows)]


def _table(group: Sequence[MadeTrial]) -> Alike:
    numbers = list_text([str(made.trial.number) for made in group])
    read = [_on_the_way(made.trial) | responses_of(made.trial) for made in group]
    names = dict.fromkeys([name for of_one in read for name in of_one])
    rows = [_row([of_one.get(name) for of_one in read]) for name in names]
    did = [outcome_of(made.trial) for made in group]
    known = [one for one in did if one]
    if known:
        held = f"{known.count(HELD)} of {len(known)} held"
        rows.append(("what it did", *[one or _NOT_READ for one in did], held, "", str(len(known))))
    return Alike(
        title=f"The same batch, made {len(group)} times (trials {numbers})",
        heads=("", *_names(group), "mean", "standard deviation", "n"),
        rows=tuple(rows),
    )


def _on_the_way(trial: Trial) -> dict[str, Response]:
    """What was read before the batch was finished, by name: temperatures, and what was in the bowl."""
    found = [
        Response(f"{name} after {reading.at.written}", unit, value)
        for reading in trial.readings
        for name, unit, value in (("temperature", "°C", reading.temperature_c), ("mass", "g", reading.mass_g))
        if reading.at is not None and value is not None
    ]
    return {one.name: one for one in found}


def _names(group: Sequence[MadeTrial]) -> list[str]:
    """Each batch by who made it, where that tells them apart, otherwise by its number."""
    people = [made.trial.who or "" for made in group]
    if all(people) and len({*people}) == len(people):
        return people
    return [f"trial {made.trial.number}" for made in group]


def _row(found: Sequence[Response | None]) -> tuple[str, ...]:
    known = [one for one in found if one]
    first = known[0]
    cells = [_NOT_READ if one is None else _value_text(one) for one in found]
    name = f"{first.name}, {first.unit}" if first.unit else first.name
    return name, *cells, *_mean_and_spread(known), str(len(known))


def _value_text(response: Response) -> str:
    shown = plain_number_text(response.value, 3)
    return f"{shown} or more" if response.at_least else shown


def _mean_and_spread(known: Sequence[Response]) -> tuple[str, str]:
    """The mean and the standard deviation of a sample (n - 1), with two figures of the latter.

    >>> _mean_and_spread([Response("pH", "", 6.4), Response("pH", "", 6.6), Response("pH", "", 6.5)])
    ('6.50', '0.10')
    """
    if len(known) < 2:
        return "", ""
    if any(one.at_least for one in known):
        return "some still held", ""
    values = [one.value for one in known]
    spread = float(f"{stdev(values):.9g}")
    if not spread:
        return plain_number_text(values[0], 3), "0"
    digits = max(0, 1 - math.floor(math.log10(spread)))
    return number_text(mean(values), digits), number_text(spread, digits)
