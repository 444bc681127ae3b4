"""Texts of the worksheets and their answers."""

from collections.abc import Sequence

from crumbcoat_calc.lesson.card_figures import CardFigures, air_of, dissolves
from crumbcoat_calc.lesson.lesson import ANSWERS, Lesson
from crumbcoat_calc.lesson.worksheet import Worksheet, worksheet
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.structure import structure_of
from crumbcoat_calc.texts import Section, Texts
from crumbcoat_calc.texts.science import treated_parts, vessel_state
from crumbcoat_calc.values.display import list_text


def sheet_texts(batches: Sequence[Batch], lesson: Lesson) -> Texts:
    """`worksheets` and `answer_keys`: sections of title and rows; `sheets.left_out`: what is left out, and why.

    They are about each recipe as published, as its card is, whatever a group makes of it.
    """
    published = [batch_of(batch.recipe) for batch in batches]
    sheets: list[Section] = []
    answers: list[Section] = []
    left_out: list[str] = []
    for number, seed in enumerate(() if "exercises" in lesson.not_printed else lesson.seeds, 1):
        for batch in published:
            sheet = worksheet(batch, card_figures(batch), f"{seed}/{batch.recipe.title}", lesson.level)
            title = _title(batch, number if len(lesson.seeds) > 1 else None)
            sheets.append({"title": title, "questions": _questions(sheet)})
            answers.append({"title": title, "workings": _workings(sheet)})
            if number == 1 and sheet.left_out:
                reasons = list_text([f"{topic}, because {why}" for topic, why in sheet.left_out])
                left_out.append(f"Left out for {batch.recipe.title}: {reasons}.")
    return {
        "worksheets": sheets,
        "answer_keys": answers if lesson.answers == ANSWERS[0] else [],
        "sheets.left_out": " ".join(left_out),
        "sheets.seed": f"Seed {lesson.seed}: the same seed draws the same numbers again.",
    }


def card_figures(batch: Batch) -> CardFigures:
    """What the card says of the finished batch in a kitchen as usual."""
    finished = batch.vessels[-1]
    state = vessel_state(finished, constants("kitchen")["room"])
    structure = structure_of(treated_parts(finished), batch.recipe.family, state)
    fat_g = state.fat_g
    return CardFigures(
        fat_percent=100 * fat_g.value / state.mass_g if isinstance(fat_g, Estimate) else None,
        air=air_of(batch.recipe, state.density_g_per_ml, structure),
        worked_out=batch.recipe.made == 0,
        all_dissolved=dissolves(state.undissolved_sugar_g, state.mass_g),
        structure=structure,
    )


def _title(batch: Batch, group: int | None) -> str:
    return batch.recipe.title if group is None else f"{batch.recipe.title}, group {group}"


def _questions(sheet: Worksheet) -> list[list[str]]:
    return [[str(number), exercise.question] for number, exercise in enumerate(sheet.exercises, 1)]


def _workings(sheet: Worksheet) -> list[list[str]]:
    """A row for each line of the working: number and topic beside the first, the answer beside the last."""
    rows = []
    for number, exercise in enumerate(sheet.exercises, 1):
        lines = [["", line, ""] for line in exercise.working] or [["", "", ""]]
        lines[0][0] = f"{number}. {exercise.topic}"
        lines[-1][2] = exercise.answer
        rows += lines
    return rows
