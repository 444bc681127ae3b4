"""Texts about the contents after each stage, and about the finished batch."""

from crumbcoat_calc.foods.figures import FIGURES, figure_texts, figure_value, percent_figure_text, share_text
from crumbcoat_calc.pictures.steps import ChartStage, step_chart
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.measures import Measures
from crumbcoat_calc.values.display import NOT_KNOWN

AFTER_A_STAGE = tuple([figure for figure in FIGURES if figure.key in ("fat", "water", "sugars")])
"""The figures shown below each stage."""


def stage_texts(batch: Batch, measures: Measures) -> Texts:
    """`stage.<n>.mass` and percentages of each stage, the figures of the whole, and the chart of fat by stage."""
    texts: Texts = {}
    for number, vessel in enumerate(batch.vessels):
        texts[f"stage.{number}.mass"] = measures.mixture(vessel.mixture.mass_g)
        for figure in AFTER_A_STAGE:
            texts[f"stage.{number}.{figure.key}.percent"] = percent_figure_text(figure_value(figure, vessel.mixture))
    texts |= figure_texts(batch.total)
    texts["missing"] = " ".join(part for part in (str(texts["missing"]), _notes_text(batch)) if part)
    texts["picture.fat_by_stage"] = _fat_chart(batch)
    return texts


def _notes_text(batch: Batch) -> str:
    """Where the figures of the recipe's own ingredients are from, and what is assumed of them."""
    notes = dict.fromkeys([weighed.food.note for weighed in batch.weighed if weighed.mass_g > 0 and weighed.food.note])
    return " ".join(note if note.endswith(".") else f"{note}." for note in notes)


def _fat_chart(batch: Batch) -> str:
    stages = []
    for stage, vessel in zip(batch.recipe.stages, batch.vessels, strict=True):
        percent = vessel.mixture.percent("fat_g")
        name = f"{stage.title} (set aside)" if stage.makes else stage.title
        text = NOT_KNOWN if percent is None else share_text(vessel.mixture, "fat_g")
        stages.append(ChartStage(name=name, value=percent, text=text))
    return step_chart("fat-by-stage", "Fat after each stage, g per 100 g", stages)
