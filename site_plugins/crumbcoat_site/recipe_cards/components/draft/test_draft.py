"""The line above a draft."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("b")[0].text == "Draft until 3 May 2026"
