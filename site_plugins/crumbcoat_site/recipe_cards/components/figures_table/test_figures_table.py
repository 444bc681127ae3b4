"""What the finished batch is made of."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("caption")[0].text == "What the finished batch is made of"
    assert component.shown.all("tr", class_="cc-of-which")
