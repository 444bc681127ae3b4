"""What a batch costs."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("input", name="cost.cake")[0]["form"] == "label-of-batch"
    assert [body["data-rows"] for body in component.shown.all("tbody")] == ["cost.sums", "cost.lines"]
