"""A recipe's trials in order: what each really was, and every problem of the others."""

from typing import Any

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.trials.changing import planned_from, weighed_from
from crumbcoat_calc.trials.notebook import Notebook, notebook_of
from crumbcoat_calc.trials.reading import trial_from

RECIPE: dict[str, object] = {
    "title": "Canteen cream",
    "summary": "A cream for trials.",
    "author": "Test kitchen",
    "made": "4",
    "measured": {"density": "0.9 g/mL"},
    "family": "emulsified milk frosting",
    "yield": {"portions": "12", "of": "cupcakes"},
    "ingredients": {
        "butter": {"kind": "butter_unsalted", "amount": "200 g", "portions": {"base": "150 g", "whip": "50 g"}},
        "milk": {"kind": "milk_whole", "amount": "120 g"},
        "sugar": {"kind": "sugar_powdered", "amount": "150 g"},
        "salt": {"kind": "salt_table", "amount": "1 g"},
    },
    "stages": [
        {
            "title": "Base",
            "makes": "base",
            "steps": [{"do": "Heat.", "add": ["milk", "salt"]}, {"do": "Stir.", "add": "sugar"}],
        },
        {
            "title": "Whip",
            "steps": [{"do": "Beat.", "add": ["base", "butter/base"]}, {"do": "Finish.", "add": ["butter/whip"]}],
        },
    ],
}


def trial(number: int, **fields: object) -> tuple[str, Any]:
    return f"{number}.yaml", trial_from({"number": str(number), "date": "2026-11-24"} | fields)


def book(*trials: tuple[str, Any], recipe: dict[str, object] = RECIPE, **versions: dict[str, object]) -> Notebook:
    return notebook_of(recipe, versions, trials)


def masses(notebook: Notebook, number: int) -> dict[str, float]:
    made = next(one for one in notebook.made if one.trial.number == number)
    return {ingredient.key: round(ingredient.mass_g, 6) for ingredient in made.recipe.ingredients}


def test_a_trial_holds_only_what_differs_from_the_one_before() -> None:
    less = {"ingredients": {"sugar": "120 g"}}
    notebook = book(
        trial(1, changed=less), trial(2, **{"from": "1"}, changed={"ingredients": {"milk": "140 g"}}), trial(3)
    )
    assert notebook.problems == ()
    assert [made.trial.number for made in notebook.made] == [1, 2, 3]
    assert masses(notebook, 2) == {"butter": 200, "milk": 140, "sugar": 120, "salt": 1}
    assert masses(notebook, 3) == {"butter": 200, "milk": 120, "sugar": 150, "salt": 1}
    assert notebook.made[1].before is notebook.made[0]


def test_what_was_weighed_counts_for_this_trial_and_not_for_those_after_it() -> None:
    notebook = book(trial(1, weighed={"sugar": "156 g"}), trial(2, **{"from": "1"}))
    assert (masses(notebook, 1)["sugar"], masses(notebook, 2)["sugar"]) == (156, 150)


def test_a_new_amount_keeps_the_shares_of_its_portions_unless_they_are_given() -> None:
    for change, expected in (
        ("240 g", {"base": 180, "whip": 60}),
        ({"amount": "240 g", "portions": {"base": "200 g", "whip": "40 g"}}, {"base": 200, "whip": 40}),
    ):
        (made,) = book(trial(1, changed={"ingredients": {"butter": change}})).made
        butter = made.recipe.ingredients[0]
        assert {portion.key: round(portion.mass_g, 6) for portion in butter.portions} == expected


def test_an_ingredient_can_be_left_out_added_or_be_another_kind() -> None:
    changed = {
        "ingredients": {
            "salt": "left out",
            "milk": {"kind": "cream_heavy_whipping", "amount": "100 g"},
            "gum": {"kind": "cornstarch", "amount": "2 g", "add_at": "1.1"},
        }
    }
    (made,) = book(trial(1, changed=changed)).made
    assert [ingredient.key for ingredient in made.recipe.ingredients] == ["butter", "milk", "sugar", "gum"]
    assert made.recipe.ingredients[1].food.key == "cream_heavy_whipping"
    assert [use.what for use in made.recipe.stages[0].steps[0].uses] == ["milk", "gum"]


def test_a_step_that_is_left_out_takes_what_it_adds_with_it_and_the_others_keep_their_numbers() -> None:
    (made,) = book(trial(1, changed={"steps": {"2.2": "left out"}})).made
    assert [len(stage.steps) for stage in made.recipe.stages] == [2, 2]
    assert masses(book(trial(1, changed={"steps": {"2.2": "left out"}})), 1)["butter"] == 150
    (made,) = book(trial(1, changed={"steps": {"1.2": "left out"}})).made
    assert "sugar" not in [ingredient.key for ingredient in made.recipe.ingredients]
    (made,) = book(trial(1, changed={"steps": {"2.1": {"time": "4 min", "tool": "whisk"}}})).made
    assert made.recipe.stages[1].steps[0].tool == "whisk"


def test_what_was_measured_of_the_recipe_is_not_of_the_trial() -> None:
    notebook = book(trial(1), trial(2, readings=[{"density": "0.75 g/mL"}, {"density": "0.7 g/mL", "ph": "6"}]))
    assert notebook.made[0].recipe.measured.density_g_per_ml is None
    assert notebook.made[0].recipe.made is None
    assert notebook.made[1].recipe.measured.density_g_per_ml == 0.7


def test_a_trial_may_come_from_an_earlier_version_of_the_recipe() -> None:
    before = RECIPE | {"ingredients": RECIPE["ingredients"] | {"milk": {"kind": "milk_whole", "amount": "90 g"}}}  # type: ignore[operator]
    assert masses(book(trial(1, **{"from": "v1"}), v1=before), 1)["milk"] == 90


@pytest.mark.parametrize(
    ("trials", "name", "path", "problem", "remedy"),
    [
        ([{}, {"number": "1"}], "two.yaml", ("number",), "taken by one.yaml", "the next one, 10"),
        ([{"from": "7"}], "one.yaml", ("from",), "no trial 7", "trials 1"),
        ([{"from": "v2"}], "one.yaml", ("from",), "no version v2", "delete the line"),
        ([{"from": "1"}], "one.yaml", ("from",), "circle: 1 from 1", "really came from"),
        ([{"from": "2"}, {"from": "1"}], "one.yaml", ("from",), "circle: 1 from 2 from 1", "really came from"),
        (
            [{"changed": {"ingredients": {"sugr": "1 g"}}}],
            "one.yaml",
            ("changed", "ingredients", "sugr"),
            "no ingredient 'sugr'",
            "'sugar'",
        ),
        (
            [{"changed": {"ingredients": {"gum": "1 g"}}}],
            "one.yaml",
            ("changed", "ingredients", "gum"),
            "no ingredient 'gum'",
            "add_at: 1.2",
        ),
        (
            [{"changed": {"ingredients": {"milk": {"amount": "9 g", "add_at": "1.1"}}}}],
            "one.yaml",
            ("changed", "ingredients", "milk", "add_at"),
            "already",
            "delete",
        ),
        (
            [{"changed": {"ingredients": {"milk": "120 ml of it"}}}],
            "one.yaml",
            ("changed", "ingredients", "milk", "amount"),
            "",
            "",
        ),
        (
            [{"changed": {"ingredients": {"butter": {"portions": {"base": "1 g", "whip": "2 g"}}}}}],
            "one.yaml",
            ("changed", "ingredients", "butter", "portions"),
            "add up to 3 g",
            "amount",
        ),
        (
            [{"changed": {"steps": {"2.9": "left out"}}}],
            "one.yaml",
            ("changed", "steps", "2.9"),
            "no step 2.9",
            "1.1 to 2.2",
        ),
        (
            [{"changed": {"steps": {"2.1": "left out"}}}],
            "one.yaml",
            ("changed", "steps", "2.1"),
            "an earlier stage makes",
            "instead",
        ),
        ([{"changed": {"steps": {"1.1": {"time": "soon"}}}}], "one.yaml", ("changed", "steps", "1.1", "time"), "", ""),
        (
            [{"changed": {"steps": {"1.1": {"checkpoint": "Thick."}}, "ingredients": {"salt": "left out"}}}],
            "one.yaml",
            ("changed", "steps", "1.1", "checkpoint"),
            "expected fields",
            "indented",
        ),
        (
            [{"changed": {"steps": {"1.2": {"add": [["sugar"]]}}, "ingredients": {"salt": "left out"}}}],
            "one.yaml",
            ("changed", "steps", "1.2", "add", 0),
            "expected text",
            "plain text",
        ),
        ([{"weighed": {"sugr": "1 g"}}], "one.yaml", ("weighed", "sugr"), "no ingredient", "'sugar'"),
        ([{"weighed": {"sugar": "some"}}], "one.yaml", ("weighed", "sugar"), "", ""),
        (
            [{"readings": [{"at": "3", "temperature": "20 °C"}]}],
            "one.yaml",
            ("readings", 0, "at"),
            "no step 3",
            "1.1 to 2.2",
        ),
        (
            [{"compared": [{"test": "paired", "against": "1", "people": "3", "chose": "2"}]}],
            "one.yaml",
            ("compared", 0, "against"),
            "no other trial 1",
            "use one of the trials 9",
        ),
        (
            [{"readings": [{"ph": "6"}], "seen": [{"at": "2.3", "sign": "x"}]}],
            "one.yaml",
            ("seen", 0, "at"),
            "no step 2.3",
            "1.1 to 2.2",
        ),
    ],
)
def test_what_does_not_fit_is_named_and_nothing_else_is_lost(
    trials: list[dict[str, object]], name: str, path: tuple[str | int, ...], problem: str, remedy: str
) -> None:
    written = [
        (word, trial_from({"number": str(number), "date": "2026-11-24"} | fields))
        for number, (word, fields) in enumerate(zip(("one.yaml", "two.yaml"), trials, strict=False), 1)
    ]
    sound = ("nine.yaml", trial_from({"number": "9", "date": "2026-11-25"}))
    notebook = book(*written, sound)
    found_name, error = notebook.problems[-1] if name == "two.yaml" else notebook.problems[0]
    assert (found_name, error.path) == (name, path)
    assert problem in error.problem
    assert remedy in error.remedy
    assert [made.trial.number for made in notebook.made][-1] == 9


def test_a_trial_of_one_that_cannot_be_used_says_which_to_put_right() -> None:
    notebook = book(trial(1, weighed={"x": "1 g"}), trial(2, **{"from": "1"}))
    assert [(name, error.path) for name, error in notebook.problems] == [
        ("1.yaml", ("weighed", "x")),
        ("2.yaml", ("from",)),
    ]
    assert "put trial 1 right first (1.yaml)" in notebook.problems[1][1].remedy


def test_nothing_of_the_recipe_is_changed_in_place() -> None:
    kept = repr(RECIPE)
    changed = trial_from(
        {"number": "1", "date": "2026-11-24", "changed": {"ingredients": {"salt": "left out"}}}
    ).changed
    _, planned = planned_from(RECIPE, changed)
    weighed_from(planned, {"sugar": "1 g"}, {"density": "1 g/mL"})
    assert repr(RECIPE) == kept
    with pytest.raises(InputError):
        weighed_from(RECIPE, {"sugar": "0 g"}, {})
