"""What is on the weigh sheet of a trial: the amounts that were planned, and what changed."""

from collections.abc import Sequence
from dataclasses import dataclass

from crumbcoat_calc.recipe.model import Ingredient, Recipe, Step
from crumbcoat_calc.tables import citations, public_source
from crumbcoat_calc.trials.differences import grams_texts, step_texts
from crumbcoat_calc.trials.notebook import MadeTrial
from crumbcoat_calc.values.display import list_text, plain_number_text


def cup_source() -> str:
    """The source of how a cup is filled and weighed."""
    return public_source(citations()["cid-a-a-20196"])


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighRow:
    """What is weighed: its name and short name, the portion if it is one, and the planned amount.

    `is_part`: a portion below its ingredient; `is_rescue`: kept back, and not in the batch unless it is used.
    """

    key: str
    name: str
    amount: str
    is_part: bool = False
    is_rescue: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighSheet:
    """A weigh sheet; number, origin, aim and code are empty, and `changes` too, on the one for the recipe as it is."""

    recipe: Recipe
    number: str
    origin: str
    aim: str
    code: str
    changes: Sequence[str]
    rows: Sequence[WeighRow]

    @staticmethod
    def goes_in(step: Step) -> str:
        """What a step adds, in the short names of the file.

        >>> from crumbcoat_calc.recipe.model import Use
        >>> WeighSheet.goes_in(Step(do="Stir.", uses=(Use(what="icing_sugar", portion="creaming"), Use(what="salt"))))
        'icing sugar (creaming) and salt'
        """
        names = [f"{use.what} ({use.portion})" if use.portion else use.what for use in step.uses]
        return list_text([name.replace("_", " ") for name in names])


def weigh_sheet(recipe: Recipe) -> WeighSheet:
    """The sheet for the recipe as it is, as every group of a class makes it."""
    return WeighSheet(recipe=recipe, number="", origin="", aim="", code="", changes=(), rows=weigh_rows(recipe))


def weigh_sheet_of(made: MadeTrial) -> WeighSheet:
    """The sheet for a trial as it was planned."""
    planned, trial = made.plan, made.trial
    return WeighSheet(
        recipe=planned,
        number=str(trial.number),
        origin=trial.came_from or "",
        aim=trial.aim or "",
        code=trial.code or "",
        changes=[*grams_texts(made.origin.recipe, planned), *step_texts(trial.changed.steps)],
        rows=weigh_rows(planned),
    )


def weigh_rows(recipe: Recipe) -> list[WeighRow]:
    """Each ingredient, below it its portions, then what is kept back for a rescue."""
    return [row for ingredient in recipe.ingredients for row in _rows_of(ingredient)]


def _rows_of(ingredient: Ingredient) -> list[WeighRow]:
    key, name = ingredient.key, ingredient.name
    rows = [] if ingredient.is_all_kept_back else [WeighRow(key=key, name=name, amount=amount_text(ingredient.mass_g))]
    rows += [
        WeighRow(key=key, name=f"for {portion.key.replace('_', ' ')}", amount=amount_text(portion.mass_g), is_part=True)
        for portion in ingredient.portions
    ]
    rows += [
        WeighRow(key=key, name=f"{name}, kept back", amount=amount_text(part.mass_g), is_rescue=True)
        for part in ingredient.kept_back
    ]
    return rows


def amount_text(mass_g: float) -> str:
    """A mass to weigh: to 0.01 g below 10 g, otherwise to 0.1 g.

    >>> amount_text(2.375), amount_text(187.26), amount_text(250)
    ('2.38 g', '187.3 g', '250 g')
    """
    return f"{plain_number_text(mass_g, 2 if mass_g < 10 else 1)} g"
