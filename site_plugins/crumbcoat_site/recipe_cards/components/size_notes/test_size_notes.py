"""What a change of size brings with it."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert "A larger batch cools more slowly." in component.shown.text
