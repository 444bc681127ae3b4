"""The size of a batch, its measures, and what an amount changes."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert {field["name"] for field in component.shown.all("input")} == {"factor", "portions", "finished_mass", "mode"}
    assert {field["name"] for field in component.shown.all("select")} == {"units", "scale", "eggs"}
