"""A box to tick."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("input")[0]["aria-label"] == "cream is set out"
