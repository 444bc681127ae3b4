"""What a batch is made of, for the terminal."""

from collections.abc import Sequence
from pathlib import Path

from crumbcoat_calc.foods.figures import FIGURES, figure_texts
from crumbcoat_calc.recipe.batch import Batch, BatchOptions, batch_of
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.values.display import mass_text
from crumbcoat_calc.values.units import number

from crumbcoat_site.command.columns import in_columns
from crumbcoat_site.command.site_recipes import recipe_of_file
from crumbcoat_site.command.trial_book import open_book
from crumbcoat_site.recipe_cards.source.trial_folders import is_in_a_trial_folder


def figures_text(file: Path, batches: str = "1") -> str:
    """Two tables: the ingredients, and the figures of the finished batch and of what is in the vessel after each stage.

    Raises:
        SourceError: if the file holds no recipe.
        TrialError: if it is a trial that cannot be used.
        InputError: if the number of batches cannot be used.
    """
    recipe, of_trial = _recipe_and_trial(file)
    batch = batch_of(recipe, BatchOptions(factor=float(number(batches))))
    amounts = [(weighed.name, mass_text(weighed.mass_g)) for weighed in batch.weighed]
    head = f"{recipe.title}{of_trial} ({recipe.family}), {mass_text(batch.total.mass_g)}"
    return "\n".join([head, "", *in_columns(amounts), "", *in_columns(_figure_rows(batch)), *_notes(batch)]).rstrip()


def _recipe_and_trial(file: Path) -> tuple[Recipe, str]:
    """The recipe of a file, or what a trial made of it and which one that is."""
    if is_in_a_trial_folder(file.absolute().as_posix()):
        made = open_book(file).named
        assert made is not None  # A trial that is named and cannot be used is an error of `open_book`.
        return made.recipe, f", trial {made.trial.number}"
    return recipe_of_file(file), ""


def _figure_rows(batch: Batch) -> list[tuple[str, ...]]:
    texts = [figure_texts(batch.total), *(figure_texts(vessel.mixture) for vessel in batch.vessels)]
    numbers = [f"after stage {number}" for number in range(1, len(batch.vessels) + 1)]
    rows: list[tuple[str, ...]] = [("", "batch", "per 100 g", *numbers)]
    for figure in FIGURES:
        key = f"{figure.key}.percent"
        rows.append((figure.label, texts[0][f"{figure.key}.mass"], *(text[key] for text in texts)))
    rows.append(("Energy", texts[0]["energy"], *(text["energy_100g"] for text in texts)))
    return rows


def _notes(batch: Batch) -> Sequence[str]:
    missing = figure_texts(batch.total)["missing"]
    stages = [f"Stage {number}: {stage.title}" for number, stage in enumerate(batch.recipe.stages, start=1)]
    return ["", *stages, *(["", missing] if missing else [])]
