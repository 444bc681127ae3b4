"""Other ways to a size: the bowl, and the cupboard."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("input", name="bowl")[0]["list"] == "bowls"
    assert component.shown.all("input", name="have.cream")
