"""The trial calculator: the file of a batch that was changed on its card and noted at the bench."""

import copy

import pytest
from crumbcoat_calc.calculators import run, solve
from crumbcoat_calc.calculators.batch import calculate as batch_answer
from crumbcoat_calc.calculators.batch import read as batch_question
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.forms.trial_notes import note_fields
from crumbcoat_calc.trials.notebook import notebook_of
from crumbcoat_calc.trials.reading import trial_from
from crumbcoat_site.recipe_cards.source.yaml_text import read_document
from hypothesis import given
from hypothesis import strategies as st

RECIPE = {
    "title": "Lemon cream", "summary": "Butter and cream.", "author": "the tests", "family": "other",
    "yield": {"portions": "10", "of": "cupcakes"},
    "ingredients": {
        "butter": {
            "kind": "butter_unsalted", "amount": "200 g", "portions": {"first": "150 g", "second": "50 g"},
            "temperature": "18 °C",
            "replacements": {"soya": {"name": "soya spread", "composition": {"fat": "80 %"}, "grams_per_gram": "0.9"}},
        },
        "cream": {"kind": "cream_heavy_whipping", "amount": "1 US cup", "kept_back": {"rescue": "40 g"}},
        "sugar": {"kind": "sugar_powdered", "amount": "120 g"},
        "yolk": {"kind": "egg_yolk_raw", "amount": "2 large", "kept_back": {"spare": "1 large"}},
        "zest": {"kind": "lemon_zest", "amount": "6 g", "portions": {"a": "2 g", "b": "2 g", "c": "2 g"}},
        "rum": {"kind": "rum_80_proof", "amount": "10 g", "optional": "yes"},
    },
    "stages": [
        {
            "title": "Heat",
            "makes": "base",
            "steps": [
                {"do": "Heat.", "add": ["cream", "butter/first", "zest/a"], "heat_to": "80 °C", "water_lost": "5 g",
                 "checkpoint": {"passes": ["It steams.", "It is smooth."],
                                "troubles": [{"sign": "It is *thick*.", "remedy": "Add the cream: all of it.",
                                              "add": "cream/rescue"}]}},
                {"do": "Infuse.", "add": "zest/b", "optional": "yes", "time": "5 min"},
            ],
        },
        {
            "title": "Beat",
            "steps": [
                {"do": "Beat.", "add": ["base", "sugar"], "tool": "mixer", "speed": "high", "time": "3 to 4 min"},
                {"do": "Add the yolk.", "add": ["yolk", "zest/c"], "optional": "yes", "speed": "low",
                 "checkpoint": {"passes": ["It is pale."],
                                "troubles": [{"sign": "It splits.", "remedy": "Add one.", "add": "yolk/spare"},
                                             {"sign": "It is soft.", "remedy": "Chill it."}]}},
                {"do": "Enrich.", "add": ["butter/second"], "optional": "yes"},
                {"do": "Add the rum.", "add": ["rum"], "optional": "yes"},
            ],
        },
    ],
}  # fmt: skip
CONTEXT = context_from({"recipe": RECIPE, "trial": {"recipe": "0a1b2c3d"}})
DATE = {"trial.date": "2026-11-24"}

HOSTILE = (
    "a: b", "# no comment", "- a dash", "'quoted'", '"twice"', "back\\slash", "{a: 1}", "[1, 2]", "*anchor", "&x",
    "!tag", "yes", "null", "~", "1.5", "%", "@", "`", "🍋 zest", "\u200fright to left\u200e", "tab\there", "---",
    "...", "? key", "a #b", "| block", "> fold", "two\nlines: here\n- x", "0x1F", "café ½", "=",
)  # fmt: skip


def texts(state=None, **edit):
    edit = {name.replace("__", "."): value for name, value in edit.items()}
    return run("trial", CONTEXT, {**DATE, **(state or {})}, edit)[1]


def made(state, context=CONTEXT):
    """The file as it is read, and the trial that it is."""
    file = run("trial", context, {**DATE, **state})[1]["file.trial"]
    data = read_document(file, "a trial").data
    notebook = notebook_of(RECIPE, {}, [("1.yaml", trial_from(data))])
    assert not notebook.problems, (notebook.problems, file)
    return data, notebook.made[0]


def test_a_batch_as_published_needs_nothing_but_a_date():
    assert texts()["file.trial"] == "number: 1\ndate: 2026-11-24\nrecipe: 0a1b2c3d\n"
    assert run("trial", CONTEXT)[1]["file.trial"] == ""


def test_on_the_card_of_a_trial_the_file_comes_from_it_with_only_the_differences():
    _, first = made({"amount.sugar": "110", "without.rum": "yes", "trial.number": "3"})
    context = context_from({"recipe": first.planned, "trial": {"from": "3", "number": "7"}})
    file = run("trial", context, {**DATE, "amount.sugar": "90"})[1]
    assert file["trial.name"] == "7.yaml"
    assert file["file.trial"] == ("number: 7\ndate: 2026-11-24\nfrom: 3\nchanged:\n  ingredients:\n    sugar: 90 g\n")
    trials = [first.trial, trial_from(read_document(file["file.trial"], "a trial").data)]
    notebook = notebook_of(RECIPE, {}, [(f"{trial.number}.yaml", trial) for trial in trials])
    second = notebook.made[1]
    assert second.before.trial.number == 3
    amounts = {one.key: one.mass_g for one in second.recipe.ingredients}
    assert "rum" not in amounts
    assert amounts["sugar"] == 90


@pytest.mark.parametrize("data", [{"from": "v1"}, {"from": "0"}, {"number": "x"}, {"mark": "0a1b2c3d"}])
def test_what_a_trial_begins_with_is_checked(data):
    with pytest.raises(InputError) as caught:
        context_from({"recipe": RECIPE, "trial": data})
    assert caught.value.path[0] == "trial"


def test_only_differences_are_written_for_one_batch():
    data, _ = made(
        {"factor": "2", "amount.sugar": "110", "without.rum": "yes", "temperature.butter": "20", "skip.0.1": "yes"}
    )
    assert data["changed"] == {
        "ingredients": {
            "butter": {"temperature": "20 °C"},
            "sugar": "110 g",
            "zest": {"amount": "4 g", "portions": {"a": "2 g", "c": "2 g"}},
        },
        "steps": {"1.2": "left out", "2.4": "left out"},
    }
    assert texts({"factor": "2"})["file.trial"].startswith(
        "# 2 batches were made at once. Amounts and masses are for one."
    )


def test_what_was_kept_back_and_used_goes_in_at_its_checkpoint():
    data, trial = made({"used.cream.rescue": "yes"})
    assert data["changed"]["ingredients"] == {
        "cream_rescue": {"kind": "cream_heavy_whipping", "amount": "40 g", "add_at": "1.1"}
    }
    assert trial.batch.total.mass_g == pytest.approx(batch_of({"used.cream.rescue": "yes"}).total.mass_g)


def test_everything_that_is_noted_is_in_the_file():
    data, trial = made(
        {
            "factor": "2", "cup": "metric_cup", "cup_weighs": "210", "ph": "6.1",
            "chilled_from": "30", "chilled_to": "20", "chilled_minutes": "25",
            "trial.number": "4", "trial.letters": "bcdf", "trial.who": "bench two", "trial.aim": "Less sugar?",
            "trial.weighed.sugar": "242 g", "trial.after.0.t_c": "176 °F", "trial.after.0.mass": "960",
            "trial.finished.t_c": "-2", "trial.finished.brix": "48.5 °Bx", "trial.finished.note": "after an hour",
            "trial.mixed.1.0.from_c": "18", "trial.mixed.1.0.to_c": "21", "trial.mixed.1.0.time": "2:30",
            "trial.right.0.0": "yes", "trial.seen.0.0.0": "did not work", "trial.seen.1.1.1": "seen",
            "trial.keeping.did": "wept", "trial.keeping.t_c": "4", "trial.keeping.time": "3 days",
            "trial.keeping.weeping": "2", "trial.piping.did": "held", "trial.piping.rosettes": "14",
            "trial.tasted.0.attribute": "liking", "trial.tasted.0.marks": "7, 8 6",
            "trial.did": "wept", "trial.verdict": "go on from here", "trial.because": "It weeps.",
        }
    )  # fmt: skip
    assert (data["number"], data["who"], data["aim"]) == ("4", "bench two", "Less sugar?")
    assert data["weighed"] == {"sugar": "121 g"}
    assert data["readings"] == [
        {"at": "1", "temperature": "80 °C", "mass": "480 g"},
        {
            "temperature": "-2 °C", "cup": "metric cup", "cup_weighs": "210 g", "ph": "6.1", "brix": "48.5",
            "note": "after an hour",
        },
    ]  # fmt: skip
    assert data["mixing"] == [{"at": "2.1", "from": "18 °C", "to": "21 °C", "time": "2.5 min"}]
    assert data["chilling"] == [{"from": "30 °C", "to": "20 °C", "cold": "4 °C", "time": "25 min"}]
    assert data["seen"] == [
        {"at": "1.1", "sign": "It is *thick*.", "remedy": "Add the cream: all of it.", "worked": "no"},
        {"at": "1.1", "sign": "It steams. It is smooth."},
        {"at": "2.2", "sign": "It is soft."},
    ]
    assert data["tests"] == [
        {"test": "keeping", "temperature": "4 °C", "time": "3 days", "weeping": "2 mm", "did": "wept"},
        {"test": "piping", "rosettes": "14", "did": "held"},
    ]
    assert data["tasted"] == [{"attribute": "liking", "marks": ["7", "8", "6"]}]
    assert (data["did"], data["verdict"], data["because"]) == ("wept", "go on from here", "It weeps.")
    assert trial.trial.readings[0].mass_g == 480
    assert trial.trial.readings[1].density_g_per_ml == pytest.approx(0.84)


def test_the_name_of_the_file_has_the_number_and_the_letters_of_the_device():
    assert texts()["trial.name"] == "1.yaml"
    assert texts({"trial.number": "3", "trial.letters": "bcdf"})["trial.name"] == "3-bcdf.yaml"


@pytest.mark.parametrize(
    ("state", "problem"),
    [
        ({"trial.keeping.time": "3 days"}, "Keeping: choose what it did, or empty the other fields of this test."),
        (
            {"trial.mixed.1.0.to_c": "3"},
            "Mixing in step 2.1: give both temperatures and the time, or empty these fields.",
        ),
        ({"chilled_to": "20"}, "Chilling: give both temperatures and the time, or empty these fields."),
        (
            {"chilled_from": "10", "chilled_to": "20", "chilled_minutes": "9"},
            "Chilling: the batch must end colder than it began, and warmer than the place where it was.",
        ),
        ({"trial.tasted.1.marks": "7"}, "Tasting, line 2: give what was marked and the marks, or empty the line."),
        (
            {"trial.weighed.rum": "9", "without.rum": "yes"},
            "Weighed: rum, 40 % vol is not in this batch, so empty its field, or put it back.",
        ),
    ],
)
def test_what_is_half_noted_keeps_the_file_back_and_says_why(state, problem):
    found = texts(state)
    assert (found["trial.open"], found["file.trial"]) == (problem, "")
    own = {name: value for name, value in state.items() if name.startswith("trial.")}
    assert {name: found[name] for name in own} == own


@pytest.mark.parametrize(
    ("name", "value", "problem"),
    [
        ("trial.number", "0", "'0' is not a whole number from 1 to 9999"),
        ("trial.date", "yesterday", "'yesterday' is not a date"),
        ("trial.finished.t_c", "warm", "'warm' does not start with a number"),
        ("trial.finished.brix", "120", "'120 %' is more than 100 %"),
        ("trial.finished.water_activity", "1.2", "'1.2' is too large"),
        ("trial.keeping.time", "3", "'3' has no unit"),
        ("trial.piping.rosettes", "2.5", "'2.5' is not a whole number from 0 to 1000"),
        ("trial.keeping.did", "melted", "'melted' is not an option here"),
        ("trial.tasted.0.marks", "7, 12", "'12' is not a whole number from 1 to 9"),
        ("trial.weighed.sugar", "0", "nothing was weighed here"),
        ("trial.seen.0.0.7", "seen", "the recipe has no such place to note anything"),
        ("trial.because", "a\x00b", "the text contains a character that cannot be displayed, U+0000"),
    ],
)
def test_an_entry_that_cannot_be_used_is_refused_at_its_field(name, value, problem):
    with pytest.raises(InputError) as caught:
        run("trial", CONTEXT, DATE, {name: value})
    assert (caught.value.problem, ".".join(map(str, caught.value.path))) == (problem, name)
    assert caught.value.remedy


def test_an_empty_field_takes_a_note_back():
    assert run("trial", CONTEXT, {"trial.who": "me"}, {"trial.who": " "})[0] == {}


@pytest.mark.parametrize("words", HOSTILE)
def test_hostile_words_come_back_as_they_were_typed(words):
    names = ("trial.aim", "trial.because", "trial.finished.note", "trial.keeping.note")
    data, _ = made(dict.fromkeys(names, words) | {"trial.finished.t_c": "20", "trial.keeping.did": "held"})
    assert [data["aim"], data["because"]] == [words, words]
    assert [data["readings"][0]["note"], data["tests"][0]["note"]] == [words, words]
    assert made({"trial.who": words, "trial.tasted.0.attribute": words, "trial.tasted.0.marks": "5"})[0][
        "who"
    ] == " ".join(words.split())


def test_notes_on_a_site_for_the_us_stay_as_they_are_typed():
    context = context_from({"recipe": RECIPE, "region": "US"})
    state, found = run("trial", context, DATE, {"trial.aim": "At 4 °C?", "trial.finished.t_c": "68"})
    assert (state["trial.finished.t_c"], found["trial.finished.t_c"], found["trial.aim"]) == ("20", "68", "At 4 °C?")
    assert "temperature: 20 °C" in found["file.trial"]


def batch_of(state):
    return batch_answer(batch_question(CONTEXT, state)).batch


BATCH = st.fixed_dictionaries(
    {},
    optional={
        "factor": st.sampled_from(["0.5", "2", "3.3"]),
        **{
            f"amount.{key}": st.floats(0, 900).map(lambda mass: f"{mass:.3f}")
            for key in ("butter", "cream", "sugar", "yolk", "zest", "rum")
        },
        "without.rum": st.just("yes"),
        "instead.butter": st.sampled_from(["soya", "kind:butter_salted"]),
        "instead.cream": st.just("kind:milk_whole"),
        "instead.yolk": st.just(""),
        **{f"skip.{place}": st.just("yes") for place in ("0.1", "1.1", "1.2", "1.3")},
        "used.cream.rescue": st.just("yes"),
        "used.yolk.spare": st.just("yes"),
        "temperature.butter": st.integers(1, 40).map(str),
        "temperature.cream": st.integers(1, 40).map(str),
    },
)


@given(BATCH)
def test_the_file_makes_the_batch_of_the_card(state):
    try:
        card = batch_of({name: value for name, value in state.items() if name != "factor"})
    except InputError:
        return
    before = copy.deepcopy(RECIPE)
    _, trial = made(state)
    assert before == RECIPE
    for mine, theirs in zip(trial.batch.vessels, card.vessels, strict=True):
        assert mine.water_lost_g == pytest.approx(theirs.water_lost_g)
        assert mine.mixture.mass_g == pytest.approx(theirs.mixture.mass_g, abs=1e-6)
        for figure in ("fat_g", "water_g", "sugars_g"):
            assert mine.mixture.percent(figure) == pytest.approx(theirs.mixture.percent(figure), abs=1e-6)


NOTES = st.fixed_dictionaries(
    {},
    optional={
        "trial.aim": st.text(max_size=60),
        "trial.who": st.text(max_size=20),
        "trial.because": st.sampled_from(HOSTILE),
        "trial.finished.t_c": st.floats(-30, 120).map(lambda t_c: f"{t_c:.2f}"),
        "trial.after.0.mass": st.floats(0, 2000).map(lambda mass: f"{mass:.1f} g"),
        "trial.finished.spread": st.integers(0, 90).map(lambda mm: f"{mm} mm"),
        "trial.keeping.did": st.sampled_from(["held", "too soft"]),
        "trial.did": st.sampled_from(["held", "split"]),
        "trial.verdict": st.sampled_from(["drop", "publish"]),
    },
)


@given(NOTES, BATCH)
def test_a_form_state_is_written_in_one_way_and_every_file_can_be_read(notes, batch):
    try:
        batch_of(batch)
        once = solve("trial", CONTEXT, {}, {**batch, **notes, **DATE}).state
    except InputError:
        return
    assert solve("trial", CONTEXT, {}, once).state == once
    made(once)


def test_there_is_a_text_for_every_field():
    found = texts()
    assert all(f"trial.{name}" in found for name in note_fields(CONTEXT.published.recipe))
