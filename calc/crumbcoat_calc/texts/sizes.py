"""Texts about the size of a batch: finished mass and volume, ingredients on hand, and the bowl."""

import math
from bisect import bisect_left, bisect_right

from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.changes import Changes
from crumbcoat_calc.kitchen.bowls import bowl_range, split_equally, tools
from crumbcoat_calc.kitchen.scaling import factor_on_hand
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.recipe.reading import LARGEST_BATCH
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.measures import Measures, cups_text
from crumbcoat_calc.texts.portions import batch_word, batches_text, made_text, portions_text
from crumbcoat_calc.values.display import list_text, mass_text, number_text, plain_number_text, volume_text

_START_G_PER_ML = 1.0
"""Density of the first mixture, before it takes up air: near that of water (common practice, no source)."""

_SIZES = (0.25, 0.5, 0.75, *range(1, 21), *range(25, LARGEST_BATCH + 1, 5))
"""The sizes that a batch is made in, one after the other (common practice, no source)."""


def size_texts(batch: Batch, changes: Changes, measures: Measures) -> Texts:
    """`made`, `factor`, `portions`, `finished_mass`, `finished_volume`, `density` and others: the size of a batch.

    `finished_cups` comes before the mass where amounts are in US cups and the density is known.

    `size.unit` follows the factor; `size.smaller` and `size.larger` are the next usual sizes, or empty, and
    `size.smaller_batches` and `size.larger_batches` those in words.
    """
    recipe, factor = batch.recipe, changes.options.factor
    density = changes.density_g_per_ml(recipe)
    smaller = _size_text(bisect_left(_SIZES, factor * (1 - 1e-6)) - 1)
    larger = _size_text(bisect_right(_SIZES, factor * (1 + 1e-6)))
    texts: Texts = {
        "made": made_text(recipe.made),
        "factor": plain_number_text(factor),
        "size.unit": batch_word(plain_number_text(factor)),
        "size.smaller": smaller,
        "size.smaller_batches": smaller and f"{smaller} {batch_word(smaller)}",
        "size.larger": larger,
        "size.larger_batches": larger and f"{larger} {batch_word(larger)}",
        "portions": plain_number_text(batch.portions, 1),
        "portions_of": portions_text(batch),
        "finished_mass": measures.mass(batch.total.mass_g),
        "finished_cups": "",
        "finished_volume": "",
        "density": "",
        "cup": changes.cup,
        "cup_weighs": "" if changes.cup_g is None else mass_text(changes.cup_g),
        "water_lost": mass_text(batch.vessels[-1].water_lost_g) if batch.vessels[-1].water_lost_g else "",
    }
    if density is not None:
        stated = "worked out, not yet made" if recipe.made == 0 else "as the recipe states"
        known_by = stated if changes.cup_g is None else "by the cup you weighed"
        texts["finished_cups"] = f"about {cups_text(batch.total.mass_g / density)}, " if measures.units == "us" else ""
        texts["finished_volume"] = volume_text(batch.total.mass_g / density)
        texts["density"] = f"{number_text(density, 2)} g/mL, {known_by}"
    elif recipe.measured.density_g_per_ml is not None:
        texts["density"] = "No longer the density of the recipe: weigh a level cup of this batch."
    return texts


def _size_text(place: int) -> str:
    """One of `_SIZES`, or empty where there is none."""
    return plain_number_text(_SIZES[place]) if 0 <= place < len(_SIZES) else ""


def stock_texts(batch: Batch, changes: Changes) -> Texts:
    """`have.<key>` as typed; `have.short`: what runs out first; `have.factor`: how many batches, and `have.batches`
    in words; `have.left`: rows.
    """
    texts: Texts = {"have.short": "", "have.factor": "", "have.batches": "", "have.left": []}
    needed, have = {}, {}
    for weighed in batch.weighed:
        texts[f"have.{weighed.key}"] = mass_text(changes.have_g[weighed.key]) if weighed.key in changes.have_g else ""
        if weighed.needed_g > 0:
            needed[weighed.key] = weighed.needed_g / batch.factor
            if weighed.key in changes.have_g:
                have[weighed.key] = changes.have_g[weighed.key]
    if not have:
        return texts
    names = {weighed.key: weighed.name for weighed in batch.weighed}
    try:
        stock = factor_on_hand(needed, have)
    except InputError as error:
        texts["have.short"] = f"{names[str(error.path[-1])]}: {error.problem}."
        return texts
    factor = math.floor(stock.factor * 10_000) / 10_000  # Rounded down, so that the stock is enough.
    texts["have.factor"] = plain_number_text(factor, 4)
    shown = math.floor(round(factor * 100, 2)) / 100 if factor >= 0.1 else factor
    texts["have.batches"] = batches_text(shown, 4)
    first = "runs out first" if len(have) > 1 else "is enough"
    joint = ", at" if len(have) > 1 else " for"
    texts["have.short"] = f"{names[stock.short]} {first}{joint} {texts['have.batches']}."
    texts["have.left"] = [
        [names[key], f"{mass_text(left_g)} left"] for key, left_g in stock.left_g.items() if key != stock.short
    ]
    return texts


def bowl_texts(batch: Batch, changes: Changes, measures: Measures) -> Texts:
    """`bowl.room`, with `bowl.smallest` and `bowl.largest`; `bowl.split` and `split`: equal batches."""
    texts: Texts = {"bowl": "", "tool": changes.tool, "split": []}
    texts |= dict.fromkeys(("bowl.room", "bowl.smallest", "bowl.largest", "bowl.split"), "")
    if changes.bowl_l is None:
        return texts
    texts["bowl"] = f"{plain_number_text(changes.bowl_l)} L"
    density = changes.density_g_per_ml(batch.recipe)
    if density is None:
        texts["bowl.room"] = "How much fits is not known: weigh a level cup of the finished frosting."
        return texts
    tool = tools()[changes.tool]
    start = max(_START_G_PER_ML, density)
    fits = bowl_range(1000 * changes.bowl_l, tool.lowest_share, tool.highest_share, start, density)
    texts["bowl.smallest"], texts["bowl.largest"] = measures.mass(fits.smallest_g), measures.mass(fits.largest_g)
    texts["bowl.room"] = (
        f"In this bowl, the {tool.name} reaches a batch of at least {texts['bowl.smallest']}; "
        f"above {texts['bowl.largest']}, it climbs out of the bowl."
    )
    if fits.smallest_g > fits.largest_g:
        texts["bowl.room"] = f"This bowl and the {tool.name} do not suit such a light frosting."
        return texts
    parts = split_equally(batch.total.mass_g, fits)
    if not parts.reached:
        nearest = list_text([measures.mass(mass_g) for mass_g in parts.nearest_g], "or")
        whole = measures.mass(batch.total.mass_g)
        texts["bowl.split"] = f"{whole} cannot be made in equal batches that fit: make {nearest}."
    elif parts.batches == 1:
        texts["bowl.split"] = f"{measures.mass(batch.total.mass_g)} fits in one go."
    else:
        texts["bowl.split"] = f"Make {parts.batches} equal batches of {measures.mass(parts.each_g)} each."
        states = {ingredient.key: ingredient.amount.how for ingredient in batch.recipe.ingredients}
        texts["split"] = [
            [weighed.name, measures.amount(weighed.food, weighed.mass_g / parts.batches, states[weighed.key])]
            for weighed in batch.weighed
            if weighed.mass_g > 0
        ]
    return texts
