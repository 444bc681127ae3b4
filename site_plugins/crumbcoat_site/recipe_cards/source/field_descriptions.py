"""What each field of a recipe file is for: the texts that an editor shows while one writes."""

from collections.abc import Mapping

RECIPE = {
    "title": "The name of the recipe, as the heading of its page.",
    "summary": "What it is and what it is good for, in one to three sentences.",
    "author": "Who wrote the recipe.",
    "published": "The day it was published, such as `2026-03-31` (ISO 8601).",
    "family": "The family of frosting or filling that it belongs to.",
    "keywords": "Words under which the recipe can be found.",
    "yield": "What one batch is good for.",
    "ingredients": "Everything that goes in: a short name of your choice for each, by which the steps refer to it.",
    "stages": "The stages in their order. The last one finishes the batch.",
    "storage": "Where the finished batch keeps, and how long.",
    "measured": "What was measured on a finished batch.",
    "tried": "The smallest and the largest number of batches that were made at once and came out well.",
    "notes": "Remarks at the end of the page.",
    "may_contain": "Allergens that may get in by accident, in the words of a label; nothing is added to them.",
    "decorations": "What goes onto the finished cake and is not among the ingredients.",
}
INGREDIENT = {
    "kind": "A key of the ingredient table, from which composition and household weights are taken.",
    "composition": "What 100 g hold, where it differs from the kind; or all there is to know where there is no kind.",
    "name": "What the page calls it; without it, the name in the ingredient table.",
    "amount": "A mass such as `250 g` or `1/2 lb`, or a named measure such as `1 US cup` or `2 US tbsp, unsifted`.",
    "role": "What it does in the recipe.",
    "preparation": "What is done to it before it is weighed or added, such as `sifted` or `cubed`.",
    "temperature": "Its temperature when it goes in, such as `18 °C` or `65 °F`.",
    "optional": "`yes` if the recipe works without it.",
    "portions": "Two or more amounts, each with a short name, that add up to the amount; steps add `name/portion`.",
    "replacements": "Other kinds that may take its place, each under a short name.",
    "made_of": "What a compound is made of, as its pack lists it: the most first, such as `sugar` or `sugar 38 %`.",
    "allergens": "What it holds, in words such as `milk` or `soya`, instead of what the table knows; `[]` for none.",
}
DECORATION = {
    "what": "What it is, such as `sugar pearls`.",
    "eaten": "`no` if it is taken off before eating.",
}
REPLACEMENT = {
    "kind": INGREDIENT["kind"],
    "composition": INGREDIENT["composition"],
    "name": INGREDIENT["name"],
    "grams_per_gram": "How many grams of it take the place of 1 g, 0.01 to 20; without it, 1.",
    "note": "What differs when it is used.",
    "made_of": INGREDIENT["made_of"],
    "allergens": INGREDIENT["allergens"],
}
STAGE = {
    "title": "What the stage is about, as a heading.",
    "makes": "A short name for what this stage sets aside in a vessel of its own; a later step adds it by this name.",
    "shares": "Two or more shares of what the stage makes, each with a short name, that add up to 100 %.",
    "steps": "The steps in their order.",
}
STEP = {
    "do": "What to do, in full sentences.",
    "add": "What goes in: `name`, `name/portion`, or what an earlier stage made.",
    "additions": "In how many additions it goes in, 1 to 100.",
    "tool": "The tool or attachment, such as `paddle` or `whisk`.",
    "speed": "The speed of the mixer.",
    "time": "How long: `3 min`, `90 s to 4 min`, `3 to 4 min`.",
    "look_for": "What to see, feel or smell when the step is done.",
    "why": "Why it is done in this way.",
    "photo": "What a photograph of this step must show.",
    "checkpoint": "Where the batch is judged and can still be rescued.",
    "optional": "`yes` if the step may be left out.",
    "water_lost": "The mass of water that boils off in one batch as published, such as `30 g`.",
    "heat_to": "The temperature that it is heated to, such as `82 °C`.",
    "cool_to": "The temperature that it is cooled to, such as `20 °C`.",
    "unattended": "`yes` if nobody need stand by, as in chilling.",
    "when_scaled": "What to mind in a much smaller or larger batch.",
}
CHECKPOINT = {
    "passes": "Signs that all is well.",
    "troubles": "Signs of trouble, each with its remedy.",
}
TROUBLE = {
    "sign": "What one sees when it has gone wrong.",
    "remedy": "What mends it.",
}
STORAGE = {
    "where": "The place.",
    "up_to": "How long it keeps there, such as `4 h` or `5 days`.",
    "note": "How to cover it, or how to bring it back.",
}
YIELD = {
    "portions": "How many, a whole number.",
    "of": "Of what, such as `cupcakes` or `servings of 30 g`.",
}
MEASURED = {
    "density": "The density, such as `0.85 g/mL`.",
    "ph": "The pH, 0 to 14.",
    "water_activity": "The water activity, 0 to 1.",
}
TRIED = {
    "from": "The smallest number of batches, such as `1/2`.",
    "to": "The largest number of batches.",
}
COMPOSITION: Mapping[str, str] = {
    "water": "Water",
    "protein": "Protein",
    "fat": "Fat",
    "carbohydrate": "Carbohydrate with fibre: what is neither water, protein, fat, ash nor alcohol",
    "ash": "Minerals, as the ash that is left after burning",
    "alcohol": "Alcohol",
    "fibre": "Dietary fibre",
    "starch": "Starch",
    "sugars": "All sugars together",
    "added_sugars": "Sugars that were added",
    "sucrose": "Sucrose",
    "glucose": "Glucose (dextrose)",
    "fructose": "Fructose",
    "lactose": "Lactose",
    "maltose": "Maltose",
    "milk_fat": "Fat that comes from milk",
    "milk_solids_not_fat": "Milk solids not fat: protein, lactose and minerals of milk",
    "milk_protein": "Protein that comes from milk",
    "saturated_fat": "Saturated fat",
    "trans_fat": "Trans fat",
    "monounsaturated_fat": "Monounsaturated fat",
    "polyunsaturated_fat": "Polyunsaturated fat",
    "sodium": "Sodium",
    "cholesterol": "Cholesterol",
    "calcium": "Calcium",
    "potassium": "Potassium",
    "iron": "Iron",
    "vitamin_d": "Vitamin D",
}
