"""Fields for the reader's own kitchen."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    fields = {field["name"] for field in component.shown.all("input")}
    assert {"bowl_temperature", "temperature.egg", "ph"} <= fields


def test_what_the_recipe_heats_has_no_field(component: Component) -> None:
    assert "temperature.sugar" not in {field["name"] for field in component.shown.all("input")}
    assert "heats or cools" in component.shown.text
