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
    sheets = texts(name, batches="1.5")["group_sheets"]
    listed = [row for sheet in sheets if sheet["group"] == "Group 1" for row in sheet["weigh"]]
    assert {row[0] for row in listed} == {one.name for one in batch.weighed}
    for one in batch.weighed:
        mine = [row[1] for row in listed if row[0] == one.name]
        most = sum(map(half_a_digit, mine)) + Fraction(1, 10**6)
        assert abs(sum(map(grams, mine)) - Fraction(one.mass_g)) <= most


def test_what_is_optional_and_how_many_eggs_to_break_is_on_the_sheet():
    """By hand, usda-sr28: a large egg white is 33 g; 5 are 165 g, 10 g more than the recipe's 155 g."""
    group = texts("buttercreams/swiss-meringue-buttercream")["group_sheets"][0]
    notes = {name: note for name, _, note in group["weigh"]}
    assert notes["egg whites"].endswith("; 5 large egg whites; beat, then measure 155 g; about 10 g is left")
    assert notes["cream of tartar"] == "optional"
    how = {row[0]: row[3] for row in texts(SILK)["group_sheets"][0]["steps"]}
    assert how["1.2"].startswith("optional; small bowl")
    assert [number for number, shown in how.items() if shown.startswith("optional")] == ["1.2"]


def test_it_says_that_it_is_made_for_the_recipe_as_published():
    found = texts(ICING, batches="1.5")
    assert found["made_from"].startswith("Made for 1.5 batches of the recipe as published in each group. ")
    assert found["group_sheets"][0]["makes"].startswith("You make 1.5 batches, ")
    assert "1 batch of each recipe as published" in texts(ICING, SILK)["made_from"]


@pytest.mark.parametrize("groups", ["1", "7"])
def test_the_shopping_list_is_for_all_groups_and_what_is_left_fits(groups):
    """Needed is one batch times the groups; packs are whole; bought is needed and left: by the printed figures."""
    listed = texts(ICING, students="40", groups=groups, margin="0")["shopping"]
    shown = {row[0].partition(" (US")[0]: row[1:] for row in listed}
    one = {one.name: one.mass_g for one in batch_of(recipe_from(data(ICING))).weighed}
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
    assert usual["unsalted butter"] == "5 × 250 g block"
    assert {row[0]: row[2] for row in own["shopping"]}["unsalted butter"] == "3 × 1 lb block"
    assert own["pack.butter_unsalted"] == "1 lb"


def test_recipes_that_share_an_ingredient_share_its_line():
    shown = [row[0] for row in texts(ICING, SILK)["shopping"]]
    assert len(set(shown)) == len(shown)
    assert {"unsalted butter", "powdered gelatine"} <= set(shown)


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
        times = [tuple(map(minutes, turn.split(" group ")[0].split("–"))) for turn in mixer]
        assert all(before[1] <= after[0] for before, after in itertools.pairwise(times))
    had = {turn.split(" group ")[1] for mixer in turns for turn in mixer}
    assert had == {"1", "2", "3", "4", "5"}


@pytest.mark.parametrize("name", NAMES)
def test_every_step_is_in_the_plan_once(name):
    recipe = recipe_from(data(name))
    steps = [f"{at}.{n + 1}" for at, stage in enumerate(recipe.stages, 1) for n in range(len(stage.steps))]
    for group in range(1, 5):
        mine = [sheet for sheet in texts(name)["group_sheets"] if sheet["group"] == f"Group {group}"]
        planned = [row[0] for sheet in mine for row in sheet["steps"] if row[0] and not is_look(row)]
        assert sorted(planned) == sorted(steps)


MERINGUE, EVERYDAY = "buttercreams/swiss-meringue-buttercream", "milk-emulsions/everyday-milk-frosting"
AT_THE_MIXER = {"A 2.1", "A 3.1", "A 3.2", "A 3.3", "B 2.1", "B 3.1", "B 3.2"}
CLASS = {"students": "18", "groups": "6", "mixers": "2", "bowls": "6", "available": "150 min"}
"""An earlier plan for this class "fitted", and let meringue wait for 46 minutes."""


def is_look(row):
    return row[2] == "**Show it to your teacher.**"


def replayed(shown):
    """When each group begins each task, and how long it takes, in minutes, read from the groups' sheets as they do."""
    begins = {}
    for sheet in shown["group_sheets"]:
        for row in sheet["steps"]:
            key = f"{row[0]} look" if is_look(row) else f"{row[0]} weigh".strip() if "." not in row[0] else row[0]
            place = (int(sheet["group"].split()[1]), key)
            assert place not in begins
            begins[place] = (minutes(row[1]), minutes_of(row[3]))
    return begins


def minutes_of(how):
    """The longest time that a step has, without how long its product may wait."""
    times = re.findall(r"(?:(\d+) h)? ?(?:(\d+) min)?(?:, unattended)?(?:; |$)", how.partition("then go on")[0])
    found = [60 * int(hours or 0) + int(minutes or 0) for hours, minutes in times if hours or minutes]
    return found[0] if found else 2


def test_the_plan_of_a_real_class_can_be_cooked_by_the_clock():
    """A clock runs through the lesson: what hands, mixers and the teacher do at every minute, by common practice."""
    shown = texts(MERINGUE, EVERYDAY, **CLASS)
    begins = replayed(shown)
    unattended = {row[0] for sheet in shown["group_sheets"] for row in sheet["steps"] if "unattended" in row[3]}
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
    lesson_of = {row[0]: sheet["title"][-8:] for sheet in shown["group_sheets"][:2] for row in sheet["steps"]}
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
    assert texts(ICING, bowl="1.3 L")["group_sheets"][0]["bowl"] == "It fits into a bowl of 1.3 L in one go."
    assert "takes 2 batches of 357 g" in texts(ICING, bowl="1.2 L")["group_sheets"][0]["bowl"]
    assert "needs at least 1600 g" in texts(ICING, bowl="20 L")["group_sheets"][0]["bowl"]


def test_a_class_sees_which_recipes_nobody_has_made_yet():
    made = data(ICING) | {"made": "3"}
    context = context_from({"recipe": made, "second": data(SILK)})
    assert run("handout", context)[1]["made_from"].endswith(" Worked out, not yet made: Silk milk frosting.")
    assert "not yet made" not in run("handout", context_from({"recipe": made}))[1]["made_from"]


def test_a_group_finds_its_times_on_the_run_sheet_too():
    """The first step of each stage, and each look, of each group: on its own sheet and in the column of that group."""
    shown = texts(MERINGUE, EVERYDAY, **CLASS)
    begins = replayed(shown)
    assert shown["plan.head"] == [["begins", *(f"Group {number}" for number in range(1, 7))]]
    for name, *times in shown["plan"]:
        task = f"{name[0]} weigh" if name.endswith("Weigh and set up") else name.replace("your look", "look")
        for group, time in enumerate(times, 1):
            stage = [start for (of, step), (start, _) in begins.items() if of == group and step[:3] == name[:3]]
            assert minutes(time) == (begins[group, task][0] if (group, task) in begins else min(stage)), (name, group)
    assert [row[0] for row in shown["plan.tools"]] == ["Mixer 1", "Mixer 2"]


def test_each_group_has_a_front_for_each_recipe_and_one_back():
    sheets = texts(MERINGUE, EVERYDAY, **CLASS)["group_sheets"]
    assert [(sheet["group"], sheet["sheet"]) for sheet in sheets] == [
        (f"Group {group}", f"sheet {number} of 3") for group in range(1, 7) for number in (1, 2, 3)
    ]
    front, _, back = sheets[:3]
    assert front["title"] == "A Swiss meringue buttercream"
    troubles = [
        [trouble["sign"], trouble["remedy"]]
        for name in (MERINGUE, EVERYDAY)
        for stage in data(name)["stages"]
        for step in stage["steps"]
        for trouble in step.get("checkpoint", {}).get("troubles", ())
    ]
    assert [row[1:] for row in back["rescues"]] == troubles
    assert [row[1] for row in back["keeping"]] == [
        place["where"] for name in (MERINGUE, EVERYDAY) for place in data(name)["storage"]
    ]
    assert back["keeping"][0][2] == "after 1 day, and after 4 days"
    assert back["tasting_head"][0][1:] == ["Swiss meringue buttercream", "Everyday milk frosting"]
    one = texts(MERINGUE, EVERYDAY, **CLASS, makes="one recipe")["group_sheets"]
    assert [sheet["title"] for sheet in one[:4]] == ["A Swiss meringue buttercream"] * 2 + [
        "B Everyday milk frosting"
    ] * 2


def test_a_sheet_says_how_long_what_was_made_may_wait():
    """By longest_waits.csv: whisked egg goes on at once, what was cooled within 20 minutes; slurry by its recipe."""
    how = {row[0]: row[3] for sheet in texts(MERINGUE, EVERYDAY, **CLASS)["group_sheets"][:2] for row in sheet["steps"]}
    assert how["A 2.1"].endswith("; then go on at once")
    assert how["B 1.1"].endswith("; then go on within 15 min")
    assert how["B 1.5"].endswith("; then go on within 20 min")
    assert "go on" not in how["A 3.3"]


def test_without_looks_what_passes_is_at_the_step():
    rows = texts(MERINGUE, look="0 min")["group_sheets"][0]["steps"]
    assert not any(is_look(row) for row in rows)
    assert "A ball of it keeps its shape on a spoon." in next(row[4] for row in rows if row[0] == "3.1")


def test_a_stage_made_beforehand_is_ready_and_nothing_is_weighed_for_it():
    """Of the everyday frosting's first stage: milk, cornflour, milk powder, and 70 g of sugar and 60 g of butter."""
    front = texts(EVERYDAY, beforehand="1")["group_sheets"][0]
    assert front["steps"][0][:3] == ["1", "ready", "Cook the milk base: your teacher has made this."]
    assert {row[0]: row[1] for row in front["weigh"]} == {
        "icing sugar": "140 g", "unsalted butter": "180 g", "vanilla extract": "8 g", "fine salt": "1 g",
    }  # fmt: skip


def test_a_recipe_of_two_lessons_has_a_front_for_each_with_what_is_weighed_then():
    """By reading the file: sugar, vanilla and salt go in on the second day, and 70 g of the butter."""
    first, second, back = texts(SILK)["group_sheets"][:3]
    titles = [sheet["title"] for sheet in (first, second, back)]
    assert titles == ["Silk milk frosting, lesson 1", "Silk milk frosting, lesson 2", "Silk milk frosting"]
    assert second["sheet"] == "sheet 2 of 3"
    weighed = {row[0]: row[1] for row in second["weigh"]}
    assert weighed == {
        "unsalted butter": "70 g",
        "icing sugar": "260 g",
        "vanilla extract": "6 g",
        "fine salt": "1.5 g",
    }
    assert {row[0]: row[1] for row in first["weigh"]}["unsalted butter"] == "180 g"
    assert "stick blender" in first["fetch"]
    assert "stick blender" not in second["fetch"]


def test_a_margin_is_bought_besides_and_prices_of_the_site_are_added_up():
    """By hand: butter of 410 and 240 g, for 6 groups, and 5 % more; at 10.00 EUR for 1 kg only of butter."""
    shown = {row[0]: row[1] for row in texts(MERINGUE, EVERYDAY, **CLASS)["shopping"]}
    assert shown["unsalted butter"] == "4095 g"
    assert {row[0]: row[1] for row in texts(MERINGUE, EVERYDAY, **CLASS, margin="0")["shopping"]}[
        "unsalted butter"
    ] == "3900 g"
    prices = "item,pack,price,currency,date,note\nbutter_unsalted,1 kg,10.00,EUR,2026-01-31,\n"
    context = context_from({"recipe": data(MERINGUE), "second": data(EVERYDAY), "prices": prices})
    cost = run("handout", context, {}, CLASS)[1]["shopping.cost"]
    assert cost.startswith("The ingredients needed cost at least 40.95 EUR, at least 2.28 EUR a student, ")
    assert "No price is known for egg whites, " in cost
    assert texts(MERINGUE)["shopping.cost"] == ""


def test_a_class_reads_six_cautions_with_the_recipe_that_each_is_about():
    honey = "creams-and-ganache/coating-ganache"
    both = texts(ICING, honey)
    shown = dict(both["cautions"])
    assert 3 <= len(shown) <= 6
    assert next(iter(shown)) == "Allergens"
    assert "Dark coating ganache: contains " in shown["Allergens"]
    assert re.match(
        r"The 6 most important of \d+; all of them are on the card of each recipe, in full\.", both["cautions.count"]
    )
    assert both["cautions.sources"].startswith("Sources: ")
    assert "your local food code decides" in both["cautions.first"]


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
