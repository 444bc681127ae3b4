"""Where it keeps, and how long."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("li")[0].text == "in the refrigerator up to 2 days Cover it."
