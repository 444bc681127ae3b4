"""As it warms: the curve, its table, and the times."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("div", data_picture="picture.warming")[0].all("svg")
    assert {body["data-rows"] for body in component.shown.all("tbody")} == {"rows.warming", "rows.warming_times"}
    assert {field["name"] for field in component.shown.all("input") if "name" in field.attributes} == {
        "warm_to",
        "hands_temperature",
    }
    assert "not about safety" in component.shown.text
