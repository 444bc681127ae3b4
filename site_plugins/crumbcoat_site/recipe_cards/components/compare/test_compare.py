"""The form that compares recipes."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert len(component.shown.all("select")) == 6
    assert {body["data-rows"] for body in component.shown.all("tbody")} == {
        "rows.compare",
        "rows.change",
        "rows.warming",
    }
