"""Texts for a teacher: goals by age, a rubric, a tasting record, and the sheets besides the exercises."""

from collections.abc import Sequence

from crumbcoat_calc.lesson.diagnosis import diagnoses
from crumbcoat_calc.lesson.exercise import Exercise
from crumbcoat_calc.lesson.final_test import final_test
from crumbcoat_calc.lesson.lesson import DIAGNOSIS, GOALS, LEVELS, PREDICTION, RUBRIC, TASTING, TEST, Lesson
from crumbcoat_calc.lesson.prediction import Known, predictions
from crumbcoat_calc.lesson.tasting import SCALE, SCALE_TEXT, attributes
from crumbcoat_calc.lesson.techniques import goals, techniques, temperatures_c
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.texts import Section, Texts
from crumbcoat_calc.values.display import celsius_text, list_text

SPOILED = ("", "A spoiled batch", "Two spoiled batches", "Three spoiled batches")


def teaching_texts(known: Sequence[Known], lesson: Lesson) -> Texts:
    """`guides`: a section of goals and rubric for the teacher, or none; `tastings`: one of each recipe, or none."""
    batches = [batch for batch, _ in known]
    guide: Section = {
        "title": f"Goals and rubric, age {lesson.level}",
        "goals": [] if GOALS in lesson.not_printed else goal_rows(known, lesson.level),
        "rubric": [] if RUBRIC in lesson.not_printed else rubric_rows(batches),
    }
    tastings: list[Section] = [
        {"title": batch.recipe.title, "scale": SCALE_TEXT, "attributes": tasting_rows(batch)} for batch in batches
    ]
    return {
        "guides": [guide] if guide["goals"] or guide["rubric"] else [],
        "tastings": [] if TASTING in lesson.not_printed else tastings,
    }


def before_the_exercises(known: Sequence[Known], lesson: Lesson, seed: str) -> list[tuple[str, list[Exercise]]]:
    """The sheet that students fill in before they mix, by its title; none if it is left out."""
    if PREDICTION in lesson.not_printed:
        return []
    return [("Prediction before you mix", predictions(known, seed))]


def after_the_exercises(known: Sequence[Known], lesson: Lesson, seed: str) -> list[tuple[str, list[Exercise]]]:
    """The sheets that students fill in afterwards, by their titles; those that are not left out or empty."""
    spoiled = [] if DIAGNOSIS in lesson.not_printed else diagnoses([batch.recipe for batch, _ in known], seed)
    test = [] if TEST in lesson.not_printed else final_test(known, seed, lesson.level)
    return [(title, sheet) for title, sheet in ((SPOILED[len(spoiled)], spoiled), ("Test", test)) if sheet]


def goal_rows(known: Sequence[Known], level: str) -> list[list[str]]:
    """What it is about, and in which recipes if not in all; what a student knows, can do and explains."""
    found: dict[str, list[Batch]] = {}
    for batch, card in known:
        for technique in techniques(batch.recipe, card.structure):
            found.setdefault(technique, []).append(batch)
    rows = []
    for technique, batches in found.items():
        goal = goals()[technique]
        temperatures = [celsius_text(t_c) for batch in batches for t_c in temperatures_c(batch.recipe)]
        titles = list_text([batch.recipe.title for batch in batches])
        rows.append(
            [
                goal.words if len(batches) == len(known) else f"{goal.words} ({titles})",
                goal.knows,
                goal.can.format(temperatures=list_text(list(dict.fromkeys(temperatures)))),
                goal.explains[LEVELS.index(level)],
            ]
        )
    return rows


def rubric_rows(batches: Sequence[Batch]) -> list[list[str]]:
    """Five criteria of the practical work with four levels each, the lowest first.

    Source:
        common-practice.
    """
    steps = [step for batch in batches for stage in batch.recipe.stages for step in stage.steps]
    foods = [one.food for batch in batches for one in batch.weighed if one.mass_g > 0]
    also = ", also after egg" if any(food.group == "egg" for food in foods) else ""
    measures = ", measures the temperatures" if any(temperatures_c(batch.recipe) for batch in batches) else ""
    stops = "stops at the signs to look for" if any(step.look_for for step in steps) else "stops in time"
    signs = "passes the checkpoints" if any(step.checkpoint for step in steps) else "is as the recipe describes it"
    return [
        [
            "organisation",
            "Begins without reading; things are missing.",
            "Has most things ready; needs reminders of the next step.",
            "Has all weighed and laid out; keeps to the order and the times.",
            "Plans ahead by the clock, shares the work, and helps others.",
        ],
        [
            "hygiene",
            "Washes hands and cleans up only when reminded.",
            "Washes hands at the start; leaves the bench untidy.",
            f"Keeps to the rules of the kitchen{also}: clean hands, clean bench, a clean spoon to taste.",
            "Does so without a reminder, and says what it prevents.",
        ],
        [
            "technique",
            "Needs help at most steps.",
            "Does the steps, and is often unsure when to stop.",
            f"Does the steps as written{measures}, and {stops}.",
            "Notices trouble early, says what it is, and puts it right.",
        ],
        [
            "product",
            "Cannot be used.",
            "Can be used, with faults that anyone notices.",
            f"The result {signs}.",
            "The same, and it is even throughout and put away as the recipe says.",
        ],
        [
            "explanation",
            "Says what was done.",
            "Gives the reason for one step.",
            "Explains in own words what the goals name.",
            "Explains it with figures from the card, and says what another ingredient would change.",
        ],
    ]


def tasting_rows(batch: Batch) -> list[list[str]]:
    """When it is noticed, what to judge, both ends of the scale, and the scale to circle."""
    scale = "  ".join(SCALE)
    return [[when, what, low, high, scale] for when, what, low, high in attributes([batch])]
