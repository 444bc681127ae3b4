"""A button that carries a figure over."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    (button,) = component.shown.all("button")
    assert (button["data-hand-to"], button["data-field"]) == ("batch", "factor")
    handed, shown = component.shown.all("span")
    assert (handed["data-text"], handed.text, "hidden" in handed.attributes) == (button["data-text-of"], "0.7317", True)
    assert shown.text == "0.73 batches"
