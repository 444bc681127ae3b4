"""The label: ingredients in words, nutrients by US and EU rules."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [body["data-rows"] for body in component.shown.all("tbody")] == [
        "label.words",
        "label.eu",
        "label.us",
        "label.draft",
    ]
    assert component.shown.all("input", id="on-paper-label")
