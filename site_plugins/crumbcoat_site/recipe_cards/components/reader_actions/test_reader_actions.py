"""What the reader does with a card."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [button["data-do"] for button in component.shown.all("button")] == ["bench", "print", "link", "unlink"]
