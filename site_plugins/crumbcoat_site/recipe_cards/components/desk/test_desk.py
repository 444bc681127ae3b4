"""The desk of a handout: recipes, numbers, words and packs."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("select", data_context_from="a")
    assert {"students", "pack.butter"} <= {field["name"] for field in component.shown.all("input")}
