"""What the search of the site knows of a card: the words of its recipe, and none of controls, figures or models."""

from dataclasses import dataclass

from crumbcoat_calc.recipe.model import Ingredient, Recipe, Stage, Step
from crumbcoat_calc.values.marks import plain_text


@dataclass(frozen=True, slots=True, kw_only=True)
class SearchWords:
    """The words of a recipe, by the parts of its page that a reader is led to."""

    head: str
    ingredients: str
    stages: tuple[str, ...]
    tips: str
    keeping: str
    notes: str
    asked: str


def search_words(recipe: Recipe) -> SearchWords:
    """The words of each part, once each sentence."""
    return SearchWords(
        head=_words(
            recipe.summary, recipe.family, recipe.cuisine, *recipe.keywords, recipe.yields.of, recipe.author.name
        ),
        ingredients=_words(
            *(word for ingredient in recipe.ingredients for word in _of_ingredient(ingredient)),
            *(extra.what for extra in recipe.decorations),
            *recipe.equipment,
        ),
        stages=tuple(_of_stage(stage) for stage in recipe.stages),
        tips=_words(*recipe.tips),
        keeping=_words(*(word for storage in recipe.storage for word in (storage.where, storage.note))),
        notes=_words(*recipe.notes),
        asked=_words(*(word for asked in recipe.asked for word in (asked.question, asked.answer))),
    )


def _of_ingredient(ingredient: Ingredient) -> list[str | None]:
    others = [word for other in ingredient.replacements for word in (other.name, other.note)]
    parts = [part.name for part in ingredient.made_of]
    return [ingredient.name, ingredient.preparation, ingredient.role, *parts, *others]


def _of_stage(stage: Stage) -> str:
    return _words(*(word for step in stage.steps for word in _of_step(step)))


def _of_step(step: Step) -> list[str | None]:
    checkpoint = step.checkpoint
    signs = [word for trouble in checkpoint.troubles for word in (trouble.sign, trouble.remedy)] if checkpoint else []
    passes = checkpoint.passes if checkpoint else ()
    return [step.do, step.tool, step.look_for, step.why, *passes, *signs, step.when_scaled]


def _words(*found: str | None) -> str:
    return " ".join(dict.fromkeys(" ".join(plain_text(words).split()) for words in found if words))
