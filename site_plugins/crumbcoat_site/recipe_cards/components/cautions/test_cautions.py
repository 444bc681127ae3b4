"""Cautions: the line that leads to them, and the list."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("a", href="#all-cautions")
    assert component.shown.all("tbody")[0]["data-rows"] == "cautions"
    assert all(row.all("th")[0].text for row in component.shown.all("tr"))
