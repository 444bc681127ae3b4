"""Why a batch holds: the words, the picture, the table and the figures."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    assert component.shown.all("div", data_picture="picture.phases")
    assert component.shown.all("tbody", data_rows="rows.stages")
