"""The story around a card."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("a")[0]["href"] == "#ingredients"
    assert component.shown.all("div")[0].text == "To the ingredients A pan, a spoon and patience."
