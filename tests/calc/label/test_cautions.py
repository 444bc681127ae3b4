"""Cautions: chosen by facts and region, figures as the law there states them, and never a clearance."""

import re
import string
from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.label.caution_facts import CautionFacts, caution_facts_of
from crumbcoat_calc.label.caution_table import VOICES, Readers, all_cautions, cautions_of, limits
from crumbcoat_calc.label.cautions import cautions_for
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.tables import citations
from crumbcoat_calc.texts.cautions import caution_rows, comes_first_text
from crumbcoat_calc.values.region import REGIONS
from crumbcoat_site.recipe_cards.source.read_recipe import load_recipe
from hypothesis import given
from hypothesis import strategies as st

RECIPES = sorted((Path(__file__).parents[3] / "recipes").glob("*/*.yaml"))

CLEARANCE = re.compile(
    r"safe|\bclear|no risk|risk[- ]free|without risk|harmless|approv|certif|guarant|permitted|fine to|\bok\b|okay"
    r"|no danger|free from danger|kills|eliminat|sterile|compl(y|ies|iant)|\bpass(es|ed)?\b|need not"
    r"|no need|can be left",
    re.IGNORECASE,
)
"""Words that read as a clearance."""

names = st.lists(st.sampled_from(["milk", "egg white", "whole eggs", "hazelnuts"]), max_size=3).map(tuple)
temperature = st.one_of(st.none(), st.floats(20, 180))
heated = st.lists(st.tuples(st.sampled_from(["egg white", "yolks"]), temperature), max_size=2).map(tuple)
facts = st.builds(
    CautionFacts, allergens=names, allergens_by_accident=names, allergens_unknown=names,
    of_slaughter=names, eggs=heated, flours=heated, moist=st.booleans(),
    hottest_c=temperature,
    cooled=st.one_of(st.none(), st.tuples(st.floats(60, 3600), st.floats(3600, 90000), st.floats(0, 40))),
    out_of_the_cold=st.sampled_from([(), ("in a cool room",)]),
    refrigerated_s=st.one_of(st.none(), st.floats(3600, 3e6)), machines=names, choking=names, honey=names,
    alcohol=names, alcohol_percent=st.one_of(st.none(), st.floats(0, 40)), hard_or_sharp=names, decorations=names,
    flowers=names,
    young=st.sampled_from([None, True, False]),
)  # fmt: skip


readers = st.builds(Readers, region=st.sampled_from(REGIONS), voice=st.sampled_from(VOICES))
EVERYONE = [Readers(region=region, voice=voice) for region in REGIONS for voice in VOICES]


@given(facts, readers)
def test_no_caution_reads_as_a_clearance_and_each_names_its_source(some, of):
    for caution in cautions_for(some, of):
        assert not CLEARANCE.search(caution.title + ". " + caution.words), caution.words
        assert "{" not in caution.words
        (shown,) = caution_rows([caution])
        assert shown[:2] == [caution.title, caution.words]
        assert "local food code" not in shown[1] + shown[2]
        assert citations()[caution.source] in shown[2]
        assert caution.where


def test_no_row_reads_as_a_clearance():
    for row in all_cautions():
        assert not CLEARANCE.search(row.title + ". " + row.words), row.key
    for of in EVERYONE:
        for first in (comes_first_text(of), comes_first_text(of, of_several=True)):
            assert not CLEARANCE.search(first)
            assert first.count("your local food code decides") == 1
            assert "licensed" in first


@pytest.mark.parametrize("of", EVERYONE, ids=lambda of: f"{of.region} {of.voice}")
def test_a_region_and_a_voice_have_one_row_of_a_caution(of):
    keys = [row.key for row in cautions_of(of)]
    assert len(keys) == len(set(keys))
    missing = {row.key for row in all_cautions()} - set(keys)
    assert missing == (set() if of.region == "US" else {"date_passed"}), "only the US code counts days"


def test_rows_of_a_caution_differ_in_law_and_not_in_title_place_or_gaps():
    titles = {(row.key, row.title) for row in all_cautions()}
    assert len(titles) == len({row.key for row in all_cautions()})
    for key in {row.key for row in all_cautions()}:
        rows = [row for row in all_cautions() if row.key == key]
        assert len({tuple(sorted(gaps_of(row.words))) for row in rows}) == 1


def test_how_each_source_was_seen_is_said_and_no_caution_rests_on_memory():
    assert {row.seen for row in all_cautions()} == {"found", "secondary"}
    assert not [row.key for row in all_cautions() if "memory" in (row.where + row.words + citations()[row.source])]


_AUTHORITIES = {
    "US": r"US |American Academy|Iowa State|21 CFR|29 CFR|.*Code of Federal Regulations|.*\bUSC\b|.*United States",
    "UK": r"UK |United Kingdom",
    "EU": r"European|Regulation \(E|Directive |Commission Regulation",
}
"""How the citations of a region's authorities begin; the rest are papers, which have no region."""


@pytest.mark.parametrize("of", EVERYONE, ids=lambda of: f"{of.region} {of.voice}")
def test_a_caution_cites_the_authority_of_its_region_or_says_whose_rule_it_is(of):
    for row in cautions_of(of):
        whose = [region for region, begins in _AUTHORITIES.items() if re.match(begins, citations()[row.source])]
        said = re.findall(r"\b(?:US|UK|EU)\b", row.words + " " + row.where)
        if whose and whose != [of.region]:
            as_assimilated = whose == ["EU"] and of.region == "UK" and "UK" in said
            assert whose[0] in said or as_assimilated, (row.key, row.where)


@pytest.mark.parametrize("voice", VOICES)
def test_on_a_site_for_the_uk_egg_cold_and_honey_are_those_of_uk_law_and_the_food_standards_agency(voice):
    sources = {row.key: citations()[row.source] for row in cautions_of(Readers(region="UK", voice=voice))}
    for key in ("raw_egg", "lightly_heated_egg", "heated_egg", "raw_flour", "cooling", "honey", "decorations"):
        assert sources[key].startswith("UK Food Standards Agency")
    for key in ("time_and_temperature", "out_of_the_cold", "date"):
        assert "Food Safety and Hygiene (England) Regulations 2013" in sources[key]
    assert not [key for key, citation in sources.items() if "Food Code" in citation or "Tennessee" in citation]


def gaps_of(words):
    return [gap for _, gap, _, _ in string.Formatter().parse(words) if gap]


def test_the_words_that_are_forbidden_are_found():
    for told in ("This is safe to eat.", "It is cleared.", "There is no risk.", "Fine to leave out."):
        assert CLEARANCE.search(told)


def _chosen(region="US", voice="class", **given_facts):
    chosen = cautions_for(CautionFacts(**{"moist": False, **given_facts}), Readers(region=region, voice=voice))
    return {caution.key: caution.words for caution in chosen}


@pytest.mark.parametrize(
    ("given_facts", "key", "told"),
    [
        ({"allergens": ("milk", "egg")}, "allergens", "Contains milk and egg."),
        ({"allergens_by_accident": ("peanut",)}, "allergens_by_accident", "May contain peanut"),
        ({"of_slaughter": ("leaf gelatine",)}, "of_slaughter", "slaughtered animals, often pigs: leaf gelatine."),
        ({"allergens_unknown": ("fondant",)}, "allergens_unknown", "allergens of fondant are not all known"),
        ({"eggs": (("egg white", None),)}, "raw_egg", "does not cook egg white"),
        ({"eggs": (("egg white", 65.0),)}, "lightly_heated_egg", "heats egg white to 65 °C (149 °F)"),
        ({"eggs": (("yolks", 71.0),)}, "heated_egg", "heats yolks to 71 °C (160 °F)"),
        ({"flours": (("flour", None),)}, "raw_flour", "does not cook flour"),
        ({"flours": (("flour", 60.0),)}, "raw_flour", "does not cook flour"),
        ({"moist": True}, "time_and_temperature", "cold at 5 °C (41 °F) or below"),
        ({"moist": True}, "water_activity_and_ph", "a prediction decides nothing about keeping"),
        ({"moist": True, "hottest_c": 57.0}, "cooling", "within 2 hours"),
        ({"moist": True, "out_of_the_cold": ("in a cool room",)}, "out_of_the_cold", "keeps it in a cool room"),
        ({"moist": True, "refrigerated_s": 5 * 86400.0}, "date", "within 7 days"),
        ({"moist": True, "refrigerated_s": 7 * 86400.0}, "date_passed", "up to 7 days in the refrigerator"),
        ({"hottest_c": 118.0}, "hot_syrup", "heats to 118 °C (244 °F)"),
        ({"hottest_c": 100.0}, "hot_liquid", "heats to 100 °C"),
        ({"hottest_c": 60.0}, "hot_liquid", "heats to 60 °C"),
        ({"machines": ("mixer", "blender")}, "machines", "Work with mixer and blender"),
        ({"choking": ("hazelnuts",)}, "choking", "young children hazelnuts can block"),
        ({"honey": ("honey",)}, "honey", "under 12 months"),
        ({"alcohol": ("rum",), "alcohol_percent": 1.25}, "alcohol", "with rum: about 1.3 % of the batch"),
        (
            {"alcohol": ("vanilla extract",), "alcohol_percent": 0.04},
            "alcohol",
            "with vanilla extract: less than 0.1 %",
        ),
        ({"hard_or_sharp": ("wire",)}, "hard_or_sharp", "mentions wire"),
        ({"decorations": ("glitter",)}, "decorations", "mentions glitter"),
        ({"flowers": ("fresh flower",)}, "flowers", "mentions fresh flower. Use only unsprayed flowers"),
    ],
)
def test_a_fact_brings_its_caution(given_facts, key, told):
    assert told in _chosen(**given_facts)[key]


@pytest.mark.parametrize(
    ("given_facts", "key"),
    [
        ({"eggs": (("egg white", 71.0),)}, "raw_egg"),
        ({"eggs": (("egg white", 71.0),)}, "lightly_heated_egg"),
        ({"flours": (("flour", 90.0),)}, "raw_flour"),
        ({"moist": True, "hottest_c": 45.0}, "cooling"),
        ({"moist": True, "refrigerated_s": 6 * 86400.0}, "date_passed"),
        ({"hottest_c": 59.0}, "hot_liquid"),
        ({"hottest_c": 118.0}, "hot_liquid"),
        ({"choking": ("hazelnuts",), "young": False}, "choking"),
        ({"honey": ("honey",), "young": False}, "honey"),
        ({}, "allergens"),
    ],
)
def test_without_the_fact_there_is_no_caution(given_facts, key):
    assert key not in _chosen(**given_facts)


# fda-food-code, as in section 3 of the project's notes: 3-501.16 hold at 5 °C (41 °F) or 57 °C (135 °F); 3-501.14 cool
# from 57 °C to 21 °C in 2 h and to 5 °C in 6 h in all; 3-501.19 4 h, or 6 h below 21 °C (70 °F); 3-501.17 7 days,
# day 1 is that of preparation; 3-401.11 63 °C (145 °F) 15 s; 3-302.13 pasteurized eggs.
@pytest.mark.parametrize(
    ("key", "figures", "section"),
    [
        ("time_and_temperature", ["5 °C (41 °F)", "57 °C (135 °F)"], "3-501.16"),
        ("cooling", ["57 °C (135 °F)", "21 °C (70 °F)", "2 hours", "5 °C (41 °F)", "6 hours in all"], "3-501.14"),
        ("out_of_the_cold", ["4 hours", "5 °C (41 °F)", "6 hours", "21 °C (70 °F)"], "3-501.19"),
        ("date", ["5 °C (41 °F)", "7 days", "day of preparation is day 1"], "3-501.17"),
        (
            "lightly_heated_egg",
            ["71 °C (160 °F)", "155 °F (68 °C) for 17 seconds", "145 °F (63 °C) for 15 seconds"],
            "3-401.11",
        ),
        ("raw_egg", ["pasteurized eggs"], "3-302.13"),
        ("water_activity_and_ph", ["predicted", "measured"], "1-201.10"),
    ],
)
def test_figures_are_those_of_the_model_code(key, figures, section):
    row = _row(key, "US")
    assert all(figure in row.words for figure in figures)
    assert section in row.where
    assert row.source == "fda-food-code"


@pytest.mark.parametrize(
    ("region", "title", "flavouring"), [("US", "Gelatin", "flavoring"), ("UK", "Gelatine", "flavouring")]
)
def test_the_words_have_the_spelling_of_the_region(region, title, flavouring):
    assert _row("of_slaughter", region).title == f"{title} or animal fat"
    assert _row("alcohol", region).words.endswith(f"use a {flavouring} without it.")


def _row(key, region, voice="class"):
    return next(row for row in cautions_of(Readers(region=region, voice=voice)) if row.key == key)


# Food Safety and Hygiene (England) Regulations 2013, Schedule 4 (the text of paragraphs 2 and 6, and of 5 in the equal
# schedule of Northern Ireland): 8 °C, less than 4 hours, 63 °C. UK guidance: 70 °C for 2 minutes, 75 °C for 30 seconds;
# 90 minutes to cool. Regulation (EC) No 852/2004, Annex II, chapter IX: no figure. France, order of 21 December 2009:
# 63 °C to 10 °C in less than 2 hours.
@pytest.mark.parametrize(
    ("region", "key", "figures", "source"),
    [
        ("UK", "time_and_temperature", ["8 °C (46 °F) or below by law", "63 °C (145 °F)"], "uk-hygiene-2013"),
        ("UK", "out_of_the_cold", ["8 °C (46 °F) once", "less than 4 hours"], "uk-hygiene-2013"),
        ("UK", "cooling", ["90 minutes"], "fsa-sfbb"),
        ("UK", "raw_egg", ["British Lion", "pasteurised egg", "severely weakened immune system"], "fsa-eggs-2017"),
        ("UK", "heated_egg", ["70 °C (158 °F) for 2 minutes", "75 °C (167 °F) for 30 seconds"], "fsa-cooking"),
        ("UK", "machines", ["under 18", "assess the risk"], "uk-mhsw-1999"),
        ("EU", "time_and_temperature", ["no figure", "national rules"], "eu-852-2004"),
        (
            "EU",
            "cooling",
            ["as quickly as possible", "63 °C (145 °F) to 10 °C (50 °F) in less than 2 hours"],
            "eu-852-2004",
        ),
        ("EU", "out_of_the_cold", ["limited periods", "no number of hours"], "eu-852-2004"),
        ("EU", "raw_egg", ["pasteurised egg"], "efsa-eggs-2014"),
        ("EU", "machines", ["under 18"], "eu-94-33"),
    ],
)
def test_figures_are_those_of_the_region(region, key, figures, source):
    row = _row(key, region)
    assert all(figure in row.words for figure in figures), row.words
    assert row.source == source


@pytest.mark.parametrize(
    ("region", "others"),
    [("UK", ("57 °C", "21 °C", "model code", "pasteurized")), ("US", ("8 °C (", "63 °C (", "FSA", "Lion"))],
)
def test_no_region_prints_the_law_of_another(region, others):
    for row in cautions_of(Readers(region=region)):
        assert not [words for words in others if words in row.words], row.key


def test_limits_of_a_region():
    assert limits("UK")["egg_mixture_c"] == 70
    assert limits("US")["egg_mixture_c"] == limits("EU")["egg_mixture_c"] == 71
    assert (limits("UK")["hot_holding_c"], limits("US")["hot_holding_c"]) == (63, 57)
    assert "days_with_preparation" in limits("US")
    assert "days_with_preparation" not in limits("EU")


def test_a_limit_of_the_region_chooses_the_caution():
    egg = {"eggs": (("yolks", 70.5),)}
    assert "heated_egg" in _chosen("UK", **egg)
    assert "lightly_heated_egg" in _chosen("US", **egg)
    assert "cooling" not in _chosen("UK", moist=True, hottest_c=60.0)
    assert "cooling" in _chosen("US", moist=True, hottest_c=60.0)


@pytest.mark.parametrize(
    ("region", "longest_min", "mentioned"),
    [
        ("US", 120, False), ("US", 121, True),  # 3-501.14: 57 °C to 21 °C within 2 hours
        ("UK", 90, False), ("UK", 91, True),  # guidance for small businesses: 90 minutes
        ("EU", 120, False), ("EU", 150, True),  # France, order of 21 December 2009: less than 2 hours
    ],
)  # fmt: skip
def test_a_recipe_that_gives_longer_for_cooling_than_the_code_is_reported(region, longest_min, mentioned):
    cooled = (30 * 60.0, 60.0 * longest_min, 20.0)
    words = _chosen(region, moist=True, hottest_c=98.0, cooled=cooled)["cooling"]
    assert ("The recipe gives 30 min to " in words) is mentioned
    assert words.endswith("for cooling to 20 °C (68 °F): measure when it gets there.") is mentioned
    assert "cooling" not in _chosen(region, moist=True, hottest_c=45.0, cooled=cooled)


def test_cooling_counts_after_a_step_that_heats():
    """The lemon curd gives 4 to 12 h to 5 °C after it was heated; the cream cheese frosting was never hot."""
    found = {path.stem: caution_facts_of(batch_of(load_recipe(path, path.name)[0])).cooled for path in RECIPES}
    assert found["lemon-curd-filling"] == (4 * 3600, 12 * 3600, 5)
    assert found["cooked-flour-buttercream"] == (3600, 5400, 21)
    assert found["everyday-milk-frosting"] == (45 * 60, 3600, 20)
    assert found["cream-cheese-frosting"] is None


def test_a_home_is_addressed_as_a_home():
    out = {"moist": True, "out_of_the_cold": ("at room temperature",), "machines": ("mixer",)}
    home, of_a_class = _chosen("US", "home", **out), _chosen("US", "class", **out)
    assert "2 hours" in home["out_of_the_cold"]
    assert "written procedure" in of_a_class["out_of_the_cold"]
    assert "under 18" not in home["machines"]
    assert "at home" in comes_first_text(Readers(voice="home"))
    assert "at home" not in comes_first_text(Readers(voice="class"))


def test_gelatine_and_animal_fat_are_named_for_those_who_avoid_them():
    """Kinds by where they come from, in diets.csv; an ingredient of the recipe's own by the words of its name."""
    sheet = {"kind": "gelatin_sheet_fr", "amount": "9 g"}
    own = {"name": "beef gelatine", "composition": {"protein": "85 %", "water": "15 %"}, "amount": "9 g"}
    agar = {"kind": "agar_dried", "name": "agar", "amount": "9 g"}
    step = {"do": "Melt.", "add": ["sheet", "own", "agar"], "heat_to": "45 °C"}
    recipe = _recipe(
        ingredients={"sheet": sheet, "own": own, "agar": agar}, stages=[{"title": "Melt", "steps": [step]}]
    )
    assert caution_facts_of(batch_of(recipe)).of_slaughter == ("gelatine, sheets or powder", "beef gelatine")


def test_celsius_and_fahrenheit_agree():
    """32 + 9/5 t, to the nearest degree; 71 °C is 159.8. The model code has 155 °F and 68 °C, 145 °F and 63 °C."""
    for row in all_cautions():
        for celsius, fahrenheit in re.findall(r"(\d+) °C \((\d+) °F\)", row.words):
            assert round(int(celsius) * 9 / 5 + 32) == int(fahrenheit), row.key
        for fahrenheit, celsius in re.findall(r"(\d+) °F \((\d+) °C\)", row.words):
            assert round((int(fahrenheit) - 32) * 5 / 9) == int(celsius), row.key


def test_every_gap_is_filled_by_some_fact():
    assert {gap for row in all_cautions() for gap in gaps_of(row.words)} == {
        "allergens",
        "names",
        "temperature",
        "where",
        "days",
        "tools",
        "percent",
        "slow",
    }


def _recipe(**changes):
    return recipe_from(
        {
            "title": "Test", "summary": "Decorated with edible glitter.", "author": "the tests", "family": "other",
            "yield": {"portions": "1", "of": "bowl"},
            "ingredients": {
                "egg": {"kind": "egg_white_raw", "name": "egg white", "amount": "100 g"},
                "rum": {"kind": "rum_80_proof", "name": "rum", "amount": "10 g", "optional": "yes"},
                "nuts": {"kind": "hazelnut", "name": "hazelnuts", "amount": "50 g"},
            },
            "stages": [{"title": "Whip", "steps": [
                {"do": "Whip on a wire rack.", "add": ["egg", "rum", "nuts"], "tool": "Stand mixer, whisk"}]}],
            "storage": [{"where": "in the refrigerator", "up_to": "2 weeks"},
                        {"where": "at room temperature", "up_to": "2 h"}],
            **changes,
        }
    )  # fmt: skip


def test_facts_of_a_recipe():
    found = caution_facts_of(batch_of(_recipe(may_contain=["peanut"])))
    assert found.eggs == (("egg white", None),)
    assert (found.allergens, found.allergens_by_accident) == (("egg", "hazelnut"), ("peanut",))
    assert (found.alcohol, found.choking, found.machines) == (("rum",), ("hazelnuts",), ("mixer",))
    assert found.alcohol_percent == pytest.approx(100 * 3.34 / 160)
    assert (found.hard_or_sharp, found.decorations) == (("wire",), ("glitter",))
    assert (found.refrigerated_s, found.out_of_the_cold) == (14 * 86400, ("at room temperature",))
    assert found.moist


@pytest.mark.parametrize(
    ("note", "parts"),
    [
        ("Acid takes a taste of metal out of copper.", ("wire",)),
        ("Keep the probe off the metal.", ("wire",)),
        ("Pipe it with a metal nozzle.", ("nozzle", "wire")),
        ("Hold it up with a skewer.", ("skewer", "wire")),
    ],
)
def test_parts_are_counted_but_not_a_taste(note, parts):
    """The recipe itself has a wire rack."""
    assert caution_facts_of(batch_of(_recipe(notes=[note]))).hard_or_sharp == parts


def test_what_is_left_out_brings_no_caution():
    found = caution_facts_of(batch_of(_recipe(), BatchOptions(left_out=frozenset({"rum"}))))
    assert found.alcohol == ()


def _fondant(**declared):
    fondant = {"name": "fondant", "composition": {"sugars": "90 %", "water": "10 %"}, "amount": "9 g", **declared}
    return _recipe(
        ingredients={"fondant": fondant},
        stages=[{"title": "Melt", "steps": [{"do": "Melt.", "add": ["fondant"], "heat_to": "45 °C"}]}],
    )


def test_the_author_settles_what_is_not_known():
    assert caution_facts_of(batch_of(_fondant())).allergens_unknown == ("fondant",)
    found = caution_facts_of(batch_of(_fondant(allergens=["egg"])))
    assert (found.allergens_unknown, found.allergens) == ((), ("egg",))


def test_a_decoration_brings_its_cautions():
    """What is eaten may hold anything; what is not eaten has to come off."""
    decorations = [{"what": "silver dragees"}, {"what": "candles", "eaten": "no"}]
    found = caution_facts_of(batch_of(_recipe(decorations=decorations)))
    assert found.allergens_unknown == ("silver dragees",)
    assert found.hard_or_sharp == ("dragee", "wire", "candles")


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_every_recipe_of_the_site_has_cautions_that_fit(path):
    recipe = recipe_from(yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader))
    keys = {caution.key for caution in cautions_for(caution_facts_of(batch_of(recipe)))}
    gelatine = any(one.food.key == "gelatin_powder" for one in recipe.ingredients)
    assert ("of_slaughter" in keys) == gelatine
    assert {"time_and_temperature", "water_activity_and_ph"} <= keys
    raw_egg = any(one.food.key in ("egg_white_raw", "egg_yolk_raw", "egg_whole_raw") for one in recipe.ingredients)
    assert bool(keys & {"raw_egg", "lightly_heated_egg", "heated_egg"}) == raw_egg
    assert ("hot_syrup" in keys) == any(
        step.heat_to_c is not None and step.heat_to_c > 100 for stage in recipe.stages for step in stage.steps
    )
