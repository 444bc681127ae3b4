"""What to try next, and the trial file for it."""

from datetime import date
from pathlib import Path

from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.texts.measures import household_text
from crumbcoat_calc.trials.model import Changed
from crumbcoat_calc.trials.next_step import Between, batch_with, change_to, edges_of
from crumbcoat_calc.trials.next_step_texts import edge_text
from crumbcoat_calc.values.region import spoons_in, text_in
from crumbcoat_calc.values.units import is_volume, unit_spellings

from crumbcoat_site.command.new_trial import put_down, trial_head
from crumbcoat_site.command.trial_book import TrialBook
from crumbcoat_site.command.us_kitchen import fahrenheit


def write_next(book: TrialBook, who: str | None, today: date) -> list[Path]:
    """Write the trial files of what to try next, one for each suggestion, and give their paths."""
    edges = [edge for edge in edges_of(book.made) if edge.value is not None]
    return [_write(book, number, edge, who, today) for number, edge in enumerate(edges, book.next_number)]


def _write(book: TrialBook, number: int, edge: Between, who: str | None, today: date) -> Path:
    held = edge.held[1]
    changed = change_to(edge.setting, edge.value or 0.0)
    head = trial_head(book, number, held, who, today)
    aim = f"aim: {_quoted(text_in(book.region, edge_text(edge)))}"
    recipe = batch_with(held.planned, changed).recipe
    return put_down(book, number, [*head, aim, *changed_lines(changed, recipe, book)], recipe)


def changed_lines(changed: Changed, recipe: Recipe, book: TrialBook) -> list[str]:
    """A change as lines of a trial file: amounts in g, and beside them in cups or pieces if the recipe has them so.

    Args:
        recipe: what the change makes.
    """
    region = book.region
    lines = ["changed:"]
    if changed.ingredients:
        lines.append("  ingredients:")
        for key, fields in changed.ingredients.items():
            lines.append(f"    {key}: {_written(fields, region)}{_beside(key, recipe, book)}")
    if changed.steps:
        lines.append("  steps:")
        lines += [f"    {place.written}: {_written(fields, region)}" for place, fields in changed.steps.items()]
    return lines


def _beside(key: str, recipe: Recipe, book: TrialBook) -> str:
    """The amount of an ingredient as a comment, as the recipe measures it; empty where that is in a unit of mass."""
    was = next((one.amount for one in book.recipe.ingredients if one.key == key), None)
    one = next((one for one in recipe.ingredients if one.key == key), None)
    if was is None or one is None or was.unit in unit_spellings("mass"):
        return ""
    system = spoons_in(book.region)
    if is_volume(was.unit):
        system = "us" if was.unit.startswith("us_") else "metric"
    shown = household_text(one.food, one.mass_g, system, was.unit, was.how)
    return f" # about {text_in(book.region, shown)}" if shown else ""


def _written(change: object, region: str) -> str:
    assert isinstance(change, dict)
    written = "{" + ", ".join(f"{name}: {value}" for name, value in change.items()) + "}"
    return fahrenheit(written, 1) if region == "US" else written


def _quoted(text: str) -> str:
    return '"' + text.replace('"', "'") + '"'
