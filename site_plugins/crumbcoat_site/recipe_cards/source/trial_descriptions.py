"""What each field of a trial file is for: editors show these texts, and the reference lists them."""

TRIAL = {
    "number": "The number of the trial, such as `3`; each of a recipe has its own.",
    "date": "When it was made, year first: `2026-11-24`.",
    "who": "Who made it, such as `bench two`.",
    "from": "The number of the trial that it changes, such as `2`, or an earlier version of the recipe, such as `v1`. "
    "Default: the recipe as it is.",
    "recipe": "The mark of the recipe when the trial was begun; `new-trial` writes it. `check` warns if the recipe has "
    "changed since.",
    "aim": "What you want to know, such as `Does it still pipe with less sugar?`",
    "plan": "The number of the plan that it is a point of; `plan-trials` writes it.",
    "code": "The code under which the batch is tasted blind, such as `417`; `plan-trials` writes it.",
    "changed": "What differs, and nothing else.",
    "weighed": "What was really weighed, where it differs, such as `{sugar: 131 g}`. It counts for this trial only.",
    "readings": "A list of what was read off instruments.",
    "mixing": "A list of what a mixer did to the temperature.",
    "chilling": "A list of how the batch cooled in a cold place.",
    "seen": "A list of what was seen at checkpoints.",
    "tests": "A list of tests of the finished batch.",
    "tasted": "A list of attributes with the marks that people gave.",
    "compared": "A list of blind comparisons with other trials.",
    "pictures": "A list of pictures beside the trial file.",
    "did": "What the finished batch did, such as `held`.",
    "verdict": "What follows, such as `go on from here`.",
    "because": "Why, in a sentence, such as `It weeps on the third day.`",
}
CHANGED = {
    "ingredients": "By its short name: a new amount such as `120 g`, or `left out`, or the fields that differ, such as "
    "`{kind: whole milk, amount: 120 g}`. A new ingredient says where it goes in: `add_at: 1.2`.",
    "steps": "By stage and step as the card numbers them, such as `1.3`: the fields that differ, such as "
    "`{time: 4 min}`, or `left out`.",
}
ADD_AT = "For an ingredient that is new: the stage and the step that add it, such as `1.2`."
READING = {
    "at": "The stage or the step after which it was read, such as `2` or `1.3`. Default: the finished batch.",
    "temperature": "The temperature, such as `21 °C` or `70 °F`.",
    "mass": "What is in the bowl, without the bowl, such as `480 g`.",
    "density": "The density, such as `0.85 g/mL`; or give a weighed cup.",
    "cup": "The measure that was filled level and weighed, such as `US cup` or `metric cup`. Default: a US cup.",
    "cup_weighs": "What is in that measure, without it, such as `205 g`.",
    "ph": "The pH, such as `6.4`.",
    "brix": "What a refractometer reads, such as `48.5`.",
    "water_activity": "The water activity, such as `0.93`.",
    "spread": "How far it spread, such as `34 mm`.",
    "penetration": "How deep a cone or a ball went in, such as `12 mm`.",
    "note": "How it was read, such as `after an hour`.",
}
MIXING = {
    "at": "The step, such as `2.2`.",
    "from": "The temperature before, such as `18 °C`.",
    "to": "The temperature after, such as `21 °C`.",
    "time": "How long the mixer ran, such as `8 min`.",
}
CHILLING = {
    "from": "The temperature before, such as `30 °C`.",
    "to": "The temperature after, such as `20 °C`.",
    "cold": "The temperature of the cold place, such as `4 °C`.",
    "time": "How long it was there, such as `25 min`.",
}
SEEN = {
    "at": "The step with the checkpoint, such as `1.3`.",
    "sign": "What was seen, such as `Small grains.`",
    "remedy": "What was done about it, such as `Warmed the bowl.`",
    "worked": "Whether that worked: `yes` or `no`.",
}
TEST = {
    "test": "What it was put through.",
    "did": "What it did.",
    "where": "Where, such as `in the refrigerator` or `on a table in the sun`.",
    "temperature": "The temperature of the place, or of the frosting as it was piped, such as `19 °C`.",
    "time": "How long, such as `3 days` or `1 h 30 min`.",
    "weeping": "How wide the wet ring on paper was, such as `2 mm`.",
    "height_lost": "How much height it lost, such as `3 mm`.",
    "rosettes": "How many rosettes were piped until they softened, such as `14`.",
    "note": "Anything else, such as `covered`.",
}
TASTED = {
    "attribute": "What was marked, such as `liking` or `sweetness`.",
    "scale": "`9`, the hedonic scale (9 is best), or `5`. Default: `9`.",
    "marks": "A list of the marks, one for each person, such as `[7, 8, 6]`.",
    "code": "The code under which it was tasted, if that was blind, such as `417`.",
}
COMPARED = {
    "test": "`triangle`: find the odd one of three samples; `paired`: choose one of two.",
    "against": "The number of the other trial, such as `2`.",
    "people": "How many people tasted, such as `12`.",
    "right": "Of a triangle test: how many found the odd one, such as `9`.",
    "chose": "Of a paired test: how many chose this batch, such as `8`.",
    "asked": "What they were asked, such as `Which one is sweeter?`",
}
PICTURE = {
    "file": "The name of the picture beside the trial file, such as `3-cut.jpg`.",
    "shot": "What it shows, such as `cut edge`. The same shots of several trials are compared. Default: `finished`.",
}
