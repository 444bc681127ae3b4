"""The line through the trials of a notebook: each in a lane, joined to what it came from."""

from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_calc.pictures.drawing import SMALL, WIDTH, element, label, number, picture, sentence, shortened
from crumbcoat_calc.trials.differences import percent_of_fat, short_text
from crumbcoat_calc.trials.finished import finished_state
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.trials.outcomes import outcome_of
from crumbcoat_calc.trials.signs import NOT_SAID, sign

ROW, _LANE, _LEFT, _MOST = 38.0, 20.0, 12.0, 6


@dataclass(frozen=True, slots=True)
class Stop:
    """A trial on the line: its lane from 0, and the row and lane of what it came from; row -1 is the recipe."""

    made: MadeTrial
    lane: int
    from_row: int
    from_lane: int


def stops(trials: Sequence[MadeTrial]) -> list[Stop]:
    """The trials with their lanes: those that led to the last good one are in the first.

    Another one goes on in the lane of what it came from, if no other does; else it gets the first lane that is free.
    """
    rows = {made.trial.number: row for row, made in enumerate(trials)}
    main = _main_line(trials)
    lanes: dict[int, int] = {}
    ends: dict[int, int] = {0: len(trials)}
    tips: dict[int, int] = {}
    found = []
    for row, made in enumerate(trials):
        number = made.trial.number
        before = made.before.trial.number if made.before else None
        from_row = -1 if before is None else rows[before]
        from_lane = 0 if before is None else lanes[before]
        if number in main:
            lane = 0
        elif before is not None and from_lane and tips[from_lane] == before:
            lane = from_lane
        else:
            lane = next(at for at in range(1, len(trials) + 2) if ends.get(at, -2) < from_row + 1)
        lanes[number], tips[lane] = lane, number
        if lane:
            ends[lane] = row
        found.append(Stop(made, lane, from_row, from_lane))
    return found


def line_picture(trials: Sequence[MadeTrial]) -> str:
    """The trials from above to below, each with its sign, what changed, its fat, and what it did."""
    found = stops(trials)
    across = min(_MOST, max([stop.lane for stop in found], default=0))
    text_x = _LEFT + _LANE * across + 16
    drawn = [element("path", d=_joined(stop, row), class_="cc-way") for row, stop in enumerate(found)]
    drawn += [
        element("circle", cx=_LEFT, cy=10, r=3.5, class_="cc-root"),
        label(text_x, 14, "the recipe as it is now", kind="cc-small"),
    ]
    facts = []
    for row, stop in enumerate(found):
        made, y = stop.made, row_y(row)
        did = outcome_of(made.trial)
        fat = percent_of_fat(finished_state(made))
        head = f"{made.trial.number}"
        what = short_text(made, 1)
        drawn.append(sign(did, _x(stop.lane), y))
        drawn.append(label(text_x, y - 2, head, kind="cc-text cc-marked"))
        room = WIDTH - text_x - 22
        drawn.append(label(text_x + 22, y - 2, shortened(what, room)))
        note = ", ".join(part for part in (did or NOT_SAID, fat, made.trial.verdict) if part)
        drawn.append(label(text_x + 22, y + 13, shortened(note, room, SMALL), kind="cc-small"))
        origin = f"from trial {made.before.trial.number}" if made.before else "from the recipe"
        facts.append(f"trial {head} {origin}, {what}: {note}")
    title = "The line through the trials"
    return picture("line", row_y(len(found)) - 8, title, sentence(title, facts), *drawn)


def _main_line(trials: Sequence[MadeTrial]) -> set[int]:
    """The numbers of the last trial that was good, or else of the last one, and of all that led to it."""
    good = [made for made in trials if made.trial.verdict == "publish"]
    good = good or [made for made in trials if made.trial.verdict != "drop"] or list(trials)
    found, at = set(), good[-1] if good else None
    while at is not None:
        found.add(at.trial.number)
        at = at.before
    return found


def _x(lane: int) -> float:
    return _LEFT + _LANE * min(lane, _MOST)


def row_y(row: int) -> float:
    """The middle of a row; -1 is that of the recipe."""
    return 10 + (row + 1) * ROW - (0 if row < 0 else 4)


def _joined(stop: Stop, row: int) -> str:
    """From what it came from straight down, then over into its own lane just above it."""
    x0, y0 = _x(stop.from_lane), 10.0 if stop.from_row < 0 else row_y(stop.from_row)
    x1, y1 = _x(stop.lane), row_y(row)
    if x0 == x1:
        return f"M{number(x0)} {number(y0)}V{number(y1)}"
    turn = y0 + ROW * 0.75
    curve = f"C{number(x0)} {number(turn)} {number(x1)} {number(y0 + ROW * 0.25)} {number(x1)} {number(turn)}"
    return f"M{number(x0)} {number(y0)}{curve}V{number(y1)}"
