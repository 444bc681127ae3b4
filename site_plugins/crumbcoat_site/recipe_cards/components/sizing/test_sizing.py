"""Every other way to a size, in one fold."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [element["name"] for element in component.shown.all("recipe-calculator")] == ["cake"]
    assert len(component.shown.all("details", class_="cc-drawer")) >= 3
    presets = [button for button in component.shown.all("button") if "data-value" in button.attributes]
    assert [button.text for button in presets][:2] == ["Half", "Double"]
