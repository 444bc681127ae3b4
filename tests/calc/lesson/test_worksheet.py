"""Answer keys, recomputed from the printed text in exact fractions, without any number from calc."""

import re
from fractions import Fraction
from math import floor

import pytest
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.lesson.lesson import LEVELS
from crumbcoat_calc.lesson.worksheet import worksheet as worksheet_of
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.texts.sheets import card_figures
from hypothesis import given, settings
from hypothesis import strategies as st


def worksheet(batch, seed, level=LEVELS[2]):
    return worksheet_of(batch, card_figures(batch), seed, level)


def _recipe(ingredients, density=None, **step):
    measured = {"made": "1", "measured": {"density": f"{density} g/mL"}} if density else {}
    return recipe_from(
        measured
        | {
            "title": "Test", "summary": "For a test.", "author": "the tests", "family": "other",
            "yield": {"portions": "8", "of": "portions"},
            "ingredients": ingredients,
            "stages": [{"title": "Beat", "steps": [{"do": "Beat.", "add": list(ingredients), **step}]}],
        }
    )  # fmt: skip


FROSTING = _recipe(
    {
        "butter": {"kind": "butter_salted", "name": "salted butter", "amount": "227 g"},
        "sugar": {"kind": "sugar_powdered", "name": "icing sugar", "amount": "340 g"},
        "cream": {"kind": "cream_heavy_whipping", "name": "cream, 36 % fat", "amount": "30 g"},
        "vanilla": {"kind": "vanilla_extract", "name": "vanilla", "amount": "4.2 g"},
    },
    density="0.8", tool="stand mixer, whisk", speed="medium",
)  # fmt: skip
CUSTARD = _recipe(
    {
        "milk": {"kind": "milk_whole", "name": "milk", "amount": "250 g"},
        "yolk": {"kind": "egg_yolk_raw", "name": "yolk", "amount": "51 g"},
        "butter": {"kind": "butter_unsalted", "name": "butter", "amount": "200 g"},
        "sugar": {"kind": "sugar_granulated", "name": "sugar", "amount": "90 g"},
    },
    density="0.8", water_lost="20 g", tool="stand mixer, whisk", speed="medium",
)  # fmt: skip


def _numbers(text):
    return [Fraction(one) for one in re.findall(r"(?<![\d.])\d+(?:\.\d+)?", text)]


def _value(sum_text):
    """A sum as printed, with its units, as an exact fraction."""
    bare = re.sub(r"\b(g/mL|g|mL)\b|%", "", sum_text).replace("×", "*").replace("−", "-")
    assert re.fullmatch(r"[\d.+\-*/() ]+", bare), bare
    return Fraction(
        eval(re.sub(r"\d+(?:\.\d+)?", lambda number: f"Fraction('{number[0]}')", bare), {"Fraction": Fraction})
    )


def _checked(line):
    """The result printed on a line, checked against the sum printed before it."""
    sum_text, result = line.rsplit(": ", 1)[1].split(" = ")
    (printed,) = _numbers(result)
    digits = len(re.search(r"\d+(?:\.(\d+))?", result)[1] or "")
    rounded = Fraction(floor(_value(sum_text) * 10**digits + Fraction(1, 2)), 10**digits)
    assert rounded == printed, f"{line}, should be {float(rounded)}"
    return printed


def _check_key(sheet):
    for exercise in sheet.exercises:
        results = [_checked(line) for line in exercise.working]
        for number in _numbers(re.sub(r"cream, 36 % fat", "", exercise.answer)):
            assert number in results, f"{exercise.answer} is not a result of the working"
        in_question = _numbers(exercise.question)
        in_first_line = _numbers(exercise.working[0].rsplit(": ", 1)[1])
        assert set(in_first_line[:-1]) - {100} <= {*in_question}, "the working starts with numbers from the question"


TOPICS = {
    LEVELS[0]: ["more batches", "sharing out", "part of the whole"],
    LEVELS[1]: ["fat percentage", "scaling", "overrun"],
    LEVELS[2]: ["fat percentage", "Pearson square", "syrup strength", "overrun"],
}


@given(st.text(max_size=20), st.sampled_from([FROSTING, CUSTARD]), st.sampled_from(LEVELS))
@settings(max_examples=90)
def test_every_answer_key_can_be_recomputed_from_what_is_printed(seed, recipe, level):
    sheet = worksheet(batch_of(recipe), seed, level)
    missing = ["Pearson square", "syrup strength"] if recipe is FROSTING else []
    assert [one.topic for one in sheet.exercises] == [
        one for one in TOPICS[level] if one != "syrup strength" or one not in missing
    ]
    _check_key(sheet)


def _exercise(recipe, topic, seed="group 1", level=LEVELS[2]):
    return next(one for one in worksheet(batch_of(recipe), seed, level).exercises if one.topic == topic)


@given(st.text(max_size=20))
@settings(max_examples=30)
def test_fat_percentage_is_that_of_the_table(seed):
    """usda-sr28: (227 x 81.11 + 30 x 36.08 + 4.2 x 0.06) / 601.2 = 32.4 %; masses are whole grams, so within 0.6."""
    (percent,) = _numbers(_exercise(FROSTING, "fat percentage", seed).answer)
    assert float(percent) == pytest.approx(32.4, abs=0.6)


def test_water_that_boils_off_is_subtracted_from_the_batch():
    exercise = _exercise(CUSTARD, "fat percentage")
    assert "of water boils off" in exercise.question
    batch = next(line for line in exercise.working if line.startswith("batch"))
    weighed_and_lost = _numbers(batch)
    assert float(weighed_and_lost[-2] / sum(weighed_and_lost[:-2])) == pytest.approx(20 / 591, rel=0.05)


@given(st.text(max_size=20))
@settings(max_examples=30)
def test_a_pearson_square_makes_the_milk_of_the_recipe_from_cream_and_skimmed_milk(seed):
    """Checked with the mass balance; usda-sr28: cream 36.1 %, skimmed milk 0.1 %, whole milk 3.3 % fat."""
    exercise = _exercise(CUSTARD, "Pearson square", seed)
    total, wanted, high, low = _numbers(exercise.question)
    of_high, of_low = _numbers(exercise.answer)
    assert of_high + of_low == total
    assert float((of_high * high + of_low * low) / total) == pytest.approx(float(wanted), abs=0.05)
    assert (high, low, wanted) == (Fraction("36.1"), Fraction("0.1"), Fraction("3.3"))


@given(st.text(max_size=20))
@settings(max_examples=30)
def test_a_pearson_square_thins_the_cream_of_the_recipe_with_milk_and_it_still_whips(seed):
    """hoffmann-2011: cream whips without trouble from 30 % fat on."""
    whipped = _recipe({"cream": {"kind": "cream_heavy_whipping", "name": "cream", "amount": "500 g"}})
    exercise = _exercise(whipped, "Pearson square", seed)
    high, low, total, wanted = _numbers(exercise.question)
    of_high, of_low = _numbers(exercise.answer)
    assert (high, low) == (Fraction("36.1"), Fraction("3.3"))
    assert 30 <= wanted < high
    assert float((of_high * high + of_low * low) / total) == pytest.approx(float(wanted), abs=0.05)


def test_parts_of_the_square_are_those_of_the_published_example():
    """Reference example WE1 (Guelph): 40 % cream thinned to 32 % with skim milk: 32 and 8 parts, 160 and 40 kg."""
    _, wanted, high, low = _numbers(_exercise(CUSTARD, "Pearson square").question)
    lines = _exercise(CUSTARD, "Pearson square").working
    square = lambda high, low, wanted: (wanted - low, high - wanted)  # noqa: E731
    assert square(40, 0, 32) == (32, 8)
    assert tuple(_numbers(line)[-1] for line in lines[:2]) == square(high, low, wanted)


def test_only_milk_and_cream_are_mixed():
    """Butter with icing sugar, or cream with chocolate, gives no mixture that anybody makes for its fat."""
    sugar = {"sugar": {"kind": "sugar_powdered", "amount": "300 g"}}
    butter = {"butter": {"kind": "butter_unsalted", "amount": "200 g"}}
    chocolate = {"chocolate": {"kind": "chocolate_dark_60_69", "amount": "200 g"}}
    for ingredients in (sugar | butter, sugar | chocolate):
        left_out = dict(worksheet(batch_of(_recipe(ingredients)), "a").left_out)
        assert left_out["Pearson square"] == "it has neither milk nor cream to mix"


def test_overrun_of_the_published_example():
    """Reference example WE7: 1 L of mix becomes 1.5 L, 50 % overrun; the form of the sum is the same by mass."""
    for group in range(20):
        exercise = _exercise(FROSTING, "overrun", f"group {group}")
        foam_g, mix_g = map(Fraction, re.findall(r"(?:holds|hold) ([\d.]+) g", exercise.question))
        overrun, air = _numbers(exercise.answer)
        volume_ratio = mix_g / foam_g  # for equal cups, volumes are in the inverse ratio of the masses
        assert float(overrun) == pytest.approx(float(100 * (volume_ratio - 1)), abs=0.05)
        assert float(air) == pytest.approx(float(100 * (1 - 1 / volume_ratio)), abs=0.05)


def test_overrun_uses_the_measured_density():
    question = _exercise(FROSTING, "overrun").question
    cup, foam_g = _numbers(question)[:2]
    assert float(foam_g / cup) == pytest.approx(0.8, abs=0.005)
    assert "as its card says" in question


BUTTER = {
    "butter": {"kind": "butter_unsalted", "amount": "200 g"},
    "sugar": {"kind": "sugar_powdered", "amount": "9 g"},
}


@pytest.mark.parametrize(
    "step",
    [
        pytest.param({"density": "0.9"}, id="nobody beats it"),
        pytest.param({"density": "0.9", "tool": "stick blender", "speed": "high"}, id="blended"),
        pytest.param({"density": "0.9", "tool": "saucepan and whisk"}, id="stirred with a whisk"),
        pytest.param({"tool": "stand mixer, whisk", "speed": "high"}, id="no density is stated"),
        pytest.param({"density": "0.93", "tool": "stand mixer, whisk", "speed": "high"}, id="hardly any air"),
    ],
)
def test_there_is_no_overrun_where_no_air_is_known_to_be_in(step):
    left_out = dict(worksheet(batch_of(_recipe(BUTTER, **step)), "a").left_out)
    assert left_out["overrun"] == "its card does not say for certain how much air is beaten in"


def test_water_that_boils_off_is_counted_everywhere():
    lost = Fraction(20)
    scaling = _exercise(CUSTARD, "scaling", level=LEVELS[1])
    assert _numbers(scaling.working[1].rsplit(": ", 1)[1])[1] == Fraction(250 + 51 + 200 + 90) - lost
    shared = _exercise(CUSTARD, "sharing out", level=LEVELS[0])
    assert _numbers(shared.working[1].rsplit(": ", 1)[1])[0] == Fraction(250 + 51 + 200 + 90) - lost
    syrup = _exercise(CUSTARD, "syrup strength")
    assert any(line.startswith("water left: ") for line in syrup.working)


def test_groups_get_different_numbers_and_a_seed_always_gives_the_same():
    for level in LEVELS:
        keys = [worksheet(batch_of(CUSTARD), f"class/{group}", level).exercises for group in range(1, 9)]
        for topic in range(len(TOPICS[level])):
            assert len({key[topic].question for key in keys}) >= 3
        assert worksheet(batch_of(CUSTARD), "class/1", level).exercises == keys[0]


def test_what_a_seed_draws_never_changes():
    """Pinned: an answer key printed today must match a sheet printed last year."""
    assert _exercise(FROSTING, "scaling", "pinned", LEVELS[1]).working[1] == "factor: 1260 g / 601.2 g = 2.096"


@pytest.mark.parametrize(
    ("ingredients", "topic", "reason"),
    [
        pytest.param(
            {
                "sugar": {"kind": "sugar_granulated", "amount": "100 g"},
                "water": {"kind": "water_tap", "amount": "50 g"},
            },
            "fat percentage",
            "it contains no fat",
            id="no fat",
        ),
        pytest.param(
            {
                "sugar": {"kind": "sugar_granulated", "amount": "100 g"},
                "water": {"kind": "water_tap", "amount": "50 g"},
            },
            "Pearson square",
            "it has neither milk nor cream to mix",
            id="nothing to mix",
        ),
        pytest.param(
            {
                "coconut": {"kind": "coconut_cream_raw", "amount": "100 g"},
                "sugar": {"kind": "sugar_granulated", "amount": "9 g"},
            },
            "syrup strength",
            f"the amount of sugars in {foods()['coconut_cream_raw'].name} is not known",
            id="unknown sugars",
        ),
    ],
)
def test_a_topic_without_numbers_is_left_out_with_its_reason(ingredients, topic, reason):
    sheet = worksheet(batch_of(_recipe(ingredients)), "group 1")
    assert dict(sheet.left_out)[topic] == reason
    assert topic not in [one.topic for one in sheet.exercises]
    _check_key(sheet)


def test_open_questions_come_from_the_reasons_of_the_recipe():
    recipe = _recipe(BUTTER, why="It keeps *the fat* firm.")
    for level in LEVELS:
        *_, last = worksheet(batch_of(recipe), "a", level).exercises
        assert last.question == "Step 1.1 of Test: “Beat.” Why?"
        assert (last.working, last.answer) == ((), "It keeps the fat firm.")
