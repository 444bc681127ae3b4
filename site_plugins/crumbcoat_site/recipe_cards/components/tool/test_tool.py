"""What the calculators' own pages have in common."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("select", data_context_from="recipe")
    assert component.shown.all("a")[0]["href"].startswith("data:application/yaml")
