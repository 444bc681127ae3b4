"""The box to leave something out, and the word that says that it is."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("input", name="without.egg")[0]["form"] == "batch"
