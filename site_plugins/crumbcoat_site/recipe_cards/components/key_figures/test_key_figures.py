"""What a reader wants to know first."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("dt")[0].text == "Fat"
    assert component.shown.all("span", data_text="fat.percent")
