"""What the groups found: the table against Python's statistics module, charts, trial files that a notebook reads."""

import statistics
from pathlib import Path

import pytest
import yaml
from crumbcoat_calc.calculators import run
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.recipe.batch import BatchOptions, batch_of
from crumbcoat_calc.recipe.reading import recipe_from
from crumbcoat_calc.trials.reading import trial_from

from tests.calc.forms.test_class_results import code

RECIPES = Path(__file__).parents[3] / "recipes"
MILK, SWISS = "milk-emulsions/everyday-milk-frosting", "buttercreams/swiss-meringue-buttercream"
MASSES = {1: 801.5, 2: 822, 3: 790, 4: 812, 6: 833}


def data(name):
    return yaml.load((RECIPES / f"{name}.yaml").read_text(encoding="utf-8"), yaml.BaseLoader)


def texts(codes, *names, **edit):
    context = context_from(dict(zip(("recipe", "second"), map(data, names or (MILK,)), strict=False)))
    return run("class_results", context, {}, {"codes": codes, **edit})[1]


def of_class(**changed):
    return "\n".join(code(group=str(group), mass=str(mass), **changed) for group, mass in MASSES.items())


def test_the_table_has_each_group_mean_standard_deviation_and_range():
    (section,) = texts(of_class())["results"]
    rows = {row[0]: row[1:] for row in section["table"]}
    assert section["title"] == "Everyday milk frosting"
    assert [*rows] == [*(f"Group {group}" for group in MASSES), "Mean", "Standard deviation", "Lowest to highest"]
    assert rows["Mean"][0] == f"{statistics.mean(MASSES.values()):.1f}"
    assert rows["Standard deviation"][0] == f"{statistics.stdev(MASSES.values()):.1f}"
    assert rows["Lowest to highest"][0] == "790 to 833"
    whole_g = batch_of(recipe_from(data(MILK))).total.mass_g
    assert rows["Group 2"][1] == f"{100 * 822 / whole_g:.0f}"
    assert rows["Group 2"][2] == f"{182 / 250:.2f}"  # A metric cup is 250 mL.
    assert rows["Group 2"][3:5] == ["21.5", f"{statistics.mean([7, 8, 6]):.1f}"]


def test_one_group_alone_has_no_mean():
    (section,) = texts(code())["results"]
    assert section["table"][1][1:] == [""] * 7


def test_a_group_is_compared_with_what_its_own_card_showed():
    (section,) = texts(code(mass="1600", card__factor="2"))["results"]
    whole_g = batch_of(recipe_from(data(MILK)), BatchOptions(factor=2)).total.mass_g
    assert section["table"][0][2] == f"{100 * 1600 / whole_g:.0f}"


def test_each_recipe_has_its_own_table_and_pictures():
    found = texts(code() + code(title="Swiss_meringue_buttercream", cup_weighs=""), MILK, SWISS)
    assert [section["title"] for section in found["results"]] == [
        "Everyday milk frosting",
        "Swiss meringue buttercream",
    ]
    assert "group 3 512 g, worked out" in found["picture.recipe.mass"]
    assert "group 3 0.73 g/mL, worked out, without air" in found["picture.recipe.density"]
    assert found["picture.second.mass"]
    assert found["picture.second.density"] == found["picture.third.mass"] == ""


def test_trial_files_are_such_as_the_notebook_reads():
    found = texts(of_class(card__factor="2", note="[click](javascript:x)_*soft*_{a:_b}"), first="4")
    assert [file["name"] for file in found["files"]][:2] == ["4-group1.yaml", "5-group2.yaml"]
    for number, (group, file) in enumerate(zip(MASSES, found["files"], strict=True), 4):
        trial = trial_from(yaml.load(file["file"], yaml.BaseLoader))
        assert (trial.number, trial.who, str(trial.date)) == (number, f"group {group}", "2026-11-27")
        (reading,) = trial.readings
        assert reading.mass_g == pytest.approx(MASSES[group] / 2)  # For one batch, as in every trial file.
        assert reading.temperature_c == 21.5
        assert [(one.attribute, one.marks) for one in trial.tasted] == [("sweetness", (7, 8, 6))]


def test_a_code_that_does_not_fit_says_so_and_the_others_count():
    other = code(title="Old_toffee", group="2")
    changed = code(group="4", **{"card.amount.nothing": "3"})
    found = texts(other + changed + code() + code(group="9").replace("512", "521"))
    assert found["results"][0]["table"][0][0] == "Group 3"
    shown = {row[0]: row[1:] for row in found["unusable"]}
    assert sorted(shown) == ["Code 4, of group 9", "The code of group 2", "The code of group 4"]
    assert "which is not on this handout" in shown["The code of group 2"][0]
    assert all(problem and remedy for problem, remedy in shown.values())


def test_fields_that_cannot_be_used_say_so():
    with pytest.raises(InputError, match="there is no code in it"):
        texts("nothing")
    with pytest.raises(InputError) as refused:
        texts(code(), first="none")
    assert refused.value.path == ("first",)
    assert texts("")["results"] == []
