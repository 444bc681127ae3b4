"""Open questions from the notes of a recipe on why it does what it does."""

from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.lesson.exercise import Exercise
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.values.marks import plain_text


def why_questions(recipe: Recipe, draws: Draws, most: int) -> list[Exercise]:
    """Up to this many questions after the reason for a step, drawn, in the order of the steps."""
    notes = [
        (f"{stage_number}.{number}", plain_text(step.do), plain_text(step.why))
        for stage_number, stage in enumerate(recipe.stages, 1)
        for number, step in enumerate(stage.steps, 1)
        if step.why
    ]
    chosen = sorted(draws.some_of(range(len(notes)), most))
    return [
        Exercise(topic=f"why, step {place}", question=f"Step {place} of {recipe.title}: “{do}” Why?", answer=why)
        for place, do, why in [notes[at] for at in chosen]
    ]
