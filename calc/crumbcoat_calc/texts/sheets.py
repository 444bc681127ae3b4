"""Texts of the worksheets and their answers."""

from collections.abc import Sequence

from crumbcoat_calc.lesson.lesson import ANSWERS, Lesson
from crumbcoat_calc.lesson.worksheet import Worksheet, worksheet
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.texts import Section, Texts
from crumbcoat_calc.values.display import list_text


def sheet_texts(batches: Sequence[Batch], lesson: Lesson) -> Texts:
    """`worksheets` and `answer_keys`: sections of title and rows; `sheets.left_out`: what is not asked, and why."""
    sheets: list[Section] = []
    answers: list[Section] = []
    left_out: list[str] = []
    for number, seed in enumerate(lesson.seeds, 1):
        for batch in batches:
            made = worksheet(batch, f"{seed}/{batch.recipe.title}", batch.recipe.measured.density_g_per_ml)
            title = _title(batch, number if len(lesson.seeds) > 1 else None)
            sheets.append({"title": title, "questions": _questions(made)})
            answers.append({"title": title, "workings": _workings(made)})
            if number == 1 and made.left_out:
                reasons = list_text([f"{topic}, since {why}" for topic, why in made.left_out])
                left_out.append(f"Not asked of {batch.recipe.title}: {reasons}.")
    return {
        "worksheets": sheets,
        "answer_keys": answers if lesson.answers == ANSWERS[0] else [],
        "sheets.left_out": " ".join(left_out),
        "sheets.seed": f"Seed {lesson.seed}: with it the same numbers are drawn again.",
    }


def _title(batch: Batch, group: int | None) -> str:
    return batch.recipe.title if group is None else f"{batch.recipe.title}, group {group}"


def _questions(made: Worksheet) -> list[list[str]]:
    return [[str(number), one.question] for number, one in enumerate(made.exercises, 1)]


def _workings(made: Worksheet) -> list[list[str]]:
    """A row of each line of the working: number and topic beside the first, the answer beside the last."""
    rows = []
    for number, one in enumerate(made.exercises, 1):
        lines = [["", line, ""] for line in one.working]
        lines[0][0] = f"{number}. {one.topic}"
        lines[-1][2] = one.answer
        rows += lines
    return rows
