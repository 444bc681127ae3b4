"""The reference of the ingredient table."""

from crumbcoat_site.recipe_cards.pages.kind_tables import sections
from crumbcoat_site.reference.markdown import page

INTRO = """
A `kind` in a recipe file is a key of this list, or one of the names below it: `cornstarch`, `Cornflour` and `corn
starch` are the same. Capitals, punctuation and plurals do not matter. A name of several kinds, such as "whipping
cream", is refused, and the build lists what it can mean. UK or US marks a name that is used only there.

The figures are g, by the sources on [How the figures are made](../how-the-figures-are-made.md); "?" means that
no source gives the value. A measure is written after a number: `2 US tbsp`, `3 large`. If it says "sifted" or similar,
write it after a comma: `1 US cup, sifted`.
"""


def kinds_page() -> str:
    """The page as Markdown."""
    description = "Every kind of ingredient, with its names and measures"
    return page("Ingredients and their measures", description, INTRO, *sections(), boost=4)
