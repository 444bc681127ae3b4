"""What a batch costs."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("recipe-calculator")[0]["data-follows"] == "batch"
    assert [body["data-rows"] for body in component.shown.all("tbody")] == ["cost.sums", "cost.lines"]
