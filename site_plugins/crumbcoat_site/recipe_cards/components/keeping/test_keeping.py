"""Where it keeps, and how long."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    found = [line.text for line in component.shown.all("li")]
    assert found == ["in the refrigerator up to 2 days Cover it.", "In our test it kept 2 days."]
