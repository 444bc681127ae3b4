"""Other words that people write for a speed and for a place than those of the model."""

from crumbcoat_calc.recipe.model import PLACES

ALSO_SPEEDS = {
    "med": "medium", "med low": "medium-low", "med high": "medium-high", "hand": "by hand", "slow": "low",
    "slowly": "low", "low speed": "low", "medium speed": "medium", "fast": "high", "high speed": "high",
    "full speed": "high",
}  # fmt: skip
ALSO_PLACES = {
    f"{before}{word}": place
    for place, words in (
        (PLACES[0], ("room temperature", "room temp", "ambient temperature", "counter", "countertop")),
        (PLACES[1], ("cool room",)),
        (PLACES[2], ("refrigerator", "fridge")),
        (PLACES[3], ("freezer",)),
    )
    for word in words
    for before in ("", "at ", "in ", "on ", "the ", "in the ", "on the ", "in a ")
}
