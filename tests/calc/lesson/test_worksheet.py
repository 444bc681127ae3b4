"""Answer keys, recomputed from the printed text in exact fractions, without any number from calc."""

import re
from fractions import Fraction
from math import floor

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.table import foods
from crumbcoat_calc.lesson.worksheet import worksheet
from crumbcoat_calc.recipe.batch import batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from hypothesis import given, settings
from hypothesis import strategies as st


def _recipe(ingredients, **step):
    return recipe_from(
        {
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
    }
)
CUSTARD = _recipe(
    {
        "milk": {"kind": "milk_whole", "name": "milk", "amount": "250 g"},
        "yolk": {"kind": "egg_yolk_raw", "name": "yolk", "amount": "51 g"},
        "butter": {"kind": "butter_unsalted", "name": "butter", "amount": "200 g"},
        "sugar": {"kind": "sugar_granulated", "name": "sugar", "amount": "90 g"},
    },
    water_lost="20 g",
)


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


@given(st.text(max_size=20), st.sampled_from([FROSTING, CUSTARD]))
@settings(max_examples=60)
def test_every_answer_key_can_be_recomputed_from_what_is_printed(seed, recipe):
    sheet = worksheet(batch_of(recipe), seed)
    assert [one.topic for one in sheet.exercises] == [
        "fat percentage", "Pearson square", "scaling", "syrup strength", "overrun",
    ]  # fmt: skip
    _check_key(sheet)


def _exercise(recipe, topic, seed="group 1"):
    return next(one for one in worksheet(batch_of(recipe), seed).exercises if one.topic == topic)


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
def test_pearson_square_gives_the_wanted_fat(seed):
    """Checked with the mass balance: the fat of both parts, divided by the total."""
    exercise = _exercise(CUSTARD, "Pearson square", seed)
    high, low, total, wanted = _numbers(exercise.question)
    of_high, of_low = _numbers(exercise.answer)
    assert of_high + of_low == total
    assert float((of_high * high + of_low * low) / total) == pytest.approx(float(wanted), abs=0.05)
    assert (high, low) == (Fraction("81.1"), Fraction("3.3")), "butter and milk by usda-sr28"


@pytest.mark.parametrize("seed", ["a", "b", "c"])
def test_parts_of_the_square_are_those_of_the_published_example(seed):
    """Reference example WE1 (Guelph): 40 % cream thinned to 32 % with skim milk: 32 and 8 parts, 160 and 40 kg."""
    high, low, _, wanted = _numbers(_exercise(CUSTARD, "Pearson square", seed).question)
    lines = _exercise(CUSTARD, "Pearson square", seed).working
    square = lambda high, low, wanted: (wanted - low, high - wanted)  # noqa: E731
    assert square(40, 0, 32) == (32, 8)
    assert (_numbers(lines[0])[-1], _numbers(lines[1])[-1]) == square(high, low, wanted)


def test_overrun_of_the_published_example():
    """Reference example WE7: 1 L of mix becomes 1.5 L, 50 % overrun; the form of the sum is the same by mass."""
    for group in range(20):
        exercise = _exercise(FROSTING, "overrun", f"group {group}")
        _, mix_g, foam_g, _ = _numbers(exercise.question)
        overrun = _numbers(exercise.answer)[0]
        volume_ratio = mix_g / foam_g  # for equal cups, volumes are in the inverse ratio of the masses
        assert float(overrun) == pytest.approx(float(100 * (volume_ratio - 1)), abs=0.05)


def test_overrun_uses_the_measured_density():
    sheet = worksheet(batch_of(FROSTING), "group 1", foam_g_per_ml=0.8)
    overrun = next(one for one in sheet.exercises if one.topic == "overrun")
    assert "200 g after" in overrun.question
    assert overrun.answer.endswith("0.80 g/mL")


def test_a_dense_frosting_has_no_overrun():
    sheet = worksheet(batch_of(FROSTING), "group 1", foam_g_per_ml=1.2)
    assert dict(sheet.left_out)["overrun"] == "it is too dense for a whipped frosting"


def test_pearson_square_takes_main_ingredients():
    assert "vanilla" not in _exercise(FROSTING, "Pearson square").question


def test_groups_get_different_numbers_and_a_seed_always_gives_the_same():
    keys = [worksheet(batch_of(FROSTING), f"class/{group}").exercises for group in range(1, 9)]
    for topic in range(5):
        assert len({key[topic].question for key in keys}) >= 4
    assert worksheet(batch_of(FROSTING), "class/1").exercises == keys[0]


def test_what_a_seed_draws_never_changes():
    """Pinned: an answer key printed today must match a sheet printed last year."""
    assert _exercise(FROSTING, "scaling", "pinned").working[1] == "factor: 1260 g / 601.2 g = 2.096"


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
            "its ingredients have too similar fat contents",
            id="similar fat contents",
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


def test_absurd_density():
    with pytest.raises(InputError) as caught:
        worksheet(batch_of(FROSTING), "group 1", foam_g_per_ml=9.0)
    assert caught.value.path == ("density",)
