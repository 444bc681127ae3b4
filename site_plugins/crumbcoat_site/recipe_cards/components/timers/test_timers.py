"""The tray of timers, as the scripts build it."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("section", class_="cc-tray")[0]["aria-label"] == "Timers"
