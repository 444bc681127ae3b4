"""The form that replaces an ingredient."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("select", name="other.2")
    assert component.shown.all("tbody")[0]["data-rows"] == "rows.exchange"
