"""A word in a box."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("span", class_="cc-tag")[0].text == "optional"
