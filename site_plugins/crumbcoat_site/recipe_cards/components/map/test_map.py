"""The form of the map of two ingredients."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert {field["name"] for field in component.shown.all("input", type="range")} == {"x_percent", "y_percent"}
