"""A field in a sentence, one with a unit, and the places for problems."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("input", name="factor")[0]["aria-describedby"] == "batch-problem-factor"
    assert component.shown.all("span", class_="cc-unit")[0].text == "°C"
