"""The ground of a picture, with the drawing of a family."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("svg", class_="cc-drawing")
