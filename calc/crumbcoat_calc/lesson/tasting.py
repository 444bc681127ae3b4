"""The attributes of a tasting record, in the order in which they are noticed, and their scale."""

from collections.abc import Sequence

from crumbcoat_calc.recipe.batch import Batch

SCALE = ("0", "1", "2", "3", "4", "5")

SCALE_TEXT = (
    "Circle a number from 0 to 5; the ends are named. The scale is a response scale as in ISO 4121; the attributes "
    "follow ISO 5492 and ISO 13299 (before: ISO 11035), as far as we recall them. Taste alone before you compare, with "
    "water in between, and only what you may eat."
)

_ALWAYS = (
    ("Look", "shine", "dull", "shiny"),
    ("Look", "evenness", "lumps or streaks", "even"),
    ("Look", "paleness", "dark", "pale"),
    ("On the spoon", "firmness", "runs off", "keeps its shape"),
    ("On the spoon", "lightness", "heavy", "light"),
    ("On the spoon", "spreading", "drags, tears", "smooth"),
    ("In the mouth", "smoothness", "sandy", "smooth"),
    ("In the mouth", "melting", "slow", "fast"),
    ("In the mouth", "fat feel", "none", "coats the mouth"),
    ("Taste", "sweet", "not at all", "very"),
    ("Taste", "salty", "not at all", "very"),
)
_SOUR = ("Taste", "sour", "not at all", "very")
_BITTER = ("Taste", "bitter", "not at all", "very")
_LAST = (("Afterwards", "how long the flavour stays", "gone at once", "long"),)
_FLAVOURS = (
    "vanilla",
    "lemon",
    "coffee",
    "honey",
    "cocoa",
    "chocolate",
    "milk",
    "butter",
    "cheese",
    "coconut",
    "almond",
)
"""Ingredients whose flavour is looked for, by a word of their name in foods.csv (our choice)."""

_SOURS, _BITTERS = (
    ("lemon", "citric", "tartar", "buttermilk", "cheese", "yogh", "raspberry"),
    ("cocoa", "chocolate", "coffee"),
)


def attributes(batches: Sequence[Batch]) -> list[tuple[str, str, str, str]]:
    """When it is noticed, the attribute, and what the low and the high end of the scale mean.

    Sour and bitter are asked where an ingredient may bring them, and flavours are those of the ingredients.

    Source:
        common-practice (the choice); ISO 5492 and ISO 13299, from memory (the order and the terms).
    """
    names = [one.food.name.lower() for batch in batches for one in batch.weighed if one.mass_g > 0]
    brought = [flavour for flavour in _FLAVOURS if any(flavour in name for name in names)]
    tastes = [
        row
        for row, words in ((_SOUR, _SOURS), (_BITTER, _BITTERS))
        if any(word in name for word in words for name in names)
    ]
    flavours = [("Flavour", flavour, "none", "very strong") for flavour in brought]
    return [*_ALWAYS, *tastes, *flavours, *_LAST]
