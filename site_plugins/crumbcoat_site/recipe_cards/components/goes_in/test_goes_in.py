"""What goes in at a step, with its portion."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [part.text for part in component.shown.all("span", class_="cc-tag")] == ["start"]
