"""Texts of a class experiment: what each group makes, what the figures predict, and a table for the results."""

from collections.abc import Sequence

from crumbcoat_calc.foods.composition import Mixture
from crumbcoat_calc.foods.figures import share_text
from crumbcoat_calc.lesson.class_plan import letter_of
from crumbcoat_calc.lesson.draws import Draws
from crumbcoat_calc.lesson.experiment import Experiment
from crumbcoat_calc.lesson.lesson import BY_ADDITIONS, BY_TEMPERATURE, Lesson
from crumbcoat_calc.lesson.made import Made, groups_text
from crumbcoat_calc.recipe.model import Recipe
from crumbcoat_calc.science.solid_fat import solid_fat_percent
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.estimates import estimate_text
from crumbcoat_calc.values.display import list_text

BLANKS = ("our guess", "we saw", "we measured", "marks 1 to 5")
_FIGURES = (("fat_g", "fat"), ("water_g", "water"), ("sugars_g", "sugars"))


def experiment_texts(
    experiment: Experiment | None, recipes: Sequence[Recipe], made: Sequence[Made], lesson: Lesson
) -> Texts:
    """Rows of `experiment`: group, code for its bowl, level, what the figures say, and blanks.

    `experiment.what`, `experiment.control` and `experiment.untried` in words; all are empty without an experiment.
    """
    if experiment is None:
        return {"experiment": [], "experiment.what": "", "experiment.control": "", "experiment.untried": ""}
    recipe = recipes[experiment.recipe]
    codes = _codes(lesson.seed, lesson.groups)
    rows = []
    for group, level in experiment.levels.items():
        one = next(one for one in made if one.recipe == experiment.recipe and group in one.groups)
        predicted = _predicted_text(experiment, one, level)
        cells = [f"group {group}", codes[group - 1], experiment.level_text(level), predicted]
        rows.append([*cells, *[""] * len(BLANKS)])
    levels = sorted({*experiment.levels.values()} - {experiment.control})
    name = f"{letter_of(experiment.recipe, len(recipes))}{recipe.title}"
    return {
        "experiment": rows,
        "experiment.what": (
            f"One thing is different in {name}: {list_text([experiment.level_text(level) for level in levels])}. "
            "All else stays the same in all groups, so that what differs comes from that, or from chance. "
            "Write down your guess first; mark bowls with the codes alone, so that nobody who tastes knows which is "
            "which."
        ),
        "experiment.control": _control_text(experiment),
        "experiment.untried": _untried_text(recipe),
    }


def _predicted_text(experiment: Experiment, one: Made, level: float) -> str:
    """What the figures say of a level: what 100 g are made of; of a temperature, how much of its fat is solid."""
    if experiment.by == BY_ADDITIONS:
        return "the same figures for all groups"
    if experiment.by == BY_TEMPERATURE:
        food = experiment.ingredient.food
        if not food.content("fat_g"):
            return "the same figures for all groups"
        return f"solid fat {estimate_text(solid_fat_percent([(food, 100.0)], level), 0, '% of its fat')}"
    return _shares_text(one.batch.total)


def _shares_text(total: Mixture) -> str:
    return ", ".join(f"{word} {share_text(total, component)}" for component, word in _FIGURES)


def _control_text(experiment: Experiment) -> str:
    controls = experiment.controls
    if len(controls) > 1:
        return (
            f"{groups_text(controls).capitalize()} make the control, each for itself: how much these differ is chance, "
            "and a change shows only if it is larger."
        )
    return (
        f"Only {groups_text(controls)} makes the control, so nothing separates a change from chance: one more group "
        "would make it again."
    )


def _untried_text(recipe: Recipe) -> str:
    """That nobody has tried the changes, and what of the card does not hold for them."""
    unmade = " Nor is the recipe itself made yet: it is worked out." if recipe.made == 0 else ""
    heated = any(step.heat_to_c is not None for stage in recipe.stages for step in stage.steps)
    heat = " Heat to the temperatures of the method, whatever the amounts." if heated else ""
    return (
        f"The card knows of no batch with these changes: they are untried.{unmade} Its times for keeping are for the "
        f"recipe as published.{heat}"
    )


def _codes(seed: str, groups: int) -> list[str]:
    """A code of three digits for each group, no two the same, always the same ones for a seed."""
    draws = Draws(f"{seed}/codes")
    codes: list[str] = []
    while len(codes) < groups:
        code = str(draws.whole_number(100, 999))
        if code not in codes:
            codes.append(code)
    return codes
