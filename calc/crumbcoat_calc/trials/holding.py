"""How long each trial held in each test: a bar a test, with the sign of what it did at its end."""

from collections.abc import Sequence

from crumbcoat_calc.pictures.drawing import (
    SMALL,
    WIDTH,
    box_path,
    element,
    label,
    picture,
    sentence,
    shortened,
    width_of,
)
from crumbcoat_calc.trials.charts import Chart
from crumbcoat_calc.trials.model import TESTS, BatchTest
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.signs import sign
from crumbcoat_calc.values.display import duration_text, plain_number_text

_ROW = 32.0
ON_PAPER = " on the paper"

_Done = tuple[MadeTrial, BatchTest]


def holding_charts(trials: Sequence[MadeTrial]) -> list[Chart]:
    """A chart of each kind of test that any trial was put through."""
    found = []
    for kind in TESTS:
        done = [(made, test) for made in trials for test in made.trial.tests if test.test == kind]
        if done:
            found.append(_chart(kind, done))
    return found


def conditions_text(test: BatchTest) -> str:
    """Where and at which temperature."""
    degrees = None if test.temperature_c is None else f"{plain_number_text(test.temperature_c, 1)} °C"
    return ", ".join([part for part in (test.where, degrees) if part])


def measured_text(test: BatchTest) -> str:
    """How long, and what was measured.

    >>> from crumbcoat_calc.trials.observed import batch_test_from
    >>> measured_text(batch_test_from({"test": "keeping", "did": "wept", "time": "2 days", "weeping": "4 mm"}))
    '2 days, 4 mm wet on the paper'
    """
    parts = [
        None if test.time_s is None else duration_text(test.time_s),
        None if test.rosettes is None else f"{test.rosettes} rosettes",
        None if test.weeping_mm is None else f"{plain_number_text(test.weeping_mm, 1)} mm wet{ON_PAPER}",
        None if test.height_lost_mm is None else f"{plain_number_text(test.height_lost_mm, 1)} mm of height lost",
    ]
    return ", ".join([part for part in parts if part])


def sentence_of_test(test: BatchTest) -> str:
    """A test in a sentence: its kind, its conditions, what was measured, what it did."""
    parts = [part for part in (conditions_text(test), measured_text(test)) if part]
    note = f" {test.note}" if test.note else ""
    return f"{test.test.capitalize()}{': ' if parts else ''}{', '.join(parts)}: {test.did}.{note}"


def _chart(kind: str, done: Sequence[_Done]) -> Chart:
    by_time = any(test.time_s is not None for _, test in done)
    sizes = [(test.time_s if by_time else test.rosettes) or 0.0 for _, test in done]
    longest = max(sizes) or 1.0
    places = {conditions_text(test) for _, test in done}
    common = places.pop() if len(places) == 1 else ""
    drawn, facts, rows = [], [], []
    room = WIDTH - 26.0
    for at, ((made, test), size) in enumerate(zip(done, sizes, strict=True)):
        y = at * _ROW
        said = ", ".join([part for part in (measured_text(test), "" if common else conditions_text(test)) if part])
        length = size / longest * (room - 12)
        number = str(made.trial.number)
        drawn.append(label(0, y + 13, number, kind="cc-text cc-marked"))
        drawn.append(
            label(
                20,
                y + 13,
                shortened(said.replace(ON_PAPER, ""), WIDTH - 20 - width_of(test.did, SMALL) - 8, SMALL),
                kind="cc-small",
            )
        )
        drawn.append(label(WIDTH, y + 13, test.did, kind="cc-small cc-figure", anchor="end"))
        if size:
            drawn.append(element("path", d=box_path(20, y + 19, length, 5), class_="cc-length"))
        drawn.append(sign(test.did, 20 + length, y + 21.5))
        facts.append(f"trial {number}: {said}{', ' if said else ''}{test.did}")
        rows.append([f"Trial {number}", conditions_text(test), measured_text(test), test.did])
    title = kind.capitalize() + (f": {common}" if common else "")
    height = len(done) * _ROW + 4
    return Chart(
        title=title,
        picture=picture(f"held-{kind}", height, title, sentence(title, facts), *drawn),
        heads=["Trial", "Conditions", "Measured", "It"],
        rows=rows,
        says_all=True,
    )
