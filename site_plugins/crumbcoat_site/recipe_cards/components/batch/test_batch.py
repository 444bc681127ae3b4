"""The tools of the batch, in one box."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [element["name"] for element in component.shown.all("recipe-calculator")] == ["batch", "cake"]
    assert len(component.shown.all("details", class_="cc-drawer")) >= 3
