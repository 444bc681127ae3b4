"""The models of a group of figures."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert len(component.shown.all("dt")) == len(component.shown.all("dd")) == 2
