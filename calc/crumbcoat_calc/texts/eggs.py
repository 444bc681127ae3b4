"""Texts of how many eggs to break, and of the sizes of batch that need whole eggs."""

from crumbcoat_calc.foods.table import Food
from crumbcoat_calc.forms.changes import Changes
from crumbcoat_calc.kitchen.eggs import EGG_KINDS, Eggs, eggs_for, factors_for_whole_eggs
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.reading import LARGEST_BATCH, SMALLEST_BATCH
from crumbcoat_calc.recipe.weighing import Weighing
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.portions import batch_word, batches_text
from crumbcoat_calc.values.display import list_text, plain_number_text

_EGG_PARTS = {kind: part for part, kind in EGG_KINDS.items()}

_SIZES = {"whole_eggs.less": "whole_eggs.less_batches", "whole_eggs.more": "whole_eggs.more_batches"}
"""The texts of a number of batches, and those of the same in words."""


def eggs_to_break_text(food: Food, mass_g: float, size: str) -> str:
    """How many eggs of a size give this much, and what to measure off; empty if it is not an egg's."""
    part = _EGG_PARTS.get(food.key)
    return "" if part is None else _broken_text(eggs_for(mass_g, part, size))


def egg_texts(batch: Batch, changes: Changes, weighing: Weighing) -> Texts:
    """`eggs.<key>`: how many eggs of the reader's size to break; `whole_eggs`: sizes of batch that need whole eggs.

    `whole_eggs.less` and `whole_eggs.more` are numbers of batches, by the ingredient with the most egg;
    `whole_eggs.less_batches` and `whole_eggs.more_batches` are those in words.
    """
    texts: Texts = {"whole_eggs": "", **dict.fromkeys(_SIZES, ""), **dict.fromkeys(_SIZES.values(), "")}
    most_g = 0.0
    for weighed in batch.weighed:
        texts[f"eggs.{weighed.key}"] = ""
        part = _EGG_PARTS.get(weighed.food.key)
        if part is None:
            continue
        mass_g = weighing.amounts_g[weighed.key]
        eggs = eggs_for(mass_g, part, changes.eggs)
        texts[f"eggs.{weighed.key}"] = _broken_text(eggs)
        if mass_g <= most_g:
            continue
        most_g = mass_g
        factors = [batch.factor * factor for factor in factors_for_whole_eggs(weighed.mass_g, part, changes.eggs)]
        factors = [factor for factor in factors if SMALLEST_BATCH <= factor <= LARGEST_BATCH]
        less = [factor for factor in factors if factor < batch.factor * (1 - 1e-6)]
        more = [factor for factor in factors if factor > batch.factor * (1 + 1e-6)]
        texts["whole_eggs.less"] = plain_number_text(less[0], 4) if less and eggs.measured else ""
        texts["whole_eggs.more"] = plain_number_text(more[0], 4) if more and eggs.measured else ""
        shown = [plain_number_text(float(str(texts[name])), 2) for name in _SIZES if texts[name]]
        for name, in_words in _SIZES.items():
            texts[in_words] = batches_text(float(str(texts[name])), 2) if texts[name] else ""
        unit = batch_word(shown[-1]) if shown else ""
        texts["whole_eggs"] = f"With {list_text(shown, 'or')} {unit}, only whole eggs are needed." if shown else ""
    return texts


def _broken_text(eggs: Eggs) -> str:
    return "; ".join([shown for shown in (eggs.eggs_text, eggs.measure_text) if shown])
