"""The ground of a picture, with the drawing of a family."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("svg", class_="cc-drawing")


def test_recipes_of_one_family_differ_by_what_they_are_for(component: Component) -> None:
    outlines = [path["d"] for path in component.shown.all("path", class_="cc-outline")]
    assert len(set(outlines)) == len(outlines) == 3
