"""Baker's percentages, in a fold."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    (body,) = component.shown.all("tbody")
    assert body["data-rows"] == "rows.bakers"
    assert body.all("th")[0].text.startswith("cream")
