"""What the calculator shows, and how it fares."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("output")[0]["name"] == "status"
    assert component.shown.all("button", type="reset")
