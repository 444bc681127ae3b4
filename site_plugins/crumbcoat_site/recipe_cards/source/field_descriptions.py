"""What each field of a recipe file is for: editors show these texts, and the reference lists them."""

from collections.abc import Mapping

from crumbcoat_calc.recipe.other_words import ALSO_SPEEDS


def _also(others: Mapping[str, str]) -> str:
    """Other words that are taken, each list with the word that it is for."""
    listed = {word: [f"`{other}`" for other in others if others[other] == word] for word in others.values()}
    return "; ".join([f"{', '.join(words)} for `{word}`" for word, words in listed.items()])


RECIPE = {
    "title": "The name of the recipe, such as `Corner-shop vanilla cream`. It becomes the heading of the page.",
    "summary": "What it is and what it is good for, in one to three sentences. Lists of recipes show it too.",
    "author": "Who wrote the recipe: the name alone for an organization, such as `Lantern Street teaching kitchen`; a "
    "block for a person, or with an address: `{person: Mira Quill, url: https://…}`.",
    "published": "The date of publication, year first: `2026-03-31`. Until then only `crumbcoat serve` shows the card.",
    "updated": "The date of the last change that readers should know of, year first; not before `published`. Feeds, "
    "the sitemap and search engines get it.",
    "draft": "`yes` while it is not to be published: only `crumbcoat serve` shows the card. Default: `no`.",
    "family": "The kind of frosting or filling, such as `ganache`. Lists are sorted by it.",
    "keywords": "A list of words that describe the recipe for search engines, such as `[buttercream, eggless]`.",
    "cuisine": "The cuisine, such as `French`, if the recipe belongs to one.",
    "video": "A video of the recipe, such as `{title: Whipping, url: https://…, published: 2026-03-31}`.",
    "yield": "What one batch is enough for, such as `{portions: 12, of: cupcakes}`.",
    "ingredients": "Everything that goes in, each under a short name such as `icing_sugar`. Steps use that name.",
    "stages": "A list of stages in the order of work. The last one finishes the batch.",
    "storage": "A list of places where the finished batch keeps, each with how long.",
    "made": "How many batches you have made as written, such as `12`; `0` while the recipe is only worked out, and the "
    "card says so. Without it, the card says nothing of it.",
    "measured": "What you measured on a finished batch, such as `{density: 0.85 g/mL}`. With `made: 0`, the density is "
    "the one that you expect.",
    "tried": "The smallest and largest size that you have made with success, such as `{from: 1/2, to: 3}`. With "
    "`made: 0`, the sizes for which it is worked out.",
    "notes": "A list of remarks for the end of the page, such as `[It pipes best at 18 °C.]`.",
    "tips": "A list of tips, such as `[Warm the bowl with hot water first.]`. The card shows them after the method.",
    "equipment": "What is needed besides the tools of the steps, such as `[a piping bag with a star tube]`. The card "
    "lists both below the ingredients.",
    "asked": "A list of what readers asked, each with your answer. The card shows them after the notes.",
    "may_contain": "Allergens that may get in by accident, such as `[hazelnut]`. The label prints these and no others.",
    "decorations": "A list of what goes onto the finished cake and is not an ingredient, such as `[{what: "
    "sugar pearls}]`.",
    "claims": "What you claim of the food and answer for, such as `[{claim: gluten-free, ground: each batch is "
    "tested}]`. Without it, the card says what no listed ingredient contains.",
    "cover": "The picture of the finished frosting: what it must show, such as `a swirl on a cupcake`, or a block: "
    "`{file: IMG_2050.jpg, credit: Ana}`. Without a `file`, that which has the name of the recipe file.",
    "notebook": "`public` if all may read the notebook of its trials; `private`, the default, if only "
    "`crumbcoat serve` and a site with the option `notebooks` show it. Or a block with more: `{show: public, "
    "note: Made in our school.}`.",
    "moved_from": "Addresses that the card had before, as paths of the site, such as `[2019/05/lemon-cream/]`. Whoever "
    "opens one comes to the card.",
}
AUTHOR = {
    "person": "The name of a person, such as `Mira Quill`.",
    "organization": "In its place, the name of a kitchen, a school or another organization.",
    "url": "The address of a page about the author, such as `https://lantern.example/mira/`.",
}
VIDEO = {
    "title": "What it shows, such as `Whipping the cold base`.",
    "url": "Its address: of the file, such as `https://lantern.example/whipping.mp4`, or of its player.",
    "published": "The date of its publication, year first: `2026-03-31`.",
    "length": "How long it is, such as `3 min 20 s`.",
    "picture": "The address of a still picture of it. Default: the cover of the recipe.",
}
PHOTO = {
    "shows": "What it must show, such as `a spoon leaves a path in the base`. The shot list has it until it is there.",
    "file": "The name of the picture beside the recipe file, such as `IMG_2041.jpg`, or its path from there. Without "
    "it, the picture is found by its name: `veil.2-1.jpg`, and `veil.2-1b.jpg` for a second one.",
    "alt": "What is to be seen, for readers who do not see it. Default: what it must show.",
    "caption": "What is printed below it, such as `Ready after four minutes`.",
    "credit": "Who made it, such as `Ana Example`, or that it is an illustration.",
}
"""The fields of a picture."""
NOTEBOOK = {
    "show": "`public` or `private`. Default: `private`.",
    "note": "What readers should know of the trials, such as `Made by the evening class of 2026.`",
    "map": "The two ingredients of the map, across and upward, such as `[butter, icing_sugar]`. Default: the two whose "
    "mass differs most among the trials.",
    "beside": "Other recipes of the site, each a column beside the trials where everything is side by side: by their "
    "paths in the folder of the pages, without ending, such as `[creams/whipped-cream]`.",
}
INGREDIENT = {
    "kind": "A key of the ingredient table, such as `butter_unsalted`, or a name of it, such as `unsalted butter`. Or "
    "any food of three public tables by its number: `usda 01139`, `ciqual 19584`, `cofid 12-490`. Or a key or "
    "name in the site's `ingredients.yaml`. It provides composition and household weights.",
    "composition": "What 100 g contains, such as `{fat: 84 %}`. It replaces single values of the kind; without "
    "a kind it "
    "is all that is known, and a `name` is required.",
    "pack": "What the label on the pack says, such as `{per: 100 g, rules: EU, fat: 3.6 g, carbohydrate: 4.8 g, "
    "protein: 3.4 g}`. With a kind, what the label does not say is as in the kind; without one it has bounds.",
    "density": "What a millilitre of it weighs, such as `1.32 g/mL`, for a pack whose figures are for 100 mL and for "
    "amounts in cups and spoons.",
    "measures": "What one of a measure weighs, such as `{US cup: 227 g, piece: 12 g}`, for amounts in that measure.",
    "source": "Where the figures are from, in a sentence, such as `The maker's data sheet, May 2026`. Cards show it.",
    "name": "What the page calls it, such as `butter, 84 % fat`. Default: the name written as its kind, or the "
    "ingredient table's.",
    "amount": "A mass, such as `250 g` or `1/2 lb`, or a household measure, such as `1 1/2 US cups, sifted`, "
    "`1/4 tsp` or `3 large`. Required, unless all of it is kept back.",
    "role": "What it does in the recipe, such as `Its fat globules hold the air.`",
    "preparation": "What to do with it before it is weighed or added, such as `sifted` or `cubed`.",
    "temperature": "Its temperature when it goes in, such as `18 °C` or `65 °F`.",
    "optional": "`yes` if the recipe also works without it. Default: `no`.",
    "portions": "Two or more amounts that add up to the whole, each under a short name, such as "
    "`{start: 400 g, end: 100 g}`. A step adds one as `cream/start`.",
    "kept_back": "What goes in only for a rescue, extra to the amount and not in the batch, each under a short name, "
    "such as `{rescue: 60 g}`. A trouble of a checkpoint adds it as `cream/rescue`.",
    "replacements": "Other ingredients that can take its place, each under a short name such as `margarine`.",
    "made_of": "The ingredients listed on its pack, largest first, such as `[cocoa mass 62 %, sugar, cocoa "
    "butter]`. The "
    "label lists them.",
    "allergens": "The allergens in it, such as `[milk]`, or `[]` for none. This replaces what the ingredient "
    "table says.",
}
DECORATION = {
    "what": "What it is, such as `sugar pearls`.",
    "eaten": "`no` if it is removed before eating, as wire flowers are. Default: `yes`.",
}
ASKED = {
    "question": "What was asked, such as `Can it be made the day before?`",
    "answer": "Your answer, such as `Yes: keep it covered in the refrigerator, and beat it again.`",
}
CLAIM = {
    "claim": "What is claimed, such as `gluten-free`.",
    "ground": "Why it is true, such as `Each batch is tested, below 20 mg/kg.` The label shows it.",
}
REPLACEMENT = {
    "kind": INGREDIENT["kind"],
    "composition": INGREDIENT["composition"],
    "pack": INGREDIENT["pack"],
    "density": INGREDIENT["density"],
    "measures": INGREDIENT["measures"],
    "source": INGREDIENT["source"],
    "name": "What the page calls it, such as `baking margarine`. Default: the name in the ingredient table.",
    "grams_per_gram": "How many grams replace 1 g, such as `1.05`; from 0.01 to 20. Default: 1.",
    "note": "What is different with it, such as `softer`.",
    "made_of": INGREDIENT["made_of"],
    "allergens": INGREDIENT["allergens"],
}
STAGE = {
    "title": "The heading of the stage, such as `Cook the base`.",
    "makes": "A short name for the mixture, such as `base`, if the stage sets it aside. A later step adds it "
    "by this name.",
    "shares": "Two or more shares of that mixture that add up to 100 %, each under a short name, such as "
    "`{warm: 1/4, cold: 75 %}`. A step adds one as `base/cold`.",
    "steps": "A list of steps in the order of work.",
}
STEP = {
    "do": "What to do, in full sentences: `Whip the cream with the sugar.`",
    "add": "What goes in: ingredients, portions, or the mixture of an earlier stage, such as `sugar` or "
    "`[sugar, cream/start, base]`.",
    "additions": "In how many parts it goes in, such as `6`, or what alone is divided: `{cream: 6}`; 1 to 100. "
    "Default: 1.",
    "tool": "The tool or attachment, such as `paddle` or `whisk`.",
    "speed": f"The speed of the mixer, such as `medium`. Also taken: {_also(ALSO_SPEEDS)}.",
    "time": "How long it takes, such as `3 min`, `5-8 min` or `1 h 30 min`. The page offers a timer.",
    "look_for": "What to see, feel or smell when the step is done, such as `Soft peaks.`",
    "why": "Why it is done this way, such as `Starch thickens only near the boil.`",
    "photo": "What a picture of this step must show, such as `a spoon leaves a path in the base`; or a block, or a "
    "list of several: `{file: IMG_2041.jpg, alt: A spoon in the base, credit: Ana}`.",
    "checkpoint": "The signs by which to judge the batch here, while it can still be rescued.",
    "optional": "`yes` if the step can be left out. Default: `no`.",
    "water_lost": "The mass of water that boils off in one batch as published, such as `30 g`.",
    "heat_to": "The temperature to heat it to, such as `82 °C` or `180 °F`.",
    "cool_to": "The temperature to cool it to, such as `20 °C`.",
    "unattended": "`yes` if nobody has to stay with it, as in chilling. Default: `no`.",
    "may_wait": "How long what the step makes may wait for the next one: `20 min`, `no` for at once, or `overnight`. "
    "Plans for a class keep to it. Default: common practice for what it is, such as `no` for whisked egg.",
    "when_scaled": "What to watch for in a much smaller or larger batch, such as `A larger pan cools more slowly.`",
}
CHECKPOINT = {
    "passes": "A list of signs that all is well, such as `[The whisk leaves a trail that stays.]`.",
    "troubles": "A list of signs of trouble, each with its remedy.",
}
TROUBLE = {
    "sign": "What you see when it has gone wrong, such as `It looks grainy.`",
    "remedy": "What to do about it, such as `Fold in the cream kept back.`",
    "add": "What is kept back for it, such as `cream/rescue`. A reader can say that it went in.",
}
STORAGE = {
    "where": "The place, such as `in the refrigerator` or `fridge`.",
    "up_to": "How long it keeps there, such as `4 h` or `5 days`.",
    "note": "How to cover it or how to bring it back, such as `Beat it again before use.`",
}
YIELD = {
    "portions": "The number of portions, such as `12`. A whole number.",
    "of": "What is counted, such as `cupcakes` or `servings of 30 g`.",
    "people": "How many people one portion is for, such as `12` for a cake. Without it, nutrients for a portion are "
    "shown only up to 125 g.",
}
MEASURED = {
    "density": "The density, such as `0.85 g/mL`. Sizes by volume and US servings need it.",
    "ph": "The pH, such as `6.4`; from 0 to 14.",
    "water_activity": "The water activity, such as `0.91`; from 0 to 1.",
}
TRIED = {
    "from": "The smallest number of batches, such as `1/2`.",
    "to": "The largest number of batches, such as `3`.",
}
COMPOSITION: Mapping[str, str] = {
    "water": "Water in 100 g, such as `16 %`.",
    "protein": "Protein in 100 g, such as `0.9 %`.",
    "fat": "Fat in 100 g, such as `84 %`.",
    "carbohydrate": "Carbohydrate with fibre in 100 g, such as `4.8 %`: what is not water, protein, fat, ash "
    "or alcohol.",
    "ash": "Minerals in 100 g, such as `0.7 %`, measured as the ash that is left after burning.",
    "alcohol": "Alcohol in 100 g, such as `34 %`.",
    "fibre": "Dietary fibre in 100 g, such as `37 %`.",
    "starch": "Starch in 100 g, such as `88 %`.",
    "sugars": "All sugars together in 100 g, such as `4.8 %`.",
    "added_sugars": "Added sugars in 100 g, such as `55 %`.",
    "sucrose": "Sucrose in 100 g, such as `97 %`.",
    "glucose": "Glucose (dextrose) in 100 g, such as `36 %`.",
    "fructose": "Fructose in 100 g, such as `41 %`.",
    "lactose": "Lactose in 100 g, such as `4.8 %`.",
    "maltose": "Maltose in 100 g, such as `7 %`.",
    "milk_fat": "Milk fat in 100 g, such as `82 %`.",
    "milk_solids_not_fat": "Milk solids not fat (protein, lactose and minerals of milk) in 100 g, such as `8.8 %`.",
    "milk_protein": "Milk protein in 100 g, such as `3.3 %`.",
    "saturated_fat": "Saturated fat in 100 g, such as `51 %`.",
    "trans_fat": "Trans fat in 100 g, such as `3.3 %`.",
    "monounsaturated_fat": "Monounsaturated fat in 100 g, such as `21 %`.",
    "polyunsaturated_fat": "Polyunsaturated fat in 100 g, such as `3 %`.",
    "sodium": "Sodium in 100 g, such as `11 mg`.",
    "cholesterol": "Cholesterol in 100 g, such as `215 mg`.",
    "calcium": "Calcium in 100 g, such as `24 mg`.",
    "potassium": "Potassium in 100 g, such as `24 mg`.",
    "iron": "Iron in 100 g, such as `0.02 mg`.",
    "vitamin_d": "Vitamin D in 100 g, such as `1.3 µg`.",
}
PROSE: Mapping[str, tuple[str, ...]] = {
    "recipe": ("summary", "notes", "tips"),
    "ingredient": ("role", "preparation"),
    "step": ("do", "look_for", "why", "when_scaled"),
    "checkpoint": ("passes",),
    "trouble": ("sign", "remedy"),
    "storage": ("note",),
    "asked": ("question", "answer"),
    "notebook": ("note",),
}
"""The fields of each block whose texts may have marks: emphasis, code and links."""
PACK = {
    "per": "What the figures are for, such as `100 g`, `100 mL`, `30 g` or `1 tsp`. "
    "A volume needs a `density` or one of the `measures` beside `pack`; "
    "any other measure, such as `1 serving`, needs its own weight there.",
    "rules": "`EU` or `US`. By the rules of the US, carbohydrate includes the fibre; by those of the EU it does not.",
    "energy": "The energy, such as `1046 kJ / 250 kcal`, or one of the two. It must agree with the nutrients: within "
    "10 kcal for 100 g, or a tenth.",
    "fat": "Fat, such as `3.6 g`. As here, `<0.5 g` may be written wherever the label says so.",
    "saturates": "The saturated part of the fat, such as `2.4 g`.",
    "carbohydrate": "Carbohydrate, such as `4.8 g`.",
    "sugars": "The sugars in it, such as `4.8 g`.",
    "polyols": "The polyols in the carbohydrate, such as `45 g`; they have less energy.",
    "fibre": "Fibre, such as `0.9 g`.",
    "protein": "Protein, such as `3.4 g`.",
    "salt": "Salt, such as `0.1 g`: on a label, 2.5 times the sodium.",
    "sodium": "Sodium in place of salt, such as `40 mg`.",
}
SHARED = {
    "name": "What cards call it, such as `vanilla paste`. Required.",
    "kind": "The most similar kind of the ingredient table, or a food of three public tables: `ciqual 19584`.",
    "composition": INGREDIENT["composition"],
    "pack": INGREDIENT["pack"],
    "density": INGREDIENT["density"],
    "measures": INGREDIENT["measures"],
    "source": INGREDIENT["source"],
    "made_of": INGREDIENT["made_of"],
    "allergens": INGREDIENT["allergens"],
}
"""The fields of an ingredient of the site's own, in `ingredients.yaml`."""
