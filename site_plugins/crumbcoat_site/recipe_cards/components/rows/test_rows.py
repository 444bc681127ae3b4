"""A table that a calculator fills, in two parts."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [body["data-rows"] for body in component.shown.all("tbody")] == ["split", "more"]
    assert [row.text for row in component.shown.all("tr")][1:] == ["cream250 g", "icing sugar30 g", "salt1 g"]
