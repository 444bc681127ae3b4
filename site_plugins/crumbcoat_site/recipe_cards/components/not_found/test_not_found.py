"""What helps where a page is not there."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [link["href"] for link in component.shown.all("a")] == ["/lemon/", "/groups/family/ganache/"]
    assert component.shown.all("form")[0]["action"] == "/"
