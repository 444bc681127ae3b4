"""Why a batch holds: nothing false on any recipe of the demo or of the command, nor on those made at random."""

import random
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from crumbcoat_calc.forms.conditions import conditions_from
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.model import FAMILIES
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.science.carriers import Carries
from crumbcoat_calc.science.estimate import Estimate
from crumbcoat_calc.science.structure import Outside, structure_of
from crumbcoat_calc.texts import Texts
from crumbcoat_calc.texts.air import Air
from crumbcoat_calc.texts.science import science_texts, treated_parts, vessel_state
from crumbcoat_calc.texts.why_sentences import PARTS, sentences
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe

from tests.recipes.random_recipes import Fields, batch_from, grams_of, random_recipe, with_amount

ROOT = Path(__file__).parents[3]
DEMO = sorted((ROOT / "recipes").glob("*/*.yaml"))
SKELETONS = sorted((ROOT / "site_plugins" / "crumbcoat_site" / "command" / "skeletons").glob("*.yaml"))
HEADS = {"title": "Test", "summary": "A test.", "author": "Lantern Street teaching kitchen"}


@cache
def published(file: Path) -> Batch:
    """The batch of a recipe of the demo, or of a skeleton with the heads that the command writes."""
    if file in DEMO:
        return batch_of(load_recipe(file, file.name)[0])
    fields: dict[str, Any] = yaml.load(file.read_text(encoding="utf-8"), yaml.BaseLoader)
    family = next(one for one in FAMILIES if one.replace(" ", "-") == file.stem)
    return batch_of(recipe_from({**HEADS, "family": family, **fields}))


def why(batch: Batch, **state: str) -> Texts:
    shown = science_texts(batch, conditions_from(batch.recipe, state), Air())
    return {part: shown[f"why.{part}"] for part in (*PARTS, "short")}


def prose(batch: Batch, **state: str) -> str:
    return " ".join(str(text) for text in why(batch, **state).values() if text)


HOLDS = {
    "condensed-milk-buttercream": "a frame of fat",
    "cooked-flour-buttercream": "a starch gel, then a frame of fat",
    "custard-buttercream": "a starch gel, then a frame of fat, then egg that has set",
    "egg-yolk-buttercream": "a frame of fat, then a foam of egg",
    "icing-sugar-buttercream": "a frame of fat, then undissolved sugar",
    "sugar-and-butter-frosting": "a frame of fat, then undissolved sugar",
    "plant-based-cocoa-frosting": "a frame of fat",
    "swiss-meringue-buttercream": "a foam of egg white, then a frame of fat",
    "meringue-buttercream": "a foam of egg white, then a frame of fat",
    "coating-ganache": "cocoa butter",
    "ganache": "cocoa butter",
    "cream-cheese-frosting": "the curd of the cheese, then a frame of fat",
    "lemon-curd-filling": "egg that has set",
    "curd-or-custard-filling": "egg that has set",
    "stabilised-whipped-cream": "clumped fat around the bubbles, then gelatine",
    "whipped-cream": "clumped fat around the bubbles",
    "everyday-milk-frosting": "a starch gel, then a frame of fat",
    "emulsified-milk-frosting": "a starch gel, then a frame of fat",
    "silk-milk-frosting": "clumped fat around the bubbles, then gelatine, then a frame of fat",
    "glaze-or-icing": "undissolved sugar",
}
"""What a pastry chef would say holds each of them, the strongest first (common practice, no source)."""


@pytest.mark.parametrize("file", [*DEMO, *SKELETONS], ids=lambda file: f"{file.parent.name}/{file.stem}")
def test_what_holds_each_recipe_that_we_publish(file: Path) -> None:
    shown = why(published(file))
    assert shown["holds"] == f"What holds it: {HOLDS[file.stem]}."
    assert shown["short"] == shown["holds"]


def test_each_recipe_is_there() -> None:
    assert (len(DEMO), len(SKELETONS)) == (13, 12)


NEEDS = {
    "egg": r"\begg",
    "starch": r"\bstarch\b",
    "gelatine": r"\bgelatine\b",
    "cheese": r"\bcheese\b|\bcurd\b",
    "cream": r"\bcream with\b|clumped",
    "cocoa butter": r"\bcocoa butter\b",
    "coconut": r"\bcoconut\b",
    "butter": r"the butter's",
    "milk protein": r"\bmilk protein and\b|milk protein,",
}
"""Words of a sentence by what must be in the batch."""


def contents(batch: Batch) -> dict[str, bool]:
    """What of NEEDS is in a batch, by the keys and groups of its foods alone."""
    foods = [part.food for part in batch.vessels[-1].parts if part.mass_g > 0]
    keys = " ".join(food.key for food in foods)
    groups = {food.group for food in foods}
    return {
        "egg": "egg" in groups,
        "starch": bool(re.search(r"starch|flour|custard_powder|semolina|tapioca", keys)),
        "gelatine": "gelatin" in keys,
        "cheese": bool(re.search(r"chees|mascarpone|quark|ricotta", keys)),
        "cream": "cream_" in keys or "creme_" in keys or ("milk_" in keys and "butter_" in keys),
        "cocoa butter": "chocolate" in keys or "cocoa_butter" in keys,
        "coconut": "coconut" in keys,
        "butter": "butter_" in keys,
        "milk protein": any((food.content("milk_protein_g") or 0) > 0 for food in foods),
    }


def false_sentences(batch: Batch, **state: str) -> Iterator[str]:
    """What is said and cannot be true, by what is in the batch and by its figures."""
    shown, there = why(batch, **state), contents(batch)
    said = " ".join(str(text) for text in shown.values() if text)
    for what, words in NEEDS.items():
        if re.search(words, said, re.IGNORECASE) and not there[what]:
            yield f"{what} is not in it: {said}"
    conditions = conditions_from(batch.recipe, dict(state))
    vessel = batch.vessels[-1]
    found = vessel_state(vessel, conditions.bowl_c)
    structure = structure_of(treated_parts(vessel), batch.recipe.family, found)
    left, phi = found.undissolved_sugar_g, found.fat_volume_percent
    if "All the sugar is dissolved" in said and not (isinstance(left, Estimate) and left.high < 0.005 * found.mass_g):
        yield f"sugar may be undissolved, {left}: {said}"
    if "stays undissolved: its crystals" in said and not (isinstance(left, Estimate) and left.low > 0):
        yield f"sugar may be dissolved, {left}: {said}"
    if "runnier" in said and not (structure.outside is Outside.WATER and isinstance(phi, Estimate) and phi.low >= 50):
        yield f"it is not known what is inside: {said}"
    if "droplets have" in said and structure.outside is not Outside.WATER:
        yield f"it is not known what is inside: {said}"
    if "refrigerator" in str(shown["warmth"]) and not structure.has(Carries.FAT_FRAME):
        yield f"no fat holds it: {said}"
    if conditions.bowl_c > 50 and re.search(r"frame of fat|clumped|cocoa butter|refrigerator, then", said):
        yield f"all the fat is liquid: {said}"
    if any(mark in said for mark in ("{", "}", "  ", "None", "..", " , ")):
        yield f"a place of a template is left: {said}"


def as_cooked(family: str, number: int) -> Fields:
    """A recipe made at random, in which some bases are cooled, some bowls whipped, and cream and butter may be cold."""
    fields, chance = random_recipe(family, number), random.Random(f"as cooked, {family}, {number}")
    steps = [step for stage in fields["stages"] for step in stage["steps"]]
    for step in steps:
        if "heat_to" in step and chance.random() < 0.7:
            step["cool_to"] = f"{chance.choice((5, 20, 28))} °C"
        if chance.random() < 0.6:
            step |= {"tool": "stand mixer, whisk", "speed": "medium"}
    if "heat_to" in steps[0] and chance.random() < 0.3:
        fields["stages"][0]["steps"].append({"do": "Whip.", "tool": "stand mixer, whisk", "speed": "high"})
    for key in ("cream", "butter", "fat"):
        if key in fields["ingredients"]:
            fields["ingredients"][key]["temperature"] = f"{chance.choice((4, 19))} °C"
    return fields


@pytest.mark.parametrize("family", FAMILIES)
def test_no_sentence_is_false_on_recipes_made_at_random(family: str, full: bool) -> None:
    found = []
    for number in range(300 if full else 12):
        batch = batch_from(as_cooked(family, number))
        for bowl in ("5", "20", "32", "51") if full else ("20", "51"):
            found += [f"{family}, {number} at {bowl}: {one}" for one in false_sentences(batch, bowl_temperature=bowl)]
    assert found == []


@pytest.mark.parametrize("bowl", ["2", "15", "20", "25", "32", "51"])
def test_no_sentence_is_false_on_recipes_that_we_publish(bowl: str) -> None:
    found = [
        f"{file.stem}: {one}"
        for file in (*DEMO, *SKELETONS)
        for one in false_sentences(published(file), bowl_temperature=bowl)
    ]
    assert found == []


def test_every_sentence_is_said_of_something() -> None:
    """A sentence that nothing leads to would be untested; each is said of some recipe, at some temperature."""
    said = set()
    batches = [published(file) for file in (*DEMO, *SKELETONS)] + [batch_of(recipe_from(one)) for one in SPECIAL]
    for batch in batches:
        for bowl in ("5", "20", "32", "45"):
            text = prose(batch, bowl_temperature=bowl)
            said |= {number for number, one in enumerate(sentences()) if re.search(_pattern(one.text), text)}
    assert [one.text for number, one in enumerate(sentences()) if number not in said] == []


def _pattern(template: str) -> str:
    return re.sub(r"\\\{\w+\\\}", ".*?", re.escape(template))


def special(family: str, step: dict[str, Any], **kinds: str) -> dict[str, Any]:
    ingredients = {
        key: dict(zip(("kind", "amount"), written.split(", "), strict=True)) for key, written in kinds.items()
    }
    stage = {"title": "Make", "steps": [{"do": "Do.", "add": list(kinds), **step}]}
    return {**HEADS, "family": family, "yield": {"portions": "8", "of": "slices"}, "ingredients": ingredients,
            "stages": [stage]}  # fmt: skip


WHISKED = {"tool": "whisk", "speed": "high"}
SPECIAL = (
    special("other", {}, milk="milk_skim, 300 g", seed="seed_gums, 1 g"),
    special("other", {}, coconut="coconut_oil, 200 g", sugar="sugar_powdered, 100 g"),
    special("other", WHISKED, white="egg_white_raw, 100 g", sugar="sugar_granulated, 100 g"),
    special("other", {"heat_to": "95 °C"}, milk="milk_whole, 300 g", agar="agar_dried, 4 g"),
    special("other", {"heat_to": "95 °C"}, milk="milk_whole, 300 g", starch="potato_starch, 20 g"),
    special("other", {}, chips="chocolate_semisweet_chips, 200 g", cream="cream_heavy_whipping, 60 g"),
    special("other", {}, dextrose="glucose_anhydrous, 200 g", water="water_tap, 100 g"),
    special("other", {}, cocoa="cocoa_butter, 100 g", sugar="sugar_powdered, 100 g"),
    special("whipped cream", WHISKED, cream="cream_double, 300 g"),
    special("other", {}, cream="cream_heavy_whipping, 300 g"),
    special("other", {}, cream="cream_clotted, 300 g", sugar="sugar_granulated, 30 g"),
    special("other", {}, cream="cream_clotted, 300 g", milk="milk_whole, 60 g"),
    special("other", {}, cream="cream_clotted, 300 g"),
    special("other", {}, butter="butter_unsalted, 300 g"),
    special("other", {}, water="water_tap, 300 g", oil="oil_sunflower, 50 g", yolk="egg_yolk_raw, 0.25 g"),
    special("other", {}, oil="oil_sunflower, 300 g", milk="milk_whole, 60 g"),
    special("emulsified milk frosting", {}, oil="oil_sunflower, 450 g", milk="milk_whole, 200 g"),
)


def carriers(fields: Fields) -> list[Carries]:
    vessel = batch_from(fields).vessels[-1]
    structure = structure_of(treated_parts(vessel), fields["family"], vessel_state(vessel, 20))
    return [carrier.carries for carrier in structure.carriers]


BROUGHT_BY = {
    "gelatine": Carries.GELATINE,
    "starch": Carries.STARCH_GEL,
    "flour": Carries.STARCH_GEL,
    "white": Carries.WHITE_FOAM,
    "yolk": Carries.EGG_GEL,
    "egg": Carries.EGG_GEL,
    "butter": Carries.FAT_FRAME,
    "chocolate": Carries.COCOA_BUTTER,
    "cheese": Carries.FRESH_CHEESE,
}


@pytest.mark.parametrize("family", FAMILIES)
def test_more_of_what_brings_a_carrier_never_ranks_it_lower(family: str, full: bool) -> None:
    for number in range(150 if full else 8):
        fields = as_cooked(family, number)
        before = carriers(fields)
        for key, carrier in BROUGHT_BY.items():
            if key not in fields["ingredients"] or carrier not in before:
                continue
            after = carriers(with_amount(fields, key, 1.3 * grams_of(fields, key)))
            assert carrier in after, (family, number, key)
            assert after.index(carrier) <= before.index(carrier), (family, number, key)


def test_recipes_made_at_random_have_every_carrier_but_agar_and_gum() -> None:
    """So that the tests with them are about all the others."""
    found = {one for family in FAMILIES for number in range(25) for one in carriers(as_cooked(family, number))}
    assert found == set(Carries) - {Carries.AGAR, Carries.GUM}


def test_a_chilled_batch_of_cheese_is_not_to_be_beaten() -> None:
    """Common practice: cream cheese thins when it is beaten."""
    batch = published(next(file for file in DEMO if file.stem == "cream-cheese-frosting"))
    for bowl in ("5", "20", "32"):
        assert str(why(batch, bowl_temperature=bowl)["warmth"]).endswith("% of the butter's fat is solid.")


def test_a_window_of_solid_fat_is_given_for_whipped_cream() -> None:
    """Versteeg et al. 2016 found 49.9 to 66.1 % of milk fat solid at 5 °C, inside what is said of 4 to 8 °C."""
    shown = str(why(published(next(file for file in SKELETONS if file.stem == "whipped-cream")))["carriers"])
    found = re.search(r"At 4 to 8 °C, (\d+) to (\d+) % of milk fat is solid", shown)
    assert found
    assert int(found[1]) <= 49.9
    assert int(found[2]) >= 66
    assert why(published(next(file for file in SKELETONS if file.stem == "whipped-cream")))["warmth"] == ""


def of_demo(stem: str, **state: str) -> dict[str, str]:
    batch = published(next(file for file in (*DEMO, *SKELETONS) if file.stem == stem))
    return {part: str(text) for part, text in why(batch, **state).items()}


@pytest.mark.parametrize(
    ("stem", "bowl", "holds"),
    [
        ("stabilised-whipped-cream", "30", "At 30 °C (86 °F), little holds it: gelatine and clumped fat around the "
         "bubbles are melting."),
        ("icing-sugar-buttercream", "30", "At 30 °C (86 °F), little holds it: a frame of fat is melting; undissolved "
         "sugar alone may not be enough."),
        ("icing-sugar-buttercream", "45", "At 45 °C (113 °F), little holds it: the fat is liquid; undissolved sugar "
         "alone may not be enough."),
        ("coating-ganache", "30", "At 30 °C (86 °F), little holds it: cocoa butter is melting."),
        ("everyday-milk-frosting", "30", "What holds it: a starch gel. At 30 °C (86 °F), a frame of fat is melting, "
         "and hardly adds to that."),
        ("coating-ganache", "45", "At 45 °C (113 °F), nothing holds it: the fat is liquid."),
        ("stabilised-whipped-cream", "45", "At 45 °C (113 °F), nothing holds it: the fat is liquid."),
    ],
)  # fmt: skip
def test_what_is_melting_does_not_hold_a_batch(stem: str, bowl: str, holds: str) -> None:
    """Fat with less than 10 % solid slumps (common practice); gelatine melts at 25 to 35 °C (gelatine-makers)."""
    shown = of_demo(stem, bowl_temperature=bowl)
    assert shown["holds"] == holds
    assert "still has its crystals" not in shown["carriers"]
    assert "something else must hold" not in shown["syrup"]


def test_a_syrup_is_thick_by_its_viscosity() -> None:
    """Swiss meringue has a syrup of 56 %, 33 times as viscous as water: it is not thick, and not as thin as a drink."""
    assert of_demo("swiss-meringue-buttercream")["syrup"].endswith("(about 33 times as viscous as water).")
    assert "times as viscous as water): thick, so" in of_demo("icing-sugar-buttercream")["syrup"]
    assert "thin as a drink" not in of_demo("condensed-milk-buttercream")["syrup"]


def test_milk_fat_softens_a_ganache() -> None:
    """A third of its fat is milk fat, so it is soft before cocoa butter melts, at 28 to 36 °C (belitz)."""
    shown = of_demo("coating-ganache")["carriers"]
    softens = re.search(r"less than 40 % of all the fat is solid from about (\d+) °C", shown)
    assert softens
    assert 18 <= int(softens[1]) < 28
    assert "melts again at 28" not in shown


def test_a_little_creamed_butter_is_named_last() -> None:
    """7 g in 100 g are less than carries a batch alone; they add to it where something else carries it."""
    butter = {"butter": "butter_unsalted, 20 g", "oil": "oil_sunflower, 180 g"}
    assert why(batch_of(recipe_from(special("other", {}, **butter))))["holds"] == ""
    assert of_demo("silk-milk-frosting")["holds"].endswith(", then a frame of fat.")
