"""A step that may be left out, with its tick."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("input", name="skip.0.1")
    assert component.shown.all("input", data_tick="step 1-2")
