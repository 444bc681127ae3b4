"""Labels of recipes made at random: figures that fit each other, lists that hide nothing, no claim that nobody made."""

import re
from collections.abc import Iterator, Sequence

import pytest
from crumbcoat_calc.foods.allergens import allergen_words
from crumbcoat_calc.foods.bounds import TRANS_IN_EGG_FAT, TRANS_IN_MILK_FAT
from crumbcoat_calc.label.batch_label import BatchLabel, label_of
from crumbcoat_calc.label.ingredient_list import IngredientList, ingredient_list, listed_ingredients_of
from crumbcoat_calc.label.legal_names import MARKETS
from crumbcoat_calc.label.nutrients import LabelLine
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.model import FAMILIES
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.texts.label import label_texts
from crumbcoat_site.recipe_cards.wording.claims import unfounded_claims
from crumbcoat_site.recipe_cards.wording.names import unlawful_names

from tests.recipes.random_recipes import random_recipe

CLAIM = re.compile(r"suitable|(?<!“)gluten-free|vegan|vegetarian|\bsafe", re.IGNORECASE)
"""What no label may say of a recipe of which the author claims nothing; `gluten-free` is only explained, in quotes."""


def faults_of_label(fields: dict[str, object], density_g_per_ml: float) -> Iterator[str]:
    recipe = recipe_from(fields)
    batch = batch_of(recipe)
    label = label_of(batch, density_g_per_ml)
    yield from faults_of_lines(label)
    yield from faults_of_trans_fat(batch, label)
    yield from faults_of_lists(batch, label.lists)
    texts = label_texts(batch, label)
    shown = " ".join(" ".join(row) for name in ("label.words", "label.draft") for row in texts[name])
    yield from (f"the label says {found!r}" for found in CLAIM.findall(shown))
    yield from (text for _, text, _ in unfounded_claims(recipe, fields))
    yield from (text for region in (None, *MARKETS) for _, text, _ in unlawful_names(recipe, region))


WITHIN = (
    ("carbohydrate", "sugars"), ("sugars", "added_sugars"), ("fat", "saturates"), ("fat", "saturated_fat"),
)  # fmt: skip


def faults_of_lines(label: BatchLabel) -> Iterator[str]:
    """21 CFR 101.9(c)(6), Regulation (EU) No 1169/2011, Annex I: parts of a nutrient are not more than the nutrient."""
    for lines in (label.eu.per_100g, label.us.per_100g, label.us.per_serving):
        amounts = {line.nutrient.key: line.amount for line in lines}
        for whole, part in (
            ("carbohydrate", "sugars"),
            ("sugars", "added_sugars"),
            ("fat", "saturates"),
            ("fat", "saturated_fat"),
        ):
            more, less = amounts.get(whole), amounts.get(part)
            if more is not None and less is not None and less > more + 0.05:
                yield f"{part} {less} above {whole} {more}"


def faults_of_trans_fat(batch: Batch, label: BatchLabel) -> Iterator[str]:
    """Where all fat is of milk and egg, trans fat is known within the band of the analysed foods."""
    line: LabelLine = next(line for line in label.us.per_100g if line.nutrient.key == "trans_fat")
    fats = [weighed.food for weighed in batch.weighed if (weighed.food.content("fat_g") or 0) > 0]
    of_milk = all(food.group == "egg" or food.content("milk_fat_g") == food.content("fat_g") for food in fats)
    if of_milk and line.declared is None:
        yield "no trans fat, though all fat is of milk and egg"
    if of_milk and line.amount is not None:
        most = max(TRANS_IN_MILK_FAT[1], TRANS_IN_EGG_FAT[1]) * batch.total.at_most("fat_g") / batch.total.mass_g * 100
        if line.amount > most + 0.01:
            yield f"{line.amount} g of trans fat, above {most}"


def faults_of_lists(batch: Batch, lists: Sequence[IngredientList]) -> Iterator[str]:
    """Regulation (EU) No 1169/2011, Arts. 21 and 22; 21 U.S.C. 343(w): no legal name hides an allergen."""
    for market, found in zip(MARKETS, lists, strict=True):
        plain = ingredient_list(listed_ingredients_of(batch), market)
        if found.contains != plain.contains:
            yield f"{market}: {found.contains}, not {plain.contains}"
        set_off = " ".join(span.text.lower() for span in found.spans if span.allergen)
        unseen = [word for word in found.contains if not re.search(allergen_words()[word].stem, set_off)]
        if unseen:
            yield f"{market}: {unseen} cannot be seen in {found.text}"
        if market == "US" and "%" in found.text:
            yield f"a percentage in the US list: {found.text}"


@pytest.mark.parametrize("family", FAMILIES)
def test_labels_of_recipes_made_at_random_agree_with_themselves(family: str) -> None:
    faults = [
        f"{family}, {number}: {fault}"
        for number in range(60)
        for fault in faults_of_label(random_recipe(family, number), 0.9)
    ]
    assert faults == []
