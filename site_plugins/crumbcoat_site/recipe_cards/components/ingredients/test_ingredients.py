"""The list of ingredients, with portions, and what may be left out."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert [row.text for row in component.shown.all("tr", class_="cc-portion")] == [
        "400 gstart",
        "100 gwarm",
        "60 gmore, kept back for the checkpoint of step 2.1 4 US tbsp",
    ]
    assert component.shown.all("input", name="without.egg")
