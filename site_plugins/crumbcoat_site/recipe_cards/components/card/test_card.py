"""The head of a card; the whole card is tested where pages are built."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("div", class_="cc-head")
