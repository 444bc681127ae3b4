"""The size of a batch, and how it is measured."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert {field["name"] for field in component.shown.all("input")} == {"portions", "finished_mass"}
    assert {field["name"] for field in component.shown.all("select")} == {"scale", "eggs"}
