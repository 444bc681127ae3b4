"""The handout: amounts, shopping, plan and answers, recomputed here from what is printed."""

import itertools
import json
import re
from fractions import Fraction
from functools import cache
from math import floor
from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.calculators import run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.values.marks import plain_text
from hypothesis import given, settings
from hypothesis import strategies as st

FOLDER = Path(__file__).parents[3] / "recipes"
NAMES = sorted(path.relative_to(FOLDER).with_suffix("").as_posix() for path in FOLDER.glob("*/*.yaml"))
ICING, SILK = "buttercreams/icing-sugar-buttercream", "milk-emulsions/silk-milk-frosting"


@cache
def data(name):
    return yaml.load((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"), yaml.BaseLoader)


def texts(*names, **edit):
    context = context_from(dict(zip(("recipe", "second", "third", "fourth"), map(data, names), strict=False)))
    return run("handout", context, {}, {name.replace("__", "."): value for name, value in edit.items()})[1]


def grams(shown):
    """A mass as it is shown, in g: 2 digits below 1 g, 1 below 10 g, else whole; kg with 2 from 10 kg."""
    number, unit = shown.split()
    return Fraction(number) * (1000 if unit == "kg" else 1)


def half_a_digit(shown):
    number, unit = shown.split()
    places = len(number.partition(".")[2])
    return Fraction(1, 2) / 10**places * (1000 if unit == "kg" else 1)


@pytest.mark.parametrize("name", NAMES)
def test_a_group_lays_out_its_batch(name):
    batch = batch_of(recipe_from(data(name)), BatchOptions(factor=1.5))
    section = texts(name, batches="1.5")["recipes"][0]
    assert [row[0] for row in section["laid_out"]] == [one.name for one in batch.weighed]
    for row, one in zip(section["laid_out"], batch.weighed, strict=True):
        assert abs(grams(row[1]) - Fraction(one.mass_g)) <= half_a_digit(row[1]) + Fraction(1, 10**6)


def test_what_is_optional_and_how_many_eggs_to_break_is_on_the_sheet():
    """By hand, usda-sr28: a large egg white is 33 g; 5 are 165 g, 10 g more than the recipe's 155 g."""
    group = texts("buttercreams/swiss-meringue-buttercream")["recipes"][0]
    notes = {name: note for name, _, note in group["laid_out"]}
    assert notes["egg whites"].endswith("; 5 large egg whites; beat, then measure 155 g; about 10 g is left")
    assert notes["cream of tartar"] == "optional"
    how = {number: how for number, _, how in texts(SILK)["recipes"][0]["method"]}
    assert how["1.2"].startswith("optional; small bowl")
    assert [number for number, shown in how.items() if shown.startswith("optional")] == ["1.2"]


def test_it_says_that_it_is_made_for_the_recipe_as_published():
    found = texts(ICING, batches="1.5")
    assert found["made_from"].startswith("Made for 1.5 batches of the recipe as published in each group. ")
    assert found["recipes"][0]["makes"].startswith("Each group makes 1.5 batches as published: ")
    assert "1 batch of each recipe as published" in texts(ICING, SILK)["made_from"]


@pytest.mark.parametrize("groups", ["1", "7"])
def test_the_shopping_list_is_for_all_groups_and_what_is_left_fits(groups):
    """Needed is one batch times the groups; packs are whole; bought is needed and left: by the printed figures."""
    shown = {row[0]: row[1:] for row in texts(ICING, students="40", groups=groups)["shopping"]}
    one = {one.food.name: one.mass_g for one in batch_of(recipe_from(data(ICING))).weighed}
    assert shown.keys() == one.keys()
    for name, (needed, buy, left) in shown.items():
        assert abs(grams(needed) - int(groups) * Fraction(one[name])) <= half_a_digit(needed) + Fraction(1, 10**6)
        count, _, pack = buy.partition(" × ")
        number, unit = pack.split()[:2]
        if unit in ("g", "kg"):
            bought = int(count) * grams(f"{number} {unit}")
            spare = grams(left) if left else 0
            assert abs(bought - grams(needed) - spare) <= 1
            assert spare < bought / int(count)


def test_a_pack_of_ones_own_changes_the_list():
    usual = {row[0]: row[2] for row in texts(ICING)["shopping"]}
    own = texts(ICING, pack__butter_unsalted="1 lb")
    assert usual["butter, unsalted"] == "5 × 250 g block"
    assert {row[0]: row[2] for row in own["shopping"]}["butter, unsalted"] == "3 × 1 lb block"
    assert own["pack.butter_unsalted"] == "1 lb"


def test_recipes_that_share_an_ingredient_share_its_line():
    shown = [row[0] for row in texts(ICING, SILK)["shopping"]]
    assert len(set(shown)) == len(shown)
    assert {"butter, unsalted", "gelatine powder"} <= set(shown)


def minutes(clock):
    found = re.match(r"(\d\d):(\d\d)( \(next day\))?", clock)
    return int(found[1]) * 60 + int(found[2]) + (1440 if found[3] else 0)


@pytest.mark.parametrize("mixers", ["1", "2", "3"])
@pytest.mark.parametrize("names", [(ICING,), (SILK,), (ICING, "milk-emulsions/everyday-milk-frosting")])
def test_a_mixer_is_with_one_group_at_a_time_and_every_group_gets_it(names, mixers):
    shown = texts(*names, students="30", groups="5", mixers=mixers, start="08:30")
    turns = [row[1].removeprefix("lesson 2: ").split("; ") for row in shown["plan.tools"]]
    assert 1 <= len(turns) <= int(mixers)
    for mixer in turns:
        times = [tuple(map(minutes, turn.split(" group ")[0].split(" to "))) for turn in mixer]
        assert all(before[1] <= after[0] for before, after in itertools.pairwise(times))
    had = {turn.split(" group ")[1].split(", ")[0] for mixer in turns for turn in mixer}
    assert had == {"1", "2", "3", "4", "5"}


@pytest.mark.parametrize("name", NAMES)
def test_every_step_is_in_the_plan_once(name):
    shown = texts(name)
    planned = [row[0] for row in shown["plan"] if re.fullmatch(r"\d+\.\d+", row[0])]
    assert sorted(planned) == sorted(row[0] for row in shown["recipes"][0]["method"])


MERINGUE, EVERYDAY = "buttercreams/swiss-meringue-buttercream", "milk-emulsions/everyday-milk-frosting"
AT_THE_MIXER = {"A 2.1", "A 3.1", "A 3.2", "A 3.3", "B 2.1", "B 3.1", "B 3.2"}
CLASS = {"students": "18", "groups": "6", "mixers": "2", "bowls": "6", "available": "150 min"}
"""An earlier plan for this class "fitted", and let meringue wait for 46 minutes."""


def replayed(shown):
    """When each group begins each task, in minutes, read from the printed plan as a teacher reads it."""
    begins = {}
    for key, _, _, lasts, when in shown["plan"]:
        for turn in when.split("; "):
            clock, _, who = turn.partition(" ")
            groups = range(1, 7) if who == "all groups" else map(int, re.findall(r"\d+", who))
            for group in groups:
                assert (group, key) not in begins
                begins[group, key] = (minutes(clock), minutes_of(lasts))
    return begins


def minutes_of(lasts):
    found = re.match(r"(?:(\d+) h)? ?(?:(\d+) min)?", lasts)
    return 60 * int(found[1] or 0) + int(found[2] or 0)


def test_the_plan_of_a_real_class_can_be_cooked_by_the_clock():
    """A clock runs through the lesson: what hands, mixers and the teacher do at every minute, by common practice."""
    shown = texts(MERINGUE, EVERYDAY, **CLASS)
    begins = replayed(shown)
    unattended = {row[0] for row in shown["plan"] if "unattended" in row[3]}
    for minute in range(9 * 60, 13 * 60):
        now = [place for place, (start, lasts) in begins.items() if start <= minute < start + lasts]
        for group in range(1, 7):
            busy = [key for of, key in now if of == group and key not in unattended]
            assert len(busy) <= 2, f"group {group} of three does {busy}"
        assert (
            len([key for _, key in now if key in ("A 2.1", "A 3.1", "A 3.2", "A 3.3", "B 2.1", "B 3.1", "B 3.2")]) <= 2
        )
        assert len([key for _, key in now if key.endswith(" look")]) <= 1, "the teacher is in two places"
    for group in range(1, 7):
        start = {key: begins[group, key][0] for of, key in begins if of == group}
        end = {key: sum(begins[group, key]) for of, key in begins if of == group}
        assert start["A 3.1"] == end["A 2.1"], "meringue waits for its butter"
        assert start["A 2.1"] - end["A 1.1"] <= 10, "warmed whites wait for a mixer"
        assert start["B 3.1"] - end["B 1.5"] <= 20, "the base goes on cooling"
        assert start["B 3.1"] - end["B 2.1"] <= 30, "butter is creamed too early"
        assert max(start["A 1.1"], start["B 1.1"]) >= end["A weigh"] >= end["B weigh"] - 10
    mixed = [(sum(begins[group, "A 3.3"]), sum(begins[group, "B 3.2"])) for group in range(1, 7)]
    assert {later - earlier >= 5 for earlier, later in mixed} == {True}, "no time to wash the bowl"
    assert shown["plan.fit"].startswith("It does not fit: it takes")
    assert "3 mixers" in shown["plan.help"]


@pytest.mark.parametrize(
    "change", [{"mixers": "3"}, {"makes": "one recipe"}, {"groups": "4"}, {"available": "3 h 30 min"}], ids=str
)
def test_what_the_plan_proposes_fits(change):
    assert texts(MERINGUE, EVERYDAY, **{**CLASS, **change})["plan.fit"].startswith("It fits into ")


def test_yolks_are_whisked_while_the_syrup_comes_to_its_temperature():
    begins = replayed(texts("buttercreams/egg-yolk-buttercream", students="18", groups="6"))
    for group in range(1, 7):
        syrup, yolks, pour = (begins[group, key] for key in ("1.1 look", "2.1", "2.2"))
        assert pour[0] == sum(syrup) == sum(yolks)
        assert begins[group, "1.1"][0] < yolks[0] < sum(begins[group, "1.1"])


def test_what_waits_overnight_divides_two_lessons_and_butter_is_creamed_in_the_second():
    shown = texts(SILK, students="18", groups="6", mixers="2", available="150 min")
    lesson_of = {row[0]: row[4][:8] for row in shown["plan"]}
    assert lesson_of["1.6"] == "lesson 1"
    assert lesson_of["2.1"] == lesson_of["4.1"] == "lesson 2"
    assert "After lesson 1, 1.6 goes on by itself: 8 h to 1 day" in shown["plan.alone"]
    assert shown["plan.fit"].startswith("It fits into 2 h 30 min")
    assert shown["picture.plan_before"].startswith("<svg")
    assert texts(ICING)["picture.plan_before"] == ""


def test_a_time_that_is_too_short_is_reported_with_what_would_help():
    short = texts(ICING, available="45 min", mixers="1", talk="0", taste="0", clean="0")
    assert re.fullmatch(r"It does not fit: it takes \d+ min more than 45 min\.", short["plan.fit"])
    mixers = re.search(r"(\d) mixers", short["plan.help"])[1]
    enough = texts(ICING, available="45 min", mixers=mixers, talk="0", taste="0", clean="0")
    assert enough["plan.fit"].startswith("It fits into 45 min")
    assert enough["plan.help"] == ""
    hopeless = texts(ICING, available="2 min", mixers="1")["plan.help"]
    assert hopeless.startswith("No single change makes it fit")


@pytest.mark.parametrize(
    ("state", "path"),
    [
        ({"beforehand": "6"}, ("beforehand",)),
        ({"beforehand": "the base"}, ("beforehand",)),
        ({"bowls": "1", "mixers": "1"}, ("bowls",)),
    ],
)
def test_what_cannot_be_planned_is_said_at_its_field(state, path):
    with pytest.raises(InputError) as caught:
        texts(SILK, **state)
    assert caught.value.path == path


def value(words):
    """A sum as it is printed, with its units, as an exact fraction."""
    bare = re.sub(r"\b(g/mL|g|mL)\b|%", "", words).replace("×", "*").replace("−", "-")
    assert re.fullmatch(r"[\d.+\-*/() ]+", bare), bare
    exact = re.sub(r"\d+(?:\.\d+)?", lambda number: f"Fraction('{number[0]}')", bare)
    return Fraction(eval(exact, {"Fraction": Fraction}))


def check_line(line):
    """`what: sum = result`: the result is the sum, rounded half up to the number of digits that it is printed with."""
    what, _, rest = line.rpartition(": ") if line.count(" = ") == 1 else ("", "", "")
    assert what, line
    words, _, result = rest.rpartition(" = ")
    shown = re.match(r"\d+(?:\.(\d+))?", result)
    scale = 10 ** len(shown[1] or "")
    assert Fraction(floor(value(words) * scale + Fraction(1, 2)), scale) == Fraction(shown[0]), line


def exercises(shown):
    """The lines of the working and the answer of each exercise of all sheets, with its question."""
    for sheet, key in zip(shown["worksheets"], shown["answer_keys"], strict=True):
        if re.match(r"Prediction|.* spoiled batch|Test\b", sheet["title"]):
            continue  # They have no sums only, see tests/calc/lesson/test_teaching.py.
        assert sheet["title"] == key["title"]
        starts = [n for n, row in enumerate(key["workings"]) if row[0]] + [len(key["workings"])]
        assert len(starts) - 1 == len(sheet["questions"])
        for (number, question), (start, end) in zip(sheet["questions"], itertools.pairwise(starts), strict=True):
            rows = key["workings"][start:end]
            assert rows[0][0].startswith(f"{number}. ")
            rows = [row for row in rows if row[1] or row[2]]
            yield rows[0][0].partition(". ")[2], question, [row[1] for row in rows], rows[-1][2]


LEVELS = {
    "11 to 14": {"more batches", "sharing out", "part of the whole"},
    "14 to 16": {"fat percentage", "scaling", "overrun"},
    "16 and over": {"fat percentage", "Pearson square", "syrup strength", "overrun"},
}


def fat_percentage(question):
    """From the question alone, with each mass of fat rounded to 0.1 g, as the handout says."""
    parts = re.findall(r"([\d.]+) g [^(]*\(([\d.]+) % fat\)", question)
    fats = [Fraction(floor(Fraction(mass) * Fraction(fat) / 10 + Fraction(1, 2)), 10) for mass, fat in parts]
    lost = re.search(r"([\d.]+) g of water boils off", question)
    total = sum(Fraction(mass) for mass, _ in parts) - (Fraction(lost[1]) if lost else 0)
    return Fraction(floor(1000 * sum(fats) / total + Fraction(1, 2)), 10)


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("name", NAMES)
def test_every_line_of_every_answer_is_right_by_its_own_figures(name, level):
    shown = texts(name, sheets="different", seed="spring", groups="3", level=level)
    assert len([sheet for sheet in shown["worksheets"] if sheet["title"].startswith(data(name)["title"])]) == 3
    topics = set()
    for topic, question, lines, answer in exercises(shown):
        if topic.startswith("why, step "):
            place = topic.removeprefix("why, step ")
            stage, step = (int(part) - 1 for part in place.split("."))
            assert answer == plain_text(recipe_from(data(name)).stages[stage].steps[step].why)
            continue
        topics.add(topic)
        for line in lines:
            check_line(line)
        if topic == "fat percentage":
            assert answer == f"{float(fat_percentage(question)):.1f} %"
    left_out = {topic for topic in LEVELS[level] if f"{topic}, because " in shown["sheets.left_out"]}
    assert topics | left_out == LEVELS[level]
    assert not topics & left_out


def figure(shown):
    return float(re.match(r"[\d.]+", shown)[0])


@pytest.mark.parametrize("name", NAMES)
def test_worksheets_never_contradict_the_card(name):
    """Masses in whole grams move a fat percentage by 0.2 and a cup of 100 mL moves an overrun by 1.5 at most."""
    card = run("batch", context_from({"recipe": data(name)}))[1]
    stirred = {"creams-and-ganache/coating-ganache", "creams-and-ganache/lemon-curd-filling"}
    found = {}
    for seed in range(6):
        shown = texts(name, seed=str(seed), level="16 and over")
        found |= {topic: (question, answer) for topic, question, _, answer in exercises(shown)}
        if "fat percentage" in found:
            finished = float(batch_of(recipe_from(data(name))).total.mass_g)
            of_card = 100 * figure(card["science.fat"]) / finished
            assert figure(found["fat percentage"][1]) == pytest.approx(of_card, abs=0.2)
        if "syrup strength" in found:
            assert figure(found["syrup strength"][1]) == pytest.approx(figure(card["science.syrup_strength"]), abs=0.5)
            assert "All the sugar is dissolved" in card["why.sugar"]
        if "overrun" in found:
            assert figure(found["overrun"][1]) == pytest.approx(figure(card["science.overrun"]), abs=1.5)
            assert name not in stirred
        if "Pearson square" in found:
            assert re.search(r"milk|cream", found["Pearson square"][0])
            assert not re.search(r"butter|sugar|chocolate|juice|egg|cheese|plant", found["Pearson square"][0])
    assert ("overrun" in found) == (not re.match(r"(0|3|12) % \(0 to", card["science.overrun"]))


@settings(max_examples=20)
@given(st.text(st.characters(codec="ascii", categories=["L", "N"]), min_size=1, max_size=12))
def test_a_seed_gives_the_same_sheets_again_and_groups_differ(seed):
    first = texts(ICING, seed=seed, sheets="different", groups="4")
    assert first["worksheets"] == texts(ICING, seed=seed, sheets="different", groups="4")["worksheets"]
    exercises = [sheet for sheet in first["worksheets"] if sheet["title"].startswith(data(ICING)["title"])]
    assert len({json.dumps(sheet["questions"]) for sheet in exercises}) == 4


def test_exercises_can_be_left_out():
    shown = texts(ICING, exercises="leave out", prediction="leave out", diagnosis="leave out", test="leave out")
    assert (shown["worksheets"], shown["answer_keys"], shown["sheets.left_out"]) == ([], [], "")


def test_answers_can_be_left_out():
    shown = texts(ICING, answers="leave out")
    assert shown["answer_keys"] == []
    assert shown["worksheets"] == texts(ICING)["worksheets"]


def test_the_handout_says_whether_a_bowl_holds_a_group_s_batch():
    """714 g at 0.9 g/mL are 794 mL; a paddle fills a bowl to 65 % at most (common practice): from 1.23 L on."""
    assert texts(ICING, bowl="1.3 L")["recipes"][0]["bowl"] == "It fits into a bowl of 1.3 L in one go."
    assert "takes 2 batches of 357 g" in texts(ICING, bowl="1.2 L")["recipes"][0]["bowl"]
    assert "needs at least 1600 g" in texts(ICING, bowl="20 L")["recipes"][0]["bowl"]


def test_a_class_sees_which_recipes_nobody_has_made_yet():
    made = data(ICING) | {"made": "3"}
    context = context_from({"recipe": made, "second": data(SILK)})
    assert run("handout", context)[1]["made_from"].endswith(" Worked out, not yet made: Silk milk frosting.")
    assert "not yet made" not in run("handout", context_from({"recipe": made}))[1]["made_from"]


def test_checks_leave_room_to_write():
    for row in texts(SILK)["recipes"][0]["checks"]:
        assert len(row) == 5
        assert row[1] or row[2]
        assert row[3:] == ["", ""]


def test_cautions_of_several_recipes_name_theirs_and_children_bring_more():
    honey = "creams-and-ganache/coating-ganache"
    both = [row[0] for row in texts(ICING, honey)["cautions"]]
    assert "Honey, Dark coating ganache" in both
    assert "Allergens" not in both
    assert len(texts(honey, cooks="adults only")["cautions"]) < len(texts(honey)["cautions"])
    assert "your local food code decides" in texts(ICING, honey)["cautions.first"]


@pytest.mark.parametrize("data", [{}, {"recipe": None}, "", {"recipe": {"title": "x"}}])
def test_a_handout_needs_a_recipe(data):
    with pytest.raises(InputError):
        run("handout", context_from(data))


def test_a_recipe_is_chosen_once():
    with pytest.raises(InputError, match="twice"):
        texts(ICING, ICING)


@pytest.mark.parametrize("field", ["students", "groups", "start", "bowl", "pack.butter_unsalted"])
def test_a_refused_field_leaves_the_state(field):
    with pytest.raises(InputError) as caught:
        texts(ICING, **{field.replace(".", "__"): "many"})
    assert caught.value.path == tuple(field.split("."))
