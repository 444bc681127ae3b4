"""What is in the bowl after a stage, or what was set aside of it."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [term.text for term in component.shown.all("dt")] == ["Set aside", "Fat", "Water", "Sugars"]
