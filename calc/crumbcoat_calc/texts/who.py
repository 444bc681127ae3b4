"""Texts on who makes what, and a table in which groups compare what they made."""

from collections.abc import Sequence

from crumbcoat_calc.foods.figures import energy_figure_texts, share_text
from crumbcoat_calc.lesson.class_plan import letter_of
from crumbcoat_calc.lesson.lesson import Lesson
from crumbcoat_calc.lesson.made import Made, groups_text
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.values.display import list_text

RATED = ("smooth", "sweet", "light", "we like it")
"""What students rate from 1 to 5 (common practice, no source)."""


def who_texts(made: Sequence[Made], lesson: Lesson) -> Texts:
    """Rows of `who`: group, students, what it makes; and of `compare`: recipe, groups, figures, and blanks."""
    recipes = len({one.recipe for one in made})
    return {
        "who": [
            [f"group {group}", str(size), list_text([_made_text(one, recipes) for one in made if group in one.groups])]
            for group, size in enumerate(lesson.group_sizes, 1)
        ],
        "compare": [_compared_row(number, made, lesson) for number in range(recipes)] if recipes > 1 else [],
    }


def _made_text(one: Made, recipes: int) -> str:
    name = f"{letter_of(one.recipe, recipes)}{one.batch.recipe.title}"
    label = one.label or ("the control" if one.is_control else "")
    return f"{name} ({label})" if label else name


def _compared_row(recipe: int, made: Sequence[Made], lesson: Lesson) -> list[str]:
    """A recipe as published, or as most groups make it if none makes it so."""
    of_it = [one for one in made if one.recipe == recipe]
    one = min(of_it, key=lambda one: (bool(one.change), -len(one.groups)))
    total = one.batch.total
    figures = [share_text(total, component) for component in ("fat_g", "sugars_g", "water_g")]
    who = "all groups" if len(one.groups) == lesson.groups else groups_text(one.groups)
    return [one.batch.recipe.title, who, *figures, energy_figure_texts(total)[1], *[""] * len(RATED)]
