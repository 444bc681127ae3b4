"""The drawings, each with a tint, a spot and an outline."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    for drawing in component.shown.all("svg"):
        assert [path["class"] for path in drawing.all("path")] == ["cc-wash", "cc-spot", "cc-outline"]
    assert len(component.shown.all("svg")) == component.html.count("</svg>") > 15
