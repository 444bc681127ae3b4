"""Goals, predictions, diagnoses and tests of the demo recipes and of random ones, checked against files and cards."""

import re
from fractions import Fraction
from functools import cache
from math import floor
from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.calculators import run
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.lesson.diagnosis import actions, diagnoses, is_safe
from crumbcoat_calc.lesson.final_test import final_test
from crumbcoat_calc.lesson.lesson import LEVELS, PARTS, Lesson
from crumbcoat_calc.lesson.prediction import predictions
from crumbcoat_calc.lesson.tasting import attributes
from crumbcoat_calc.lesson.techniques import goals, techniques
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.model import FAMILIES, Trouble
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.texts.sheets import card_figures
from crumbcoat_calc.texts.teaching import goal_rows
from crumbcoat_calc.values.marks import plain_text
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.recipes.random_recipes import random_recipe

FOLDER = Path(__file__).parents[3] / "recipes"
NAMES = sorted(path.relative_to(FOLDER).with_suffix("").as_posix() for path in FOLDER.glob("*/*.yaml"))
MERINGUE, EVERYDAY = "buttercreams/swiss-meringue-buttercream", "milk-emulsions/everyday-milk-frosting"


@cache
def data(name):
    return yaml.load((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"), yaml.BaseLoader)


@cache
def card(name):
    return run("batch", context_from({"recipe": data(name)}))[1]


def known(*recipes):
    batches = [batch_of(recipe_from(fields)) for fields in recipes]
    return [(batch, card_figures(batch)) for batch in batches]


def of_demo(*names):
    return known(*map(data, names))


def figure(shown):
    return float(re.match(r"[\d.]+", shown)[0])


def check_choices(exercise):
    assert len(exercise.choices) == len(set(exercise.choices)) in (2, 3, 4)
    letter, right = exercise.answer.split(") ", 1)
    assert exercise.choices["abcd".index(letter)] == right


def check_sum(line):
    """`what: sum = result`, with the result rounded half up to its digits."""
    words, result = line.rsplit(": ", 1)[1].split(" = ")
    bare = re.sub(r"\b(g/mL|g|mL)\b|%", "", words).replace("×", "*").replace("−", "-")
    assert re.fullmatch(r"[\d.+\-*/() ]+", bare), line
    exact = Fraction(eval(re.sub(r"\d+(?:\.\d+)?", r"Fraction('\g<0>')", bare), {"Fraction": Fraction}))
    shown = re.match(r"\d+(?:\.(\d+))?", result)
    scale = 10 ** len(shown[1] or "")
    assert Fraction(floor(exact * scale + Fraction(1, 2)), scale) == Fraction(shown[0]), line


EXPECTED = {
    "buttercreams/condensed-milk-buttercream": {"creaming", "fat_and_water"},
    "buttercreams/cooked-flour-buttercream": {"creaming", "starch", "fat_and_water"},
    "buttercreams/custard-buttercream": {"creaming", "starch", "egg_gel", "fat_and_water"},
    "buttercreams/egg-yolk-buttercream": {"boiled_syrup", "whisked_egg", "fat_and_water"},
    "buttercreams/icing-sugar-buttercream": {"creaming", "sugar_crystals", "fat_and_water"},
    "buttercreams/plant-based-cocoa-frosting": {"creaming", "fat_and_water"},
    MERINGUE: {"whisked_white", "fat_and_water"},
    "creams-and-ganache/coating-ganache": {"chocolate", "fat_and_water"},
    "creams-and-ganache/cream-cheese-frosting": {"creaming", "fresh_cheese", "fat_and_water"},
    "creams-and-ganache/lemon-curd-filling": {"egg_gel", "fat_and_water"},
    "creams-and-ganache/stabilised-whipped-cream": {"whipped_cream", "gelatine"},
    EVERYDAY: {"creaming", "starch", "fat_and_water"},
    "milk-emulsions/silk-milk-frosting": {"creaming", "whipped_cream", "gelatine", "fat_and_water"},
}
"""By reading the recipes: what a cook does in each, besides weighing and working by temperature."""


def test_every_recipe_of_the_demo_is_read_by_a_cook():
    assert sorted(EXPECTED) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_goals_are_about_what_the_recipe_does(name):
    ((batch, figures),) = of_demo(name)
    found = techniques(batch.recipe, figures.structure)
    assert len(found) == len(set(found))
    assert set(found) - {"weighing", "temperature"} == EXPECTED[name]
    written = (FOLDER / f"{name}.yaml").read_text(encoding="utf-8")
    assert ("temperature" in found) == bool(re.search(r"^\s*(heat|cool)_to:", written, re.MULTILINE))


def test_every_goal_has_three_levels_and_a_technique_that_some_recipe_could_have():
    for name, goal in goals().items():
        assert len(set(goal.explains)) == len(LEVELS), name
    assert set().union(*EXPECTED.values()) | {"weighing", "temperature", "agar"} == goals().keys()


def test_goals_of_several_recipes_are_listed_once_and_say_whose_they_are():
    rows = goal_rows(of_demo(MERINGUE, EVERYDAY), LEVELS[0])
    assert len({row[0] for row in rows}) == len(rows)
    words = [row[0] for row in rows]
    assert "mixing fat and water" in words
    assert "whisking egg white (Swiss meringue buttercream)" in words
    assert "71 °C (160 °F), 28 °C (82 °F), 90 °C" in rows[1][2]
    other = goal_rows(of_demo(MERINGUE, EVERYDAY), LEVELS[2])
    assert all(one[3] != later[3] for one, later in zip(rows, other, strict=True))


@pytest.mark.parametrize("seed", ["1", "spring", "5/2"])
@pytest.mark.parametrize("name", NAMES)
def test_what_is_predicted_follows_from_the_card(name, seed):
    found = {one.topic: one for one in predictions(of_demo(name), seed)}
    assert {"fat", "mass"} <= found.keys()
    for one in found.values():
        check_choices(one)
    finished = float(batch_of(recipe_from(data(name))).total.mass_g)
    assert figure(found["fat"].answer[9:]) == pytest.approx(100 * figure(card(name)["science.fat"]) / finished, abs=0.7)
    lost = "water_lost" in (FOLDER / f"{name}.yaml").read_text(encoding="utf-8")
    assert found["mass"].answer == ("c) less" if lost else "b) the same")
    if "volume" in found:
        check_sum(found["volume"].working[1])
        of_card = figure(card(name)["science.overrun"])
        assert figure(found["volume"].answer[9:]) == pytest.approx(of_card, abs=5)
        assert name not in ("creams-and-ganache/coating-ganache", "creams-and-ganache/lemon-curd-filling")
        others = [figure(one[6:]) for one in found["volume"].choices if one.startswith("about")]
        assert len([one for one in others if abs(one - of_card) < 15]) == 1, "two answers could be right"


def test_recipes_are_compared_by_fat():
    """By hand, usda-sr28: 410 g of butter with 81.1 % in 835 g are 39.8 %; milk frosting has less."""
    (fat, *_) = predictions(of_demo(EVERYDAY, MERINGUE), "1")
    assert fat.answer == "b) Swiss meringue buttercream"
    assert "Swiss meringue buttercream: 39.9 g in 100 g" in fat.working


def test_recipes_are_compared_in_a_warm_room_only_by_curves_that_the_cards_have():
    """Butter slumps before coconut fat would; a meringue is held by its foam as well, so its card gives no mark."""
    one, other = (random_recipe("sugar-and-butter frosting", number) for number in (1, 2))
    one["ingredients"]["fat"]["kind"], other["ingredients"]["fat"]["kind"] = "butter_unsalted", "shortening_vegetable"
    one["title"], other["title"] = "With butter", "With shortening"
    both = known(one, other)
    marks = [figures.slumps_c for _, figures in both]
    asked = [exercise for exercise in predictions(both, "1") if exercise.topic == "warm room"]
    clear = None not in marks and abs(marks[0] - marks[1]) >= 2
    assert bool(asked) == clear
    if asked:
        assert asked[0].answer.endswith("With butter" if marks[0] < marks[1] else "With shortening")
    assert of_demo(MERINGUE)[0][1].slumps_c is None


def troubles(name):
    recipe = recipe_from(data(name))
    steps = [step for stage in recipe.stages for step in stage.steps if step.checkpoint]
    return recipe, [trouble for step in steps for trouble in step.checkpoint.troubles]


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("name", NAMES)
def test_spoiled_batches_are_those_of_the_recipe_and_one_remedy_is_right(name, seed):
    recipe, listed = troubles(name)
    remedies = {plain_text(trouble.remedy): trouble for trouble in listed}
    found = diagnoses([recipe], str(seed))
    assert len(found) <= 3
    assert len({one.question for one in found}) == len(found)
    for one in found:
        check_choices(one)
        sign = re.search(r"“(.*)”", one.question)[1]
        right = one.answer[3:]
        assert any(plain_text(trouble.sign) == sign and plain_text(trouble.remedy) == right for trouble in listed)
        for wrong in set(one.choices) - {right}:
            assert not actions(remedies[wrong]) & actions(remedies[right])
    assert len(found) >= min(2, len(listed)) or name in ALIKE


ALIKE = (
    "buttercreams/plant-based-cocoa-frosting",
    "creams-and-ganache/coating-ganache",
    "creams-and-ganache/cream-cheese-frosting",
    "creams-and-ganache/lemon-curd-filling",
)
"""Their two remedies do something in common, such as warming and stirring, so that each could help with both signs."""


@pytest.mark.parametrize(
    "remedy",
    [
        "Leave it in a warm place until it is soft.",
        "Leave it in a warm place for three hours, then refrigerate.",
        "Keep it over warm water until the others are ready.",
        "Let it sit out overnight and beat again.",
        "Warm it gently for 40 min.",
        "Warm it for thirty minutes, stirring.",
        "Beat in an egg yolk.",
        "Whisk in one more egg white and go on.",
        "Let it come to room temperature in a warm kitchen for 2 hours and refrigerate.",
    ],
)
def test_a_remedy_that_a_class_should_not_try_is_never_printed(remedy):
    recipe, _ = troubles(MERINGUE)
    assert not is_safe(recipe, Trouble(sign="Soft.", remedy=remedy))
    changed = {**data(MERINGUE), "stages": [dict(stage) for stage in data(MERINGUE)["stages"]]}
    changed["stages"][0] = {**changed["stages"][0], "steps": [dict(changed["stages"][0]["steps"][0])]}
    more = [{"sign": "Soft.", "remedy": remedy}]
    changed["stages"][0]["steps"][0]["checkpoint"] = {"passes": ["Clear."], "troubles": more}
    for seed in range(10):
        assert all(remedy not in one.choices for one in diagnoses([recipe_from(changed)], str(seed)))


@pytest.mark.parametrize("name", NAMES)
def test_the_remedies_of_the_demo_can_be_printed(name):
    """Each was read: none keeps food warm for long, and none adds egg."""
    recipe, listed = troubles(name)
    assert [trouble.remedy for trouble in listed if not is_safe(recipe, trouble)] == []


PAIR = (MERINGUE, EVERYDAY)


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("names", [*((name,) for name in NAMES), PAIR], ids="+".join)
def test_a_test_has_eight_questions_whose_answers_follow_from_the_recipes(names, level):
    for seed in ("1", "2", "spring"):
        found = final_test(of_demo(*names), seed, level)
        assert len(found) == 8
        assert len({one.question for one in found}) == 8
        for one in found:
            check_answer(names, one)


def check_answer(names, one):
    if one.choices:
        check_choices(one)
    title = [name for name in names if data(name)["title"] in one.question]
    assert len(title) == 1, one.question
    recipe = recipe_from(data(title[0]))
    if one.topic == "what holds it":
        assert one.answer[3:].replace("solid ", "") in card(title[0])["why.holds"].lower()
    elif one.topic == "fat":
        grams = {i.name: i.mass_g * (i.food.content("fat_g") or 0) for i in recipe.ingredients}
        assert one.answer[3:] == max(grams, key=grams.__getitem__)
    elif one.topic == "temperature":
        stage, step = map(int, re.search(r"step (\d+)\.(\d+)", one.question).groups())
        written = data(title[0])["stages"][stage - 1]["steps"][step - 1]["heat_to"]
        assert one.answer[3:].startswith(f"{written} (")
    elif one.topic == "what it is for":
        name = re.match(r"What is the job of (.*) in", one.question)[1]
        assert [one.answer[3:]] == [i.role for i in recipe.ingredients if i.name == name]
    elif one.topic.startswith("why, step "):
        stage, step = map(int, one.topic.removeprefix("why, step ").split("."))
        assert one.answer == plain_text(recipe.stages[stage - 1].steps[step - 1].why)
    else:
        assert one.topic in ("a portion", "fat of a portion", "density", "water that boils off", "more batches")
    if one.topic not in ("fat",) and not one.choices:
        for line in one.working:
            check_sum(line)


@given(
    st.sampled_from(FAMILIES), st.integers(0, 400), st.text("abc123", min_size=1, max_size=5), st.sampled_from(LEVELS)
)
@settings(max_examples=60, deadline=None)
def test_random_recipes_have_sheets_that_can_be_answered(family, number, seed, level):
    both = known(
        random_recipe(family, number), {**random_recipe(FAMILIES[number % 13], number + 1), "title": "Another"}
    )
    for recipes in (both[:1], both):
        found = final_test(recipes, seed, level)
        assert len({one.question for one in found}) == len(found) == 8
        assert found == final_test(recipes, seed, level)
        for one in [*found, *predictions(recipes, seed)]:
            assert one.answer
            if one.choices:
                check_choices(one)
        rows = goal_rows(recipes, level)
        assert rows[0][0] == "weighing and planning"
        assert not any("{" in cell for row in rows for cell in row)
    (holds,) = [one for one in final_test(both[:1], seed, level) if one.topic == "what holds it"] or [None]
    if holds:
        groups = {one.food.group for one in both[0][0].weighed}
        assert "egg" in groups or "egg" not in holds.answer


@pytest.mark.parametrize(
    ("kinds", "never"),
    [
        (("cocoa_butter", "sugar_powdered"), "cocoa butter"),
        (("gelatin_sheet_fr", "water_tap"), "gelatine"),
        (("mascarpone", "cream_double"), "the curd of the cheese"),
        (("butter_unsalted", "egg_white_raw"), "a foam of egg white"),
        (("cream_heavy_whipping", "butter_unsalted"), "clumped fat around the bubbles"),
        (("cream_heavy_whipping", "butter_unsalted"), "a frame of solid fat"),
        (("flour_t55", "butter_unsalted"), "starch"),
    ],
)
def test_what_an_ingredient_could_bring_is_never_a_wrong_answer(kinds, never):
    fields = {
        **random_recipe("other", 1),
        "ingredients": {kind: {"kind": kind, "amount": "200 g"} for kind in kinds},
        "stages": [{"title": "Bowl", "steps": [{"do": "Beat.", "add": list(kinds)}]}],
    }
    for seed in range(12):
        for one in final_test(known(fields), str(seed), LEVELS[1]):
            if one.topic == "what holds it":
                assert never not in set(one.choices) - {one.answer[3:]}


def test_parts_can_be_left_out_one_by_one():
    names = dict(zip(("recipe", "second"), map(data, PAIR), strict=True))
    of_part = {
        "prediction": lambda shown: "Prediction before you mix" in [sheet["title"] for sheet in shown["worksheets"]],
        "diagnosis": lambda shown: "Three spoiled batches" in [sheet["title"] for sheet in shown["worksheets"]],
        "test": lambda shown: "Test" in [sheet["title"] for sheet in shown["worksheets"]],
        "exercises": lambda shown: "Swiss meringue buttercream" in [sheet["title"] for sheet in shown["worksheets"]],
        "tasting": lambda shown: bool(shown["tastings"]),
        "goals": lambda shown: any(guide["goals"] for guide in shown["guides"]),
        "rubric": lambda shown: any(guide["rubric"] for guide in shown["guides"]),
    }
    assert set(of_part) == set(PARTS)
    whole = run("handout", context_from(names))[1]
    assert all(is_there(whole) for is_there in of_part.values())
    assert Lesson().not_printed == frozenset()
    for part in PARTS:
        shown = run("handout", context_from(names), {}, {part: "leave out"})[1]
        assert {name for name, is_there in of_part.items() if is_there(shown)} == set(PARTS) - {part}
    neither = run("handout", context_from(names), {}, {"goals": "leave out", "rubric": "leave out"})[1]
    assert neither["guides"] == []


def test_a_rubric_has_four_levels_and_fits_what_the_recipes_have():
    rubric = {
        row[0]: row[1:] for row in run("handout", context_from({"recipe": data(MERINGUE)}))[1]["guides"][0]["rubric"]
    }
    assert list(rubric) == ["organisation", "hygiene", "technique", "product", "explanation"]
    assert all(len(set(levels)) == 4 for levels in rubric.values())
    assert "also after egg" in rubric["hygiene"][2]
    assert "measures the temperatures" in rubric["technique"][2]
    plain = random_recipe("glaze or icing", 3)
    (guide,) = run("handout", context_from({"recipe": plain}))[1]["guides"]
    words = " ".join(cell for row in guide["rubric"] for cell in row)
    assert not re.search(r"egg|temperatures|checkpoint|look for", words)


def test_a_tasting_record_asks_for_what_may_be_there():
    """Sour and bitter tastes, and flavours, only where an ingredient may bring them."""

    def asked(name):
        return {row[1] for row in attributes([batch_of(recipe_from(data(name)))])}

    lemon, ganache = asked("creams-and-ganache/lemon-curd-filling"), asked("creams-and-ganache/coating-ganache")
    assert {"sour", "lemon", "firmness", "fat feel", "sweet"} <= lemon
    assert "bitter" not in lemon
    assert {"bitter", "chocolate", "honey"} <= ganache
    assert not {"sour", "vanilla"} & ganache
