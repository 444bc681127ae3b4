"""The line above the card of a trial: its number and the ways back."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("b")[0].text == "Trial 3"
    assert [link["href"] for link in component.shown.all("a")] == ["../#trial-3", "../../"]
