"""All groups of recipes."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [entry.text for entry in component.shown.all("dd")] == ["Ganache 2", "Whipped cream 1"]
