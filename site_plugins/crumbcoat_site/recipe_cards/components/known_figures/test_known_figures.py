"""Figures of the science, each with its model in a fold."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    figures = component.shown.all("details", class_="cc-known")
    assert all("Model" in figure.text and "Source" in figure.text for figure in figures)
    assert len(figures) > 10
