"""Other recipes of the section."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("nav")[0]["aria-label"] == "Milk emulsions"
    assert len(component.shown.all("a")) == 2
