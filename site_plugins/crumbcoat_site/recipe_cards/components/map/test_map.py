"""The form of the map of two ingredients."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert {field["name"] for field in component.shown.all("input", type="range")} == {"x_percent", "y_percent"}


def test_the_point_can_be_moved_in_the_picture(component: Component) -> None:
    """By a script: it needs the names of two fields, where the axes end, and a circle to hold."""
    (plane,) = component.shown.all("movable-point")
    names = {field["name"] for field in component.shown.all("input")}
    assert {plane["data-x"], plane["data-y"]} < names
    (picture,) = [svg for svg in plane.all("svg") if "data-x-end" in svg.attributes]
    assert len(list(picture.all("circle"))) == len(list(plane.all("circle"))) == 1
    (grip,) = plane.all(role="slider")
    assert grip["tabindex"] == "0"
    assert grip["aria-label"]
