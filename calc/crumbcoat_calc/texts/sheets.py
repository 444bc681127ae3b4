"""Texts of the worksheets and their answers."""

from collections.abc import Sequence

from crumbcoat_calc.lesson.card_figures import CardFigures, air_of, dissolves
from crumbcoat_calc.lesson.choices import LETTERS
from crumbcoat_calc.lesson.exercise import Exercise
from crumbcoat_calc.lesson.lesson import ANSWERS, EXERCISES, Lesson
from crumbcoat_calc.lesson.worksheet import Worksheet, worksheet
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.science.constants import constants
from crumbcoat_calc.science.estimate import Estimate, Withheld
from crumbcoat_calc.science.structure import structure_of
from crumbcoat_calc.science.warming import falls_to, melting
from crumbcoat_calc.texts import Section, Texts
from crumbcoat_calc.texts.science import treated_parts, vessel_state
from crumbcoat_calc.texts.teaching import after_the_exercises, before_the_exercises, teaching_texts
from crumbcoat_calc.texts.warming import carried_by_fat, ends_of_state
from crumbcoat_calc.values.display import list_text

_DRAWS = 20
"""How often a sheet is drawn until it is unlike those of other groups; a recipe may have only a few."""


def sheet_texts(batches: Sequence[Batch], lesson: Lesson) -> Texts:
    """`worksheets` and `answer_keys`: sections of title and rows; `sheets.left_out`: what is left out, and why.

    They are about each recipe as published, as its card is, whatever a group makes of it. So are the texts of
    `teaching_texts`.
    """
    published = [batch_of(batch.recipe) for batch in batches]
    known = [(batch, card_figures(batch)) for batch in published]
    sheets: list[tuple[str, Sequence[Exercise]]] = []
    left_out: list[str] = []
    given: set[tuple[str, ...]] = set()
    for number, seed in enumerate(lesson.seeds, 1):
        group = f", group {number}" if len(lesson.seeds) > 1 else ""
        drawn: list[tuple[str, Sequence[Exercise]]] = [*before_the_exercises(known, lesson, seed)]
        for batch, card in () if EXERCISES in lesson.not_printed else known:
            sheet = _unlike(given, batch, card, f"{seed}/{batch.recipe.title}", lesson.level)
            drawn.append((batch.recipe.title, sheet.exercises))
            if number == 1 and sheet.left_out:
                reasons = list_text([f"{topic}, because {why}" for topic, why in sheet.left_out])
                left_out.append(f"Left out for {batch.recipe.title}: {reasons}.")
        drawn += after_the_exercises(known, lesson, seed)
        sheets += [(f"{title}{group}", exercises) for title, exercises in drawn]
    answers = sheets if lesson.answers == ANSWERS[0] else []
    worksheets: list[Section] = [{"title": title, "questions": _questions(exercises)} for title, exercises in sheets]
    keys: list[Section] = [{"title": title, "workings": _workings(exercises)} for title, exercises in answers]
    return {
        "worksheets": worksheets,
        "answer_keys": keys,
        "sheets.left_out": " ".join(left_out),
        "sheets.seed": f"Seed {lesson.seed}: the same seed draws the same numbers again.",
        **teaching_texts(known, lesson),
    }


def _unlike(given: set[tuple[str, ...]], batch: Batch, card: CardFigures, seed: str, level: str) -> Worksheet:
    """The worksheet that a seed draws, drawn again while another group was given its questions; it is then given."""
    for again in range(_DRAWS):
        sheet = worksheet(batch, card, f"{seed}/{again}" if again else seed, level)
        questions = tuple([exercise.question for exercise in sheet.exercises])
        if questions not in given:
            break
    given.add(questions)
    return sheet


def card_figures(batch: Batch) -> CardFigures:
    """What the card says of the finished batch in a kitchen as usual."""
    finished = batch.vessels[-1]
    state = vessel_state(finished, constants("kitchen")["room"])
    structure = structure_of(treated_parts(finished), batch.recipe.family, state)
    fat_g, melts = state.fat_g, melting(ends_of_state(state))
    slumps_c = None
    if carried_by_fat(structure) and not isinstance(melts, Withheld):
        slumps_c = falls_to(melts.of_fat, constants("solid-fat")["greasy"])[0]
    return CardFigures(
        fat_percent=100 * fat_g.value / state.mass_g if isinstance(fat_g, Estimate) else None,
        air=air_of(batch.recipe, state.density_g_per_ml, structure),
        worked_out=batch.recipe.made == 0,
        all_dissolved=dissolves(state.undissolved_sugar_g, state.mass_g),
        structure=structure,
        slumps_c=slumps_c,
    )


def _questions(exercises: Sequence[Exercise]) -> list[list[str]]:
    """The number of each question, the question, and the answers to choose from, each in a cell of its own."""
    return [[str(number), exercise.question, *_choices(exercise)] for number, exercise in enumerate(exercises, 1)]


def _choices(exercise: Exercise) -> list[str]:
    return [f"{letter}) {choice}" for letter, choice in zip(LETTERS, exercise.choices, strict=False)]


def _workings(exercises: Sequence[Exercise]) -> list[list[str]]:
    """A row for each line of the working: number and topic beside the first, the answer beside the last."""
    rows = []
    for number, exercise in enumerate(exercises, 1):
        lines = [["", line, ""] for line in exercise.working] or [["", "", ""]]
        lines[0][0] = f"{number}. {exercise.topic}"
        lines[-1][2] = exercise.answer
        rows += lines
    return rows
