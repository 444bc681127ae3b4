"""Buttons: the main one, a plain one, and one that has nothing to do."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert len(component.shown.all("button", class_="cc-button")) == 3
