"""The replacement calculator: kept contents are counted again from the recipe file that it returns."""

import copy

import pytest
import yaml
from crumbcoat_calc.calculators import run
from crumbcoat_calc.calculators.replacement import form_state, read
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.forms.context import context_from
from crumbcoat_calc.recipe.batch import Batch, batch_of
from crumbcoat_calc.recipe.reading import recipe_from

from tests.calc.calculators.test_formulate import CONTEXT, RECIPE


def texts(edit: dict[str, str]) -> dict[str, object]:
    return dict(run("replace", CONTEXT, {}, edit)[1])


def batch(file: object) -> Batch:
    return batch_of(recipe_from(yaml.load(str(file), Loader=yaml.BaseLoader)))


def test_butter_of_another_fat_content() -> None:
    """usda-sr28: butter of 81.11 % fat. Fat kept by hand: 250 g x 81.11 / 82 = 247.3 g of butter of 82 %."""
    shown = texts({"ingredient": "1", "other.0": "butter_unsalted", "other_fat.0": "82", "other.1": "water_tap"})
    assert shown["out"] == "250 g of butter, unsalted"
    assert str(shown["exchange"]).startswith("247 g of butter, unsalted, 82 % fat")
    before, after = batch_of(recipe_from(RECIPE)).total, batch(shown["file.recipe"]).total
    for component in ("fat_g", "water_g"):
        assert after.amount(component) == pytest.approx(before.amount(component), abs=0.05)


@pytest.mark.parametrize("percent", ["0", "100"])
def test_the_bounds_of_a_fat_content_are_allowed(percent: str) -> None:
    edit = {"ingredient": "1", "other.0": "butter_unsalted", "other_fat.0": percent}
    assert run("replace", CONTEXT, {}, edit)[0]["other_fat.0"] == percent


def test_what_comes_in_goes_in_wherever_the_other_went() -> None:
    """Milk goes in at two places; so do the powder and the water, by the same shares."""
    shown = texts({})
    made = batch(shown["file.recipe"])
    assert [len(step.uses) for stage in made.recipe.stages for step in stage.steps] == [3, 4]
    powder = next(one for one in made.weighed if one.key == "milk_powder_whole")
    assert powder.portions_g["hot"] == pytest.approx(2 * powder.portions_g["cold"])


def test_contents_that_could_not_be_kept_are_listed() -> None:
    shown = texts({"ingredient": "1", "other.0": "water_tap", "other.1": "", "other.2": ""})
    assert str(shown["not_kept"]).startswith("Not kept: 203 g less fat")


def test_a_missing_replacement_is_reported_and_not_raised() -> None:
    shown = texts({"other.0": "", "other.1": ""})
    assert str(shown["exchange"]).startswith("not given: no replacement is chosen; choose one to 3 ingredients")
    assert shown["file.recipe"] == ""


def test_a_kind_that_the_recipe_has_already_gets_a_key_of_its_own() -> None:
    recipe = copy.deepcopy(RECIPE)
    ingredients = recipe["ingredients"]
    recipe["ingredients"] = {"water_tap": ingredients.pop("salt"), **ingredients}
    recipe["stages"][1]["steps"][0]["add"] = ["butter", "milk/cold", "water_tap"]
    shown = run("replace", context_from({"recipe": recipe}), {}, {"ingredient": "1"})[1]
    assert "water_tap_2" in str(shown["file.recipe"])
    assert batch(shown["file.recipe"]).total.mass_g > 700


@pytest.mark.parametrize(
    ("edit", "state"),
    [
        ({"ingredient": "1"}, {"ingredient": "1"}),
        ({"ingredient": "0"}, {}),
        ({"other.1": ""}, {"other.1": "none"}),
        ({"other.0": "milk_powder_whole"}, {}),
        ({"other_fat.0": "82 %", "other.0": "butter_salted"}, {"other.0": "butter_salted", "other_fat.0": "82"}),
    ],
)
def test_what_is_kept(edit: dict[str, str], state: dict[str, str]) -> None:
    assert run("replace", CONTEXT, {}, edit)[0] == state
    assert form_state(read(CONTEXT, state)) == state


@pytest.mark.parametrize(
    "edit", [{"ingredient": "7"}, {"other.0": "buter"}, {"other_fat.0": "101"}, {"other.3": "honey"}, {"x": "1"}]
)
def test_what_cannot_be_used_is_refused_at_its_field(edit: dict[str, str]) -> None:
    with pytest.raises(InputError) as error:
        run("replace", CONTEXT, {}, edit)[0]
    assert error.value.remedy
    assert ".".join(map(str, error.value.path)) in edit


@pytest.mark.parametrize(
    ("edits", "second"),
    [
        ([{"other.0": "butter_unsalted"}], ""),
        ([{"other.0": "butter_unsalted"}, {"other.0": "milk_powder_whole"}], "water_tap"),
        ([{"other.0": "butter_unsalted"}, {"other.1": "water_tap"}], "water_tap"),
        ([{"other.1": "cream_heavy_whipping"}, {"other.0": "butter_unsalted"}], "cream_heavy_whipping"),
        ([{"other.1": ""}, {"other.0": "butter_unsalted"}], ""),
        ([{"ingredient": "1"}], "water_tap"),
    ],
)
def test_the_second_of_the_example_goes_with_its_first_unless_it_was_chosen(
    edits: list[dict[str, str]], second: str
) -> None:
    state: dict[str, str] = {}
    for edit in edits:
        state, shown = run("replace", CONTEXT, state, edit)
    assert shown["other.1"] == second
    assert run("replace", CONTEXT, state, {})[1]["other.1"] == second
