"""A field or a choice with its label, in a grid of such."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("label")[0].text.startswith("My bowl holds")
    (choice,) = component.shown.all("select")
    assert [option["value"] for option in choice.all("option") if "selected" in option.attributes] == ["ounces"]
