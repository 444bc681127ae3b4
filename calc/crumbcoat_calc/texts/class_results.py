"""Texts of what the groups of a class found: a table with mean and spread, and the trial files of their batches."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.changes import Changes, changes_from
from crumbcoat_calc.forms.class_results import ATTRIBUTES, Found, Unusable
from crumbcoat_calc.forms.conditions import as_published
from crumbcoat_calc.forms.context import PublishedRecipe
from crumbcoat_calc.forms.trial_notes import PREFIX, notes_from
from crumbcoat_calc.forms.trial_start import TrialStart
from crumbcoat_calc.kitchen.density import density_of_measure
from crumbcoat_calc.lesson.spread import Spread, spread_of
from crumbcoat_calc.pictures.groups import Measured, groups_chart
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.texts import Section
from crumbcoat_calc.texts.science import vessel_state
from crumbcoat_calc.texts.trial_file import BenchTrial
from crumbcoat_calc.values.display import number_text

_NOTHING = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupBatch:
    """A group's batch: what it found, what was changed on its card, and what is worked out for such a batch.

    In g and g/mL; the density is that without air, None where it is not known.
    """

    found: Found
    changes: Changes
    mass_g: float
    airless: float | None

    @property
    def density(self) -> float | None:
        """That of a cup which the group weighed, in g/mL."""
        return None if self.found.cup_g is None else density_of_measure(self.found.cup_g, self.found.cup)


def group_batch(found: Found, published: PublishedRecipe) -> GroupBatch:
    """A group's batch, worked out.

    Raises:
        InputError: if its card has changes that do not fit the recipe, or its cup cannot weigh that.
    """
    cup = {} if found.cup_g is None else {"cup": found.cup, "cup_weighs": f"{found.cup_g:g}"}
    card = {name: value for name, value in found.card.items() if not name.startswith("cup") and ":" not in name}
    changes = changes_from(published.recipe, card | cup, published.units)
    batch = published.batch_with(changes.options)
    t_c = as_published(published.recipe).bowl_c if found.t_c is None else found.t_c
    density = vessel_state(batch.vessels[-1], t_c).density_g_per_ml
    airless = density.value if isinstance(density, Estimate) else None
    return GroupBatch(found=found, changes=changes, mass_g=batch.total.mass_g, airless=airless)


_Column = tuple[int, Callable[[GroupBatch], float | None]]


def _mean_mark(name: str) -> Callable[[GroupBatch], float | None]:
    def mean(one: GroupBatch) -> float | None:
        spread = spread_of([float(mark) for mark in one.found.marks.get(name, ())])
        return spread.mean if spread else None

    return mean


_COLUMNS: tuple[_Column, ...] = (
    (0, lambda one: one.found.mass_g),
    (0, lambda one: None if one.found.mass_g is None else 100 * one.found.mass_g / one.mass_g),
    (2, lambda one: one.density),
    (1, lambda one: one.found.t_c),
    *((1, _mean_mark(name)) for name in ATTRIBUTES),
)
"""The digits after the point, and the figure, of each column of the table; a mark is the mean of a group."""


def result_section(title: str, batches: Sequence[GroupBatch]) -> Section:
    """`title`, and rows of the `table`: each group, then mean, standard deviation, and lowest to highest; `notes`."""
    values = [[figure(one) for one in batches] for _, figure in _COLUMNS]
    digits = [digits for digits, _ in _COLUMNS]
    rows = [
        [
            f"Group {one.found.group}",
            *(_cell(column[at], places) for column, places in zip(values, digits, strict=True)),
        ]
        for at, one in enumerate(batches)
    ]
    spreads = [spread_of([value for value in column if value is not None]) for column in values]
    for name, text in (("Mean", _mean), ("Standard deviation", _deviation), ("Lowest to highest", _range)):
        rows.append([name, *(text(spread, places) for spread, places in zip(spreads, digits, strict=True))])
    notes = [[f"Group {one.found.group}", one.found.note] for one in batches if one.found.note]
    return {"title": title, "table": rows, "notes": notes}


def _cell(value: float | None, digits: int) -> str:
    return _NOTHING if value is None else number_text(value, digits)


def _mean(spread: Spread | None, digits: int) -> str:
    """With one digit more than a reading has, from two readings on."""
    return number_text(spread.mean, digits + 1) if spread and spread.count > 1 else _NOTHING


def _deviation(spread: Spread | None, digits: int) -> str:
    return number_text(spread.deviation, digits + 1) if spread and spread.deviation is not None else _NOTHING


def _range(spread: Spread | None, digits: int) -> str:
    if spread is None or spread.count < 2:
        return _NOTHING
    return f"{number_text(spread.low, digits)} to {number_text(spread.high, digits)}"


def result_pictures(slot: str, title: str, batches: Sequence[GroupBatch]) -> dict[str, str]:
    """`picture.<slot>.mass` and `picture.<slot>.density`; empty where no group measured that."""
    masses = [
        Measured(
            group=one.found.group,
            value=one.found.mass_g,
            text=f"{number_text(one.found.mass_g, 0)} g",
            worked_out=one.mass_g,
            worked_out_text=f"{number_text(one.mass_g, 0)} g",
        )
        for one in batches
        if one.found.mass_g is not None
    ]
    densities = [
        Measured(
            group=one.found.group,
            value=one.density,
            text=f"{number_text(one.density, 2)} g/mL",
            worked_out=one.airless,
            worked_out_text="" if one.airless is None else f"{number_text(one.airless, 2)} g/mL",
        )
        for one in batches
        if one.density is not None
    ]
    return {
        f"picture.{slot}.mass": groups_chart(
            f"results-{slot}-mass",
            f"What was made, g: {title}",
            masses,
            "worked out from what goes in",
        )
        if masses
        else "",
        f"picture.{slot}.density": groups_chart(
            f"results-{slot}-density", f"Density, g/mL: {title}", densities, "worked out, without air"
        )
        if densities
        else "",
    }


def trial_file(one: GroupBatch, published: PublishedRecipe, number: int) -> Section:
    """The trial file of a group's batch: `name`, `file`."""
    found = one.found
    state = {
        "number": str(number),
        "date": found.date,
        "who": f"group {found.group}",
        "finished.t_c": "" if found.t_c is None else f"{found.t_c:g}",
        "finished.mass": "" if found.mass_g is None else f"{found.mass_g:g}",
        "finished.note": found.note.replace("](", "] ("),  # What looks like a link is none.
    }
    for at, (name, marks) in enumerate(found.marks.items()):
        state |= {f"tasted.{at}.attribute": name, f"tasted.{at}.marks": ", ".join([str(mark) for mark in marks])}
    notes = notes_from(published.recipe, {f"{PREFIX}{name}": value for name, value in state.items() if value})
    trial = BenchTrial(
        published=published,
        changes=one.changes,
        conditions=as_published(published.recipe),
        notes=notes,
        start=TrialStart(),
    )
    texts = trial.texts()
    return {"name": f"{number}-group{found.group}.yaml", "file": str(texts["file.trial"]), "title": found.title}


def unusable_row(one: Unusable) -> list[str]:
    """A row of the table of codes that cannot be used."""
    return [one.which, one.problem, one.remedy]


def unusable_from(found: Found, error: InputError) -> Unusable:
    """A code that can be read, and does not fit its recipe."""
    return Unusable(f"The code of group {found.group}", error.problem, error.remedy)
