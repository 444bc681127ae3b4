"""Bench view: a step, large, as the scripts build it."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("dialog")[0]["aria-label"] == "Bench view"
