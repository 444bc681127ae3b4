"""Folds, open and closed, and a drawer in a box of tools."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert len(component.shown.all("details", class_="cc-fold")) == 3
