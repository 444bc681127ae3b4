"""The page of a notebook: all that it shows, as finished texts and pictures."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from crumbcoat_calc.purchasing.prices import Prices
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.trials.alike import Alike, alike_of
from crumbcoat_calc.trials.beside import readings_beside, warmed_texts
from crumbcoat_calc.trials.charts import Chart, reading_charts, tasting_charts
from crumbcoat_calc.trials.composition import composition_heads, composition_picture, composition_rows
from crumbcoat_calc.trials.differences import grams_texts, points_rows, sentence_of, step_texts
from crumbcoat_calc.trials.doubts import doubts_of
from crumbcoat_calc.trials.holding import holding_charts, sentence_of_test
from crumbcoat_calc.trials.line import line_picture
from crumbcoat_calc.trials.model import Seen
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.notebook_says import KITCHEN_HEADS, kitchen_rows, next_says
from crumbcoat_calc.trials.outcomes import outcome_of
from crumbcoat_calc.trials.plane import Plane, plane_of
from crumbcoat_calc.trials.side_by_side import Group, side_by_side
from crumbcoat_calc.trials.signs import NOT_SAID, sign_alone, sign_key
from crumbcoat_calc.values.display import date_text, number_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A trial on the page; texts in the words of its author may have marks of prose (`aim`, `because`, `seen`)."""

    number: int
    head: str
    origin: str
    sign: str
    did: str
    verdict: str
    aim: str
    because: str
    changed: list[str]
    weighed: list[str]
    points: list[list[str]]
    sentence: str
    readings: list[list[str]]
    notes: list[str]
    warmed: list[str]
    seen: list[str]
    tests: list[str]
    tasted: list[str]
    doubts: list[str]
    pictures: list[tuple[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class NotebookPage:
    """All of the page; a list is empty, and a picture None, where there is nothing to show."""

    summary: str
    line: str
    key: list[tuple[str, str]]
    entries: list[Entry]
    composition: str
    composition_heads: list[str]
    composition_rows: list[list[str]]
    plane: Plane | None
    next_says: list[str]
    kitchen_heads: list[str]
    kitchen_rows: list[list[str]]
    readings: list[Chart]
    tasting: list[Chart]
    holding: list[Chart]
    heads: list[str]
    side_by_side: list[Group]
    shots: list[tuple[str, list[tuple[str, str]]]]
    alike: list[Alike]


def page_of(
    recipe: Batch,
    trials: Sequence[MadeTrial],
    mark: str,
    prices: Prices | None,
    axes: tuple[str, str] | None,
    pictures: frozenset[str] = frozenset(),
    others: Sequence[Batch] = (),
) -> NotebookPage:
    """The page of a notebook that has trials that can be used.

    Args:
        recipe: the batch of the recipe as it is.
        mark: the mark of the recipe as it is.
        prices: None where the site shows no cost.
        axes: the ingredients that the author chose for the map, if any.
        pictures: the files of pictures that are there.
        others: the batches of other recipes that the author puts beside the trials.
    """
    return NotebookPage(
        summary=_summary(trials),
        line=line_picture(trials),
        key=sign_key(
            [outcome_of(made.trial) or NOT_SAID for made in trials] + [t.did for m in trials for t in m.trial.tests]
        ),
        entries=[_entry(made, mark, pictures) for made in trials],
        composition=composition_picture(trials),
        composition_heads=composition_heads(trials),
        composition_rows=composition_rows(trials),
        plane=plane_of(recipe, trials, axes),
        next_says=next_says(trials),
        kitchen_heads=KITCHEN_HEADS,
        kitchen_rows=kitchen_rows(trials),
        readings=reading_charts(trials),
        tasting=tasting_charts(trials),
        holding=holding_charts(trials),
        heads=[*(f"Trial {made.trial.number}" for made in trials), "The recipe", *(one.recipe.title for one in others)],
        side_by_side=side_by_side([*(made.batch for made in trials), recipe, *others], prices),
        shots=_shots(trials, pictures),
        alike=alike_of(trials),
    )


def _summary(trials: Sequence[MadeTrial]) -> str:
    dates = sorted(made.trial.date for made in trials)
    count = "One trial" if len(trials) == 1 else f"{len(trials)} trials"
    when = date_text(dates[0]) if dates[0] == dates[-1] else f"{date_text(dates[0])} to {date_text(dates[-1])}"
    did: dict[str, int] = {}
    for made in trials:
        word = outcome_of(made.trial)
        if word:
            did[word] = did.get(word, 0) + 1
    counted = ", ".join([f"{word} {number}" for word, number in did.items()])
    return f"{count}, {when}{f': {counted}' if counted else ''}."


def _entry(made: MadeTrial, mark: str, files: frozenset[str]) -> Entry:
    trial = made.trial
    return Entry(
        number=trial.number,
        head=", ".join([part for part in (date_text(trial.date), trial.who) if part]),
        origin=_origin(made),
        sign=sign_alone(outcome_of(trial)),
        did=outcome_of(trial) or NOT_SAID,
        verdict=trial.verdict or "",
        aim=trial.aim or "",
        because=trial.because or "",
        changed=[*grams_texts(made.origin.recipe, made.recipe), *step_texts(trial.changed.steps)],
        weighed=[f"{_name(made, key)} {written}" for key, written in trial.weighed.items()],
        points=points_rows(made),
        sentence=sentence_of(made),
        readings=[row.cells for row in readings_beside(made)],
        notes=list(dict.fromkeys(one.note for one in trial.readings if one.note)),
        warmed=warmed_texts(made),
        seen=[_seen_text(seen) for seen in trial.seen],
        tests=[sentence_of_test(test) for test in trial.tests],
        tasted=[_tasted(one.attribute, one.scale, one.marks, one.code) for one in trial.tasted],
        doubts=[
            f"{text[:1].upper()}{text[1:]}. {hint[:1].upper()}{hint[1:]}." for _, text, hint in doubts_of(made, mark)
        ],
        pictures=[(picture.file, picture.shot) for picture in trial.pictures if picture.file in files],
    )


def _origin(made: MadeTrial) -> str:
    if made.before:
        return f"from trial {made.before.trial.number}"
    version = made.trial.came_from
    return f"from version {version.removeprefix('v')} of the recipe" if version else "from the recipe"


def _name(made: MadeTrial, key: str) -> str:
    return next(one.name for one in made.recipe.ingredients if one.key == key)


def _seen_text(seen: Seen) -> str:
    worked = {None: "", True: " It worked.", False: " It did not work."}[seen.worked]
    sign = seen.sign.rstrip(".")
    remedy = f" {seen.remedy.rstrip('.')}.{worked}" if seen.remedy else ""
    return f"Step {seen.at.written}: {sign}.{remedy}"


def _tasted(attribute: str, scale: int, marks: Sequence[int], code: str | None) -> str:
    people = "one mark" if len(marks) == 1 else f"{len(marks)} marks, {min(marks)} to {max(marks)}"
    blind = f", blind code {code}" if code else ""
    return f"{attribute} {number_text(fmean(marks), 1)} of {scale} ({people}{blind})"


def _shots(trials: Sequence[MadeTrial], files: frozenset[str]) -> list[tuple[str, list[tuple[str, str]]]]:
    """Pictures of one shot across the trials, by the name of the shot: the file and the trial of each."""
    found: dict[str, list[tuple[str, str]]] = {}
    for made in trials:
        for picture in made.trial.pictures:
            words = f"Trial {made.trial.number}, {outcome_of(made.trial) or NOT_SAID}"
            if picture.file in files:
                found.setdefault(picture.shot, []).append((picture.file, words))
    return list(found.items())
