"""What to try next, and the trial file for it."""

from datetime import date
from pathlib import Path

from crumbcoat_calc.trials.model import Changed
from crumbcoat_calc.trials.next_step import Between, batch_with, change_to, edges_of
from crumbcoat_calc.trials.next_step_texts import edge_text

from crumbcoat_site.command.new_trial import put_down, trial_head
from crumbcoat_site.command.trial_book import TrialBook


def write_next(book: TrialBook, who: str | None, today: date) -> list[Path]:
    """Write the trial files of what to try next, one for each suggestion, and give their paths."""
    edges = [edge for edge in edges_of(book.made) if edge.value is not None]
    return [_write(book, number, edge, who, today) for number, edge in enumerate(edges, book.next_number)]


def _write(book: TrialBook, number: int, edge: Between, who: str | None, today: date) -> Path:
    held = edge.held[1]
    changed = change_to(edge.setting, edge.value or 0.0)
    head = trial_head(book, number, held, who, today)
    aim = f"aim: {_quoted(edge_text(edge))}"
    return put_down(book, number, [*head, aim, *changed_lines(changed)], batch_with(held.planned, changed).recipe)


def changed_lines(changed: Changed) -> list[str]:
    """A change as lines of a trial file."""
    lines = ["changed:"]
    if changed.ingredients:
        lines += ["  ingredients:", *[f"    {key}: {_written(fields)}" for key, fields in changed.ingredients.items()]]
    if changed.steps:
        lines += ["  steps:", *[f"    {place.written}: {_written(fields)}" for place, fields in changed.steps.items()]]
    return lines


def _written(change: object) -> str:
    assert isinstance(change, dict)
    return "{" + ", ".join(f"{name}: {value}" for name, value in change.items()) + "}"


def _quoted(text: str) -> str:
    return '"' + text.replace('"', "'") + '"'
