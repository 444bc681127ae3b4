"""A table that scrolls in its own place."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    (place,) = component.shown.all("div", class_="cc-wide")
    assert (place["tabindex"], place["role"]) == ("0", "group")
