"""A bar for the fat of each recipe; none where it is not known."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert len(component.shown.all("li")) == 2
    assert [bar["width"] for bar in component.shown.all("rect")] == ["51.8%", "51.8%"]
