"""A handout: the teacher's sheet, cautions, groups, worksheets and answers."""

from tests.site_plugins.recipe_cards.component_checks import Component, check


def test_the_example(component: Component) -> None:
    check(component)
    kickers = [kicker.text for kicker in component.shown.all("p", class_="cc-kicker")]
    assert {"For the teacher", "For the teacher: run sheet", "Worksheet"} <= set(kickers)
    assert component.shown.all("article", class_="cc-group")
