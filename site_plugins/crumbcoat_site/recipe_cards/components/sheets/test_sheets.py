"""Sheets to print: one to weigh, and one for each test."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert len(component.shown.all("section", class_="cc-to-fill")) == 2
    assert component.shown.all("input", type="checkbox")
