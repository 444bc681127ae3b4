"""Pictures of results, with hatchings."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    drawn = {name for element in component.shown.walk() for name in element.attributes.get("class", "").split()}
    assert {"cc-hatched", "cc-tint", "cc-fat", "cc-step"} <= drawn
