"""A button that carries a figure over."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    (button,) = component.shown.all("button")
    assert (button["data-hand-to"], button["data-field"], button.text) == ("batch", "factor", "Make 1.5 batches")
