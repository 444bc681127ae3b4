"""The size of the batch, with its calculator."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [element["name"] for element in component.shown.all("recipe-calculator")] == ["batch"]
    assert [field["name"] for field in component.shown.all("select")] == ["units"]
