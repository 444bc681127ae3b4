"""All recipes as cards, each of them one link."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [link["href"] for link in component.shown.all("a")] == ["butter/", "lemon/"]
