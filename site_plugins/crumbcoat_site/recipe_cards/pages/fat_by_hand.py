"""The fat of a recipe, ingredient by ingredient, as one works it out on paper."""

import re
from collections.abc import Mapping
from math import fsum

from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.values.display import NOT_KNOWN, mass_text, number_text
from markupsafe import escape

_MARKS = re.compile(r"[\\`*_{}\[\]()#+!|~-]")


def fat_by_hand(fields: Mapping[str, object]) -> str:
    """The table as Markdown.

    Args:
        fields: those of the recipe file.
    """
    batch = batch_of(recipe_from(fields))
    head = [("ingredient", "amount", "fat in 100 g", "fat"), ("---", "---:", "---:", "---:")]
    rows, fat_g, mass_g = [], [], []
    for weighed in batch.weighed:
        in_100 = weighed.food.content("fat_g")
        fat_g.append(weighed.mass_g * (in_100 or 0.0) / 100)
        mass_g.append(weighed.mass_g)
        figures = (NOT_KNOWN, "") if in_100 is None else (_grams(in_100), _grams(fat_g[-1]))
        rows.append((_plain(weighed.name), mass_text(weighed.mass_g), *figures))
    lost = fsum(mass_g) - batch.total.mass_g
    least = "at least " if any(NOT_KNOWN in row for row in rows) else ""
    rows.append(("together", mass_text(fsum(mass_g)), "", _grams(fsum(fat_g))))
    if lost > 1e-9:
        rows.append(("less the water that boils off", mass_text(lost), "", ""))
    percent = number_text(100 * fsum(fat_g) / batch.total.mass_g, 1)
    finished = f"**{least}{_grams(fsum(fat_g))}, or {percent} %**"
    rows.append(("**finished**", f"**{mass_text(batch.total.mass_g)}**", "", finished))
    lines = ["| " + " | ".join(cells) + " |" for cells in [*head, *rows]]
    return f"**By hand: {_plain(batch.recipe.title)}.**\n\n" + "\n".join(lines) + "\n"


def _grams(value: float) -> str:
    return f"{number_text(value, 2)} g"


def _plain(text: str) -> str:
    """A text in which Markdown and HTML find no marks."""
    return _MARKS.sub(lambda mark: "\\" + mark[0], str(escape(text)))
