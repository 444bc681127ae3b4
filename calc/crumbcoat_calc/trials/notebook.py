"""The trials of a recipe put in order: each as the recipe that was really made, and every problem of the others."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.trials.changing import planned_from, weighed_from
from crumbcoat_calc.trials.model import Place, Reading, Trial
from crumbcoat_calc.values.form_fields import state_number


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MadeTrial:
    """A trial with the recipe that it makes: `planned` and `plan` as intended, `fields` and `recipe` as really weighed.

    `name` is that of its file; `before` is what it came from, None where that is the recipe; `origin` is the batch of
    either, which the trial is compared with.
    """

    name: str
    trial: Trial
    planned: Mapping[str, object]
    plan: Recipe
    fields: Mapping[str, object]
    recipe: Recipe
    batch: Batch
    origin: Batch
    before: "MadeTrial | None" = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Notebook:
    """The trials that can be used, by number, and the problems of the others with the names of their files."""

    made: tuple[MadeTrial, ...]
    problems: tuple[tuple[str, InputError], ...]


class _Origins:
    """The recipe and its earlier versions: the fields of each, and its batch, which is worked out once."""

    def __init__(self, recipe: Mapping[str, object], versions: Mapping[str, Mapping[str, object]]) -> None:
        self._fields: dict[str | None, Mapping[str, object]] = {None: recipe} | dict(versions)
        self._batches: dict[str | None, Batch] = {}

    def of(self, version: str | None) -> tuple[Mapping[str, object], Batch]:
        """The fields and the batch of a version; of the recipe where None is given.

        Raises:
            InputError: if there is no such version.
        """
        if version not in self._fields:
            known = ", ".join(sorted(filter(None, self._fields))) or "there is none yet"
            remedy = f"use one of the versions beside the trials ({known}), or delete the line"
            raise InputError(f"there is no version {version} of the recipe", remedy, ("from",))
        fields = self._fields[version]
        if version not in self._batches:
            self._batches[version] = batch_of(recipe_from(fields))
        return fields, self._batches[version]


def notebook_of(
    recipe: Mapping[str, object], versions: Mapping[str, Mapping[str, object]], trials: Sequence[tuple[str, Trial]]
) -> Notebook:
    """The notebook of a recipe.

    A trial that cannot be used takes none of the others with it but those that came from it.

    Args:
        recipe: the fields of the recipe as it is.
        versions: the fields of earlier versions of it, by name, such as `v1`.
        trials: the trials that could be read, each with the name of its file.
    """
    problems: list[tuple[str, InputError]] = []
    by_number: dict[int, tuple[str, Trial]] = {}
    for name, trial in sorted(trials, key=lambda item: (item[1].number, item[1].date, item[0])):
        if trial.number in by_number:
            problems.append((name, _twice(trial.number, by_number[trial.number][0], [one.number for _, one in trials])))
        else:
            by_number[trial.number] = name, trial
    origins = _Origins(recipe, versions)
    made: dict[int, MadeTrial] = {}
    waiting = dict(by_number)
    while waiting:
        ready = [number for number, (_, trial) in waiting.items() if trial.from_trial not in waiting]
        if not ready:
            problems += [(name, _circle(trial, waiting)) for name, trial in waiting.values()]
            break
        for number in ready:
            name, trial = waiting.pop(number)
            try:
                made[number] = _made(name, trial, origins, made, by_number)
            except InputError as error:
                problems.append((name, error))
    for one in [*made.values()]:
        for place, compared in enumerate(one.trial.compared):
            if compared.against not in by_number or compared.against == one.trial.number:
                numbers = ", ".join([str(number) for number in sorted(by_number) if number != one.trial.number])
                remedy = f"use one of the trials {numbers}" if numbers else "delete the entry"
                problem = f"there is no other trial {compared.against} to compare with"
                problems.append((one.name, InputError(problem, remedy, ("compared", place, "against"))))
    return Notebook(made=tuple([made[number] for number in sorted(made)]), problems=tuple(problems))


def _made(
    name: str,
    trial: Trial,
    origins: _Origins,
    made: Mapping[int, MadeTrial],
    known: Mapping[int, tuple[str, Trial]],
) -> MadeTrial:
    before = None
    if trial.from_trial is not None:
        before = _before(trial.from_trial, made, known)
        base, origin = before.planned, before.batch
    else:
        base, origin = origins.of(trial.came_from)
    plan, planned = planned_from(base, trial.changed)
    measured = _measured(trial.readings)
    found, fields = plan, planned
    if trial.weighed or measured:
        found, fields = weighed_from(planned, trial.weighed, measured)
    _check_places(trial, found)
    return MadeTrial(
        name=name,
        trial=trial,
        planned=planned,
        plan=plan,
        fields=fields,
        recipe=found,
        batch=batch_of(found),
        origin=origin,
        before=before,
    )


def _before(number: int, made: Mapping[int, MadeTrial], known: Mapping[int, tuple[str, Trial]]) -> MadeTrial:
    if number in made:
        return made[number]
    if number in known:
        remedy = f"put trial {number} right first ({known[number][0]})"
        raise InputError(f"it came from trial {number}, which cannot be used", remedy, ("from",))
    numbers = ", ".join(map(str, sorted(known)))
    raise InputError(f"there is no trial {number}", f"use one of the trials {numbers}, or delete the line", ("from",))


def _measured(readings: Sequence[Reading]) -> dict[str, str]:
    """What was measured of the finished batch, as a recipe has it; the last reading of each counts."""
    found: dict[str, str] = {}
    for reading in readings:
        if reading.at is not None:
            continue
        if reading.density_g_per_ml is not None:
            found["density"] = f"{state_number(reading.density_g_per_ml)} g/mL"
        if reading.ph is not None:
            found["ph"] = state_number(reading.ph)
        if reading.water_activity is not None:
            found["water_activity"] = state_number(reading.water_activity)
    return found


def _check_places(trial: Trial, recipe: Recipe) -> None:
    """Check that every place that is written exists.

    Raises:
        InputError: at the first that does not.
    """
    counts = [len(stage.steps) for stage in recipe.stages]
    written: dict[str, Sequence[Place | None]] = {
        "readings": [reading.at for reading in trial.readings],
        "mixing": [warming.at for warming in trial.mixing],
        "seen": [seen.at for seen in trial.seen],
    }
    for field, places in written.items():
        for position, place in enumerate(places):
            if place and (place.stage >= len(counts) or (place.step or 0) >= counts[place.stage]):
                remedy = f"use one from 1.1 to {len(counts)}.{counts[-1]}, as the card numbers them"
                raise InputError(f"the recipe has no step {place.written}", remedy, (field, position, "at"))


def _twice(number: int, name: str, taken: Sequence[int]) -> InputError:
    free = max(taken) + 1
    return InputError(f"the number {number} is taken by {name}", f"give this trial the next one, {free}", ("number",))


def _circle(trial: Trial, waiting: Mapping[int, tuple[str, Trial]]) -> InputError:
    way = [trial.number]
    while way[-1] not in way[:-1]:
        way.append(waiting[way[-1]][1].from_trial or 0)
    shown = " from ".join(map(str, way))
    remedy = "say in `from` of one of them what it really came from, or delete that line"
    return InputError(f"the trials go round in a circle: {shown}", remedy, ("from",))
