"""foods/components.py: reads a composition from a recipe file, or reports the place and the remedy."""

import pytest
from crumbcoat_calc.errors import InputError
from crumbcoat_calc.foods.components import COMPONENTS, FIELD_NAMES, INDEX, PROXIMATES, composition_from, unit_of


def test_a_field_is_a_component_without_its_unit():
    assert len(FIELD_NAMES) == len(COMPONENTS) == len(INDEX)
    assert FIELD_NAMES["fat"] == "fat_g"
    assert FIELD_NAMES["milk_solids_not_fat"] == "milk_solids_not_fat_g"
    assert FIELD_NAMES["sodium"] == "sodium_mg"
    assert FIELD_NAMES["vitamin_d"] == "vitamin_d_ug"
    assert {unit_of(component) for component in COMPONENTS} == {"g", "mg", "ug"}
    assert set(PROXIMATES) < set(COMPONENTS)


@pytest.mark.parametrize(
    ("written", "content"),
    [
        pytest.param({"fat": "84 %"}, {"fat_g": 84.0}, id="a percentage of the mass"),
        pytest.param({"fat": "84%"}, {"fat_g": 84.0}, id="without a space"),
        pytest.param({"fat": "84 g"}, {"fat_g": 84.0}, id="grams in 100 g"),
        pytest.param({"fat": "1/3 %"}, {"fat_g": pytest.approx(1 / 3)}, id="a fraction"),
        pytest.param({"fat": "0 %"}, {"fat_g": 0.0}, id="nothing"),
        pytest.param({"sodium": "11 mg"}, {"sodium_mg": 11.0}, id="a mineral in mg"),
        pytest.param({"vitamin_d": "1.3 µg"}, {"vitamin_d_ug": 1.3}, id="a vitamin, with the micro sign"),
        pytest.param({"vitamin_d": "1.3 μg"}, {"vitamin_d_ug": 1.3}, id="a vitamin, with the Greek letter"),
        pytest.param({"vitamin_d": "1.3 ug"}, {"vitamin_d_ug": 1.3}, id="a vitamin, with a plain u"),
    ],
)
def test_a_composition_is_read(written, content):
    assert composition_from(written) == content


@pytest.mark.parametrize(
    ("written", "path", "problem", "remedy"),
    [
        pytest.param({"fatt": "8 %"}, ("fatt",), "unknown component 'fatt'", "did you mean 'fat'?", id="a slip"),
        pytest.param({"energy": "8 %"}, ("energy",), "unknown component 'energy'", "use one of: water,", id="energy"),
        pytest.param({"fat": "84"}, ("fat",), "'84' has no unit", "per 100 g, such as `84 %`", id="no unit"),
        pytest.param({"fat": "84 mg"}, ("fat",), "'mg' is not the unit of fat", "such as `84 %`", id="mg of fat"),
        pytest.param({"sodium": "1 %"}, ("sodium",), "'%' is not the unit of sodium", "`11 mg`", id="% of a mineral"),
        pytest.param(
            {"fat": "101 %"}, ("fat",), "'101 %' is more than 100 g can contain", "per 100 g", id="over 100 %"
        ),
        pytest.param(
            {"sodium": "100001 mg"}, ("sodium",), "is more than 100 g can", "per 100 g", id="over 100 g in mg"
        ),
        pytest.param({"fat": "-3 %"}, ("fat",), "is negative", "remove the minus sign", id="negative"),
        pytest.param({"fat": "much"}, ("fat",), "does not start with a number", "write a number", id="a word"),
        pytest.param({"fat": ""}, ("fat",), "the field is empty", "fill it in", id="empty"),
        pytest.param({}, (), "nothing is listed here", "list at least 1", id="no field"),
        pytest.param(["fat"], (), "expected fields, but found a list", "one `name: value` per line", id="a list"),
    ],
)
def test_wrong_contents_are_refused_at_their_field(written, path, problem, remedy):
    with pytest.raises(InputError) as caught:
        composition_from(written)
    assert caught.value.path == path
    assert problem in caught.value.problem
    assert remedy in caught.value.remedy
