"""The form for a wanted fat content."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("input", name="moves.0")
    assert component.shown.all("a", data_download="file.recipe")
