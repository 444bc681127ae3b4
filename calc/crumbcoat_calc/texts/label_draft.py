"""Texts of what a label needs beyond ingredients and nutrients: blanks to fill in, and who can give what is missing."""

from crumbcoat_calc.foods.diets import origin_of
from crumbcoat_calc.label.ingredient_list import ListedIngredient, listed_ingredients_of
from crumbcoat_calc.label.legal_names import legal_name
from crumbcoat_calc.recipe.batch import Batch
from crumbcoat_calc.values.display import duration_text, list_text, mass_text
from crumbcoat_calc.values.region import REGIONS

BLANK = "________"

_DATES = {
    "EU": "“use by” where it spoils quickly, or else “best before”",
    "US": "“best if used by”, as usual there; no federal law wants a date",
}

_MIXED_BY_MAKERS = frozenset(
    ("baked goods", "chocolate", "confectionery", "own composition", "plant alternative", "preserve")
)
"""Groups of foods that are made of others, which only the pack lists."""


def draft_rows(batch: Batch, region: str = REGIONS[0]) -> list[list[str]]:
    """The other lines of a label; a blank stays one until somebody weighs, tests or asks.

    Source:
        eu-1169-2011, Arts. 9, 23 to 25 and Annex X; the words of US labels, and the date of the UK flour regulations of
        2024, from memory.
    """
    rows = [
        ["Net quantity", f"{BLANK}: weigh what is in each pack; this batch is {mass_text(batch.total.mass_g)}"],
        ["Date", f"{BLANK}: {_DATES.get(region, _DATES[REGIONS[0]])}, from a test of keeping"],
        ["Storage", f"{BLANK}: from the same test; {_storage_text(batch)}"],
        ["Maker", f"{BLANK}: name and address"],
    ]
    asked = [entry.name for entry in listed_ingredients_of(batch) if _is_asked(entry)]
    if asked:
        rows.append(["Ask the suppliers", f"what {list_text(asked)} {'is' if len(asked) == 1 else 'are'} made of"])
    if region != "US" and any(_is_fortified(weighed.food.key, weighed.name) for weighed in batch.weighed):
        rows.append(
            ["Flour in the UK", "milled from 13 December 2026 on, its list has folic acid as well: read the pack"]
        )
    return rows


def _is_fortified(key: str, name: str) -> bool:
    return bool(key) and "calcium carbonate" in legal_name(key, name, "UK")[1]


def _storage_text(batch: Batch) -> str:
    places = [f"{place.where} up to {duration_text(place.up_to_s)}" for place in batch.recipe.storage]
    untested = ", which was not tested" if batch.recipe.made == 0 else ""
    return f"the recipe keeps it {list_text(places)}{untested}" if places else "the recipe does not say"


def _is_asked(entry: ListedIngredient) -> bool:
    """Whether only the pack can say what an ingredient is made of."""
    if entry.inside:
        return False
    if entry.food is None or entry.food.group in _MIXED_BY_MAKERS:
        return entry.food is None or not entry.food.key.startswith("cocoa_")
    origin = origin_of(entry.food)
    return None in (origin.of_animal_origin, origin.meat_or_fish, origin.gluten)
