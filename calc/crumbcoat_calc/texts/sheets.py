"""Texts of the worksheets and their answers."""

from collections.abc import Sequence

from crumbcoat_calc.lesson.lesson import ANSWERS, Lesson
from crumbcoat_calc.lesson.worksheet import Worksheet, worksheet
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.texts import Section, Texts
from crumbcoat_calc.values.display import list_text


def sheet_texts(batches: Sequence[Batch], lesson: Lesson) -> Texts:
    """`worksheets` and `answer_keys`: sections of title and rows; `sheets.left_out`: what is left out, and why."""
    sheets: list[Section] = []
    answers: list[Section] = []
    left_out: list[str] = []
    for number, seed in enumerate(lesson.seeds, 1):
        for batch in batches:
            sheet = worksheet(batch, f"{seed}/{batch.recipe.title}", batch.recipe.measured.density_g_per_ml)
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


def _title(batch: Batch, group: int | None) -> str:
    return batch.recipe.title if group is None else f"{batch.recipe.title}, group {group}"


def _questions(sheet: Worksheet) -> list[list[str]]:
    return [[str(number), exercise.question] for number, exercise in enumerate(sheet.exercises, 1)]


def _workings(sheet: Worksheet) -> list[list[str]]:
    """A row for each line of the working: number and topic beside the first, the answer beside the last."""
    rows = []
    for number, exercise in enumerate(sheet.exercises, 1):
        lines = [["", line, ""] for line in exercise.working]
        lines[0][0] = f"{number}. {exercise.topic}"
        lines[-1][2] = exercise.answer
        rows += lines
    return rows
